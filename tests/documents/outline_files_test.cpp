// SPDX-License-Identifier: MIT
#include "documents/outline_files.hpp"

#include <gmock/gmock.h>

#include "printed.hpp"

namespace backfit {
namespace {

using testing::HasSubstr;

const FlatOutlines& frame() {
  static const FlatOutlines outlines{
      {{-20 * mm, -15 * mm}, {20 * mm, -15 * mm}, {20 * mm, 15 * mm}, {-20 * mm, 15 * mm}},
      {{-10.25 * mm, -5 * mm}, {10.25 * mm, -5 * mm}, {0 * mm, 5 * mm}}};
  return outlines;
}

// Truth: a general-purpose library that reads the format and audits what it reads; Debian installs
// it for its own python.
TEST(Dxf, IsReadByAnotherLibraryWithClosedOutlinesInPlace) {
  const std::string file = paper::file("frame.dxf", dxf_file(frame(), "gate mask, ½"));
  const std::string script = paper::file(
      "read.py",
      "import sys, ezdxf\n"
      "d = ezdxf.readfile(sys.argv[1])\n"
      "assert not d.audit().has_errors\n"
      "print(d.dxfversion)\n"
      "for p in d.modelspace():\n"
      "    print(p.dxftype(), p.is_closed, p.dxf.layer,\n"
      "          *('%.4f,%.4f' % (v.dxf.location.x, v.dxf.location.y) for v in p.vertices))\n");
  EXPECT_EQ(paper::said("/usr/bin/python3 " + script + " " + file),
            "AC1009\n"
            "POLYLINE True OUTLINE -20.0000,-15.0000 20.0000,-15.0000 20.0000,15.0000 "
            "-20.0000,15.0000\n"
            "POLYLINE True OUTLINE -10.2500,-5.0000 10.2500,-5.0000 0.0000,5.0000\n");
}

TEST(SvgOutline, IsAsLargeAsTheOutlineWithAnEdge) {
  const std::string svg = svg_outline_file(frame(), "mask & more");
  EXPECT_THAT(
      svg, HasSubstr("width=\"44.0000mm\" height=\"34.0000mm\" viewBox=\"0 0 44.0000 34.0000\""));
  EXPECT_THAT(svg, HasSubstr("<title>mask &amp; more</title>"));
  EXPECT_THAT(svg, HasSubstr("M2.0000 32.0000L42.0000 32.0000L42.0000 2.0000L2.0000 2.0000Z"));
  EXPECT_THAT(svg, HasSubstr("M11.7500 22.0000L32.2500 22.0000L22.0000 12.0000Z"));
}

}  // namespace
}  // namespace backfit
