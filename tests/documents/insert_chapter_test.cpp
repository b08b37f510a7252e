// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>

#include <regex>

#include "../conversion/example.hpp"
#include "documents/build_sheet.hpp"
#include "documents/json.hpp"
#include "documents/set_words.hpp"
#include "printed.hpp"

namespace backfit {
namespace {

using testing::HasSubstr;

// The template says what must go, with its places from the survey, the hole's from the path, and
// the cautions of the job.
TEST(InsertPages, TellWhatMustGoHowFilmRunsAndHowItIsLoaded) {
  Report report = example_report("kestrel", "kestrel-6x6.conversion.toml");
  add_insert(report, shipped_catalogue());
  const std::string pdf = paper::file("insert.pdf", build_sheet(report, {}, paper::font_folder));
  const std::string words = std::regex_replace(paper::text_in(pdf), std::regex("\\s+"), " ");
  EXPECT_THAT(words, HasSubstr("What must go from the camera, 1:1"));
  EXPECT_THAT(words, HasSubstr("old roller −42.00 42.00 54.00 59.00 2.00 6.00 take out"));
  EXPECT_THAT(words, HasSubstr("latch of the back −9.00 9.00 −62.00 −59.00 31.00 36.00 stays"));
  EXPECT_THAT(words, HasSubstr("hole for the knob's shaft"));
  for (const char* caution : {"flash capacitor", "Eye protection", "springs", "filings", "Clamp"}) {
    EXPECT_THAT(words, HasSubstr(caution));
  }
  EXPECT_THAT(words, HasSubstr("The film's way"));
  EXPECT_THAT(words, HasSubstr("old roller, out"));
  EXPECT_THAT(words, HasSubstr("1 10 13 10 + 13 7 1 6 17 + 35"));
  EXPECT_THAT(words, HasSubstr("Print the gauge, then the pieces"));
  EXPECT_THAT(words, HasSubstr("Draw both pins of a spool by 3.3 mm"));
  // Programs read the same: the hole in the right wall, 90 mm wide less 0.2 at worst.
  const std::string json = report_json(report);
  EXPECT_THAT(json, HasSubstr("\"taken_out\": [\n      \"old roller\"\n    ]"));
  EXPECT_THAT(json, HasSubstr("\"knob_hole\": {\n      \"x_mm\": 44.9,"));
}

// Truth: a cubic centimetre of the plan's 1.27 g/cm3.
TEST(InsertMass, IsVolumeTimesDensity) {
  const Report r = example_report("kestrel", "kestrel-4x5.conversion.toml");
  const Solid cube = box(Point3{}, {10 * mm, 10 * mm, 10 * mm});
  EXPECT_NEAR(*paper::printed_mass_of(r.assembly, cube) / gram, 1.27, 1e-9);
}

}  // namespace
}  // namespace backfit
