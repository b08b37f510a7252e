// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>

#include <regex>

#include "../conversion/example.hpp"
#include "documents/build_sheet.hpp"
#include "documents/insert_mass.hpp"
#include "parts/insert_shapes.hpp"
#include "printed.hpp"

namespace backfit {
namespace {

using testing::HasSubstr;

// The conversion to 6 × 6 cm; the search for its path takes a second.
const Report& six_by_six() {
  static const Report report = [] {
    Report r = example_report("kestrel", "kestrel-6x6.conversion.toml");
    add_insert(r, shipped_catalogue());
    return r;
  }();
  return report;
}

std::string words_of(const Report& report) {
  const std::string pdf = paper::file("insert.pdf", build_sheet(report, {}, paper::font_folder));
  return std::regex_replace(paper::text_in(pdf), std::regex("\\s+"), " ");
}

// The template says what must go, with its places from the survey, the hole's from the path, and
// the cautions of the job.
TEST(InsertPages, TellWhatMustGoFromTheCamera) {
  const std::string words = words_of(six_by_six());
  EXPECT_THAT(words, HasSubstr("What must go from the camera, 1:1"));
  EXPECT_THAT(words, HasSubstr("old roller −42.00 42.00 54.00 59.00 2.00 6.00 take out"));
  EXPECT_THAT(words, HasSubstr("latch of the back −9.00 9.00 −62.00 −59.00 31.00 36.00 stays"));
  EXPECT_THAT(words, HasSubstr("hole for the knob's shaft"));
  for (const char* caution : {"flash capacitor", "Eye protection", "springs", "filings", "Clamp"}) {
    EXPECT_THAT(words, HasSubstr(caution));
  }
}

TEST(InsertPages, ShowTheFilmsWayAndItsTurns) {
  const std::string words = words_of(six_by_six());
  EXPECT_THAT(words, HasSubstr("The film's way"));
  EXPECT_THAT(words, HasSubstr("old roller, out"));
  EXPECT_THAT(words, HasSubstr("1 10 12 10 + 12 7 1 6 17 + 34"));
}

TEST(InsertPages, StepsSayHowASpoolIsLoaded) {
  const std::string words = words_of(six_by_six());
  EXPECT_THAT(words, HasSubstr("Print the gauge, then the pieces"));
  EXPECT_THAT(words, HasSubstr("Draw both pins of a spool by 3.3 mm"));
}

// Truth: by hand. A plate of 58 by 66 mm, 1.6 thick, of 1.27 g/cm3: 7.8 g with its ears.
TEST(InsertMass, IsVolumeTimesDensity) {
  const Report& r = six_by_six();
  const RollInsert& i = *r.insert->part;
  const double plate_mm3 = 58 * (2 * (65.9 / 2 + 0.3) - 0.5) * 1.6;
  const double ear_mm3 = 4 * 9.5 * (1.2 + 0.25 + 0.6) * 1.6;  // from the plate's edge on
  const double hole_mm3 = std::numbers::pi / 4 * 9 * 9 * 1.6;
  const double expected = (plate_mm3 + ear_mm3 - hole_mm3) * 1.27e-3;
  EXPECT_NEAR(*paper::printed_mass_of(r.assembly, pressure_plate(i)) / gram, expected, 1e-3);
}

}  // namespace
}  // namespace backfit
