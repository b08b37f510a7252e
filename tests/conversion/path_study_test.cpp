// SPDX-License-Identifier: MIT
#include "conversion/path_study.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "example.hpp"

namespace backfit {
namespace {

Assembly assembly(const char* name) { return example_assembly("kestrel", name); }

const Finding* finding(const PathStudy& s, std::string_view id) {
  const auto it = std::ranges::find(s.findings, id, &Finding::id);
  return it == s.findings.end() ? nullptr : &*it;
}

TEST(PathStudy, LaysTheRollsBesideSixBySix) {
  const PathStudy s = path_study(assembly("kestrel-6x6.conversion.toml"), catalogue());
  ASSERT_TRUE(s.layout);
  EXPECT_LT(s.layout->supply.x, -28 * mm);
  EXPECT_GT(s.layout->take_up.x, 28 * mm);
  EXPECT_EQ(s.frames, 12);
  EXPECT_GT(s.clearances.front().gap, 0 * mm);
  ASSERT_EQ(s.table.size(), 12U);
  EXPECT_GT(s.table[1].advance, s.table[11].advance);
}

TEST(PathStudy, FoldsTheFilmRoundForSixByNine) {
  const PathStudy s = path_study(assembly("kestrel-6x9.conversion.toml"), catalogue());
  ASSERT_TRUE(s.layout);
  EXPECT_GT(s.layout->supply.x, -42 * mm);
  EXPECT_LT(s.layout->take_up.x, 42 * mm);
  EXPECT_EQ(s.frames, 8);
  EXPECT_EQ(s.cut_away, std::vector<std::string>{"old roller"});
  EXPECT_GT(s.clearances.front().gap, 0 * mm);
}

// Law: a mirrored chamber with the film going the other way has the mirrored path, bit for bit.
TEST(PathStudy, OfTheMirroredChamberIsTheMirroredPath) {
  const Assembly a = assembly("kestrel-6x9.conversion.toml");
  Assembly b = a;
  for (ChamberPart& p : b.camera.chamber->parts) p.y.value.value = -p.y->value;
  b.plan.insert->film_goes->value = FilmTravel::down;
  const PathStudy one = path_study(a, catalogue());
  const PathStudy two = path_study(b, catalogue());
  ASSERT_TRUE(one.layout && two.layout);
  const CameraPoint p = camera_point(one.design, one.layout->take_up);
  const CameraPoint q = camera_point(two.design, two.layout->take_up);
  EXPECT_EQ(p.y, -q.y);
  EXPECT_EQ(p.z, q.z);
  EXPECT_EQ(one.layout->effort, two.layout->effort);
}

// Law: what the chamber lacks is said where no path is found, and a shorter frame that fits.
TEST(PathStudy, SaysWhatIsMissingInAShallowChamber) {
  Assembly a = assembly("kestrel-6x9.conversion.toml");
  a.camera.chamber->behind_film.value.value = 29 * mm;
  const PathStudy s = path_study(a, catalogue());
  EXPECT_FALSE(s.layout);
  EXPECT_EQ(s.verdict, Verdict::does_not_fit);
  ASSERT_TRUE(s.shortage.behind);
  // Plate, flange as large as it may be and two clearances, less what lies within the body:
  // 3.2 + 25.2 + 0.8 - (29 - 0.2 - 1.6 - 0.3) = 2.3 mm. Tolerance: the search's.
  EXPECT_NEAR(*s.shortage.behind / mm, 2.3, 0.02);
  ASSERT_NE(finding(s, "path-does-not-fit"), nullptr);
  EXPECT_FALSE(finding(s, "path-does-not-fit")->remedies.empty());
}

// Law: doubt in the roll shows in the gap between frames; the catalogue's own figures, from
// memory, leave more of it than the owner's caliper.
TEST(PathStudy, MeasuringTheRollMakesTheFramesSurer) {
  Assembly a = assembly("kestrel-6x6.conversion.toml");
  const PathStudy measured = path_study(a, catalogue());
  a.plan.insert->spool.reset();
  a.plan.insert->backing_paper.reset();
  const PathStudy shipped = path_study(a, catalogue());
  ASSERT_TRUE(measured.layout && shipped.layout);
  EXPECT_LT(measured.least_gap->standard_uncertainty, shipped.least_gap->standard_uncertainty);
  EXPECT_GT(measured.odds_frames, shipped.odds_frames);
  EXPECT_TRUE(measured.missing.empty());
  EXPECT_FALSE(shipped.missing.empty());
  EXPECT_FALSE(shipped.window);
  EXPECT_NE(finding(shipped, "roll-not-measured"), nullptr);
}

}  // namespace
}  // namespace backfit
