// SPDX-License-Identifier: MIT
#include "conversion/cover_study.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "kestrel.hpp"

namespace backfit {
namespace {

Report kestrel_report(const std::string& lens_line = {}) {
  Edits edits;
  if (!lens_line.empty())
    edits.push_back({"kind = \"triplet\"", "kind = \"triplet\"\n" + lens_line});
  const Kestrel k(edits);
  return *k.report;
}

// Law: the map's shadow is the register study's: light up to the frame that sees half of the pupil,
// none beyond the frame that sees nothing of it.
TEST(CoverStudy, AgreesWithTheShadowOfTheOldGate) {
  const Report r = kestrel_report();
  const CoverStudy c = cover_study(r, {});
  EXPECT_EQ(c.grade, CircleGrade::lens_kind);
  EXPECT_NEAR(*c.clear_circle / mm, r.frame.whole.width / mm, 0.1);
  for (const CoverStudy::Row& row : c.rows) EXPECT_FALSE(row.corner);
  EXPECT_EQ(c.map.columns, 9);
  const auto& centre = c.map.at(4, 4);
  ASSERT_TRUE(centre);
  EXPECT_NEAR(centre->value, 0, 1e-12);
}

// Law: a larger allowance never makes the frame smaller; nearer subjects never make the circle so.
TEST(CoverStudy, GivesMoreForMoreLossAllowed) {
  const Report r = kestrel_report();
  Length before;
  for (const double stops : {0.3, 0.6, 1.0, 2.0, 4.0}) {
    const CoverStudy c = cover_study(r, {{}, 2, {stops}});
    EXPECT_GE(c.rows.front().largest.width, before);
    before = c.rows.front().largest.width;
  }
}

// Common practice, no source: a three-element lens near 115 mm covers the picture of its pack film,
// and 4 x 5 in only with dark corners.
TEST(CoverStudy, ThreeElementLensCoversItsPackAndNotTheLargerSheet) {
  const Report r = kestrel_report();
  const FrameSize pack{r.assembly.camera.gate.width->value, r.assembly.camera.gate.height->value};
  EXPECT_GE(r.circle.circle.value + 2 * r.circle.circle.standard_uncertainty, pack.diagonal());
  EXPECT_LT(r.circle.circle.value, r.frame.window.diagonal());
}

TEST(CoverStudy, TracesTheLensThatTheCameraNames) {
  const std::string path = std::string(BACKFIT_SOURCE_DIR) + "/data/lenses/triplet-f8.lens.toml";
  const Report r = kestrel_report("prescription = \"" + path + "\"");
  const CoverStudy c = cover_study(r, {});
  EXPECT_EQ(c.grade, CircleGrade::prescription);
  ASSERT_TRUE(r.assembly.prescription);
  // The traced lens lights the side of the sheet more than the cosine law says: its entrance pupil
  // swells off the axis.
  const CoverStudy plain = cover_study(kestrel_report(), {});
  EXPECT_LT(c.map.at(6, 4)->value, plain.map.at(6, 4)->value);
}

}  // namespace
}  // namespace backfit
