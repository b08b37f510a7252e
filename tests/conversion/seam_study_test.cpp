// SPDX-License-Identifier: MIT
// Light through the seams of the demo's back.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "conversion/leak_back.hpp"
#include "conversion/leak_study.hpp"
#include "example.hpp"

namespace backfit {
namespace {

LeakStudy study(const LeakBack& back, LeakQuestions asked = {}, bool with_remedies = false) {
  const Assembly a = example_assembly("kestrel", "kestrel-4x5.conversion.toml");
  LeakWatch watch;
  watch.threads = 2;
  const SeamScene scene = seam_scene(a, back, 2, 3);
  EXPECT_FALSE(fault_of(scene));
  return *leak_study(scene, asked,
                     with_remedies ? seam_remedies(a, back, 2, 3) : std::vector<SeamRemedy>{},
                     watch);
}

// Law: the rooms' walls are those of the boxes without what is open between them.
TEST(Hollow, HasTheWallsOfItsRooms) {
  const auto rooms = std::vector<HollowRoom>{{10 * mm, 20 * mm, -5 * mm, 0 * mm, 0},
                                             {14 * mm, 6 * mm, 0 * mm, 3 * mm, 1}};
  const Surfaces s = hollow_of(rooms, {{0.05}, {0.04}});
  double area = 0;
  for (const auto& t : s.triangles) {
    const SpacePoint &a = s.points[t.corners[0]], &b = s.points[t.corners[1]],
                     &c = s.points[t.corners[2]];
    const double x1 = (b.x - a.x) / mm, y1 = (b.y - a.y) / mm, z1 = (b.z - a.z) / mm;
    const double x2 = (c.x - a.x) / mm, y2 = (c.y - a.y) / mm, z2 = (c.z - a.z) / mm;
    area += std::hypot(y1 * z2 - z1 * y2, z1 * x2 - x1 * z2, x1 * y2 - y1 * x2) / 2;
  }
  const double boxes = 2 * (10 * 20 + 10 * 5 + 20 * 5) + 2 * (14 * 6 + 14 * 3 + 6 * 3);
  EXPECT_NEAR(area, boxes - 2 * 10 * 6, 1e-9);
}

// The aim of the whole: the demo's back has a number, to a tenth, and each seam its name.
TEST(SeamStudy, OfTheDemosBackConverges) {
  const LeakStudy s = study({});
  ASSERT_TRUE(s.worst_light.interval);
  EXPECT_LT(s.worst_light.standard_error, 0.1 * s.worst_light.mean);
  EXPECT_EQ(s.verdict, LeakVerdict::tight);
  ASSERT_EQ(s.seams.size(), 4U);
  double all = 0;
  for (const LeakSeamLight& seam : s.seams) {
    EXPECT_EQ(seam.name, "seat seam");
    all += seam.share;
  }
  EXPECT_NEAR(all, 1, 1e-9);
  EXPECT_EQ(s.not_counted.size(), 2U);
  EXPECT_TRUE(s.wall_need);
}

// Law: under a sky alone the left side is as bright as the right one, for the back is alike there.
TEST(SeamStudy, IsAlikeOnBothSides) {
  LeakQuestions asked;
  asked.sun = {};
  const LeakStudy s = study({}, asked);
  for (std::size_t row = 0; row < 3; ++row) {
    const TallyResult &left = s.patches[2 * row].all, &right = s.patches[2 * row + 1].all;
    EXPECT_NEAR(left.mean, right.mean, 4.5 * std::hypot(left.standard_error, right.standard_error));
  }
}

// Law: wider gaps pass more, and a flat seam without felt far more than a bent one.
TEST(SeamStudy, GrowsWithTheGap) {
  const double narrow = study({.seat_gap = 0.1 * mm}).worst_light.mean;
  const double wide = study({.seat_gap = 0.3 * mm}).worst_light.mean;
  const LeakStudy flat = study({.felt_round_holder = false});
  EXPECT_GT(wide, 2 * narrow);
  EXPECT_GT(flat.worst_light.mean, 1e6 * narrow);
  EXPECT_EQ(flat.verdict, LeakVerdict::leaks);
  EXPECT_EQ(flat.seams.front().name, "holder seam");
}

// Law: what helps helps.
TEST(SeamStudy, RemediesHelp) {
  const LeakStudy s = study({}, {}, true);
  ASSERT_EQ(s.remedies.size(), 4U);
  for (const LeakStudy::Remedied& r : s.remedies) {
    ASSERT_TRUE(r.light.interval) << r.what;
    EXPECT_LT(r.light.mean, s.worst_light.mean) << r.what;
  }
}

// The demo's back, its print read so that a wall as thick takes `stops`: it scatters hardly, so
// they go with the thickness.
Assembly printed_of(Length thickness, double stops) {
  Assembly a = example_assembly("kestrel", "kestrel-4x5.conversion.toml");
  const double absorption = stops * std::numbers::ln2 / (thickness / mm);
  for (const Length step : {0.4 * mm, 0.8 * mm}) {
    WallReading reading;
    reading.thickness.value = exactly(step);
    reading.stops.value = -std::log2(transmission(Slab{1e-5 * absorption, absorption}, step));
    reading.within_stops = Stated<double>{0.0, {}};
    a.plan.printer->wall_readings.push_back(reading);
  }
  return a;
}

LeakStudy study_of(const Assembly& a, bool with_remedies = false) {
  LeakWatch watch;
  watch.threads = 2;
  return *leak_study(seam_scene(a, {}, 2, 3), {},
                     with_remedies ? seam_remedies(a, {}, 2, 3) : std::vector<SeamRemedy>{}, watch);
}

// Law: without readings the answer says what the walls must take at the least; a print whose walls
// take just that brings the film in an hour what shows, and the doubt of the meter with it.
TEST(SeamStudy, SaysWhatPrintedWallsMustTake) {
  const LeakStudy without = study({});
  ASSERT_TRUE(without.wall_need);
  EXPECT_GT(without.wall_need->thickness, 5 * mm);  // slanting, between holder and seat
  const LeakStudy s =
      study_of(printed_of(without.wall_need->thickness, without.wall_need->least.value));
  EXPECT_FALSE(s.wall_need);
  ASSERT_TRUE(s.worst_light.interval);
  // All walls as thin as the thinnest would bring just that; the others are thicker.
  const double spare = std::log2(s.fog.front().time / leak_time);
  EXPECT_GT(spare, -0.1);
  EXPECT_LT(spare, 4);
  EXPECT_EQ(s.seams.front().name, "plate's wall");
  ASSERT_TRUE(s.seams.front().thickness);
  EXPECT_NEAR(
      -std::log2(s.seams.front().through),
      without.wall_need->least.value * (*s.seams.front().thickness / without.wall_need->thickness),
      0.01);
  EXPECT_EQ(s.ways.front().seams.substr(0, 24), "through the plate's wall");
}

// Law: what is read 10 stops darker brings 10 stops less, as long as the walls bring most; foil
// leaves the seams alone.
TEST(SeamStudy, GoesWithWhatThePrintPasses) {
  const LeakStudy light = study_of(printed_of(10 * mm, 20), true);
  const LeakStudy dark = study_of(printed_of(10 * mm, 30));
  const double factor = light.worst_light.mean / dark.worst_light.mean;
  EXPECT_GT(std::log2(factor), 9.9);
  EXPECT_EQ(light.verdict, LeakVerdict::leaks);
  const auto foil = std::ranges::find_if(
      light.remedies, [](const LeakStudy::Remedied& r) { return r.what.starts_with("foil"); });
  ASSERT_NE(foil, light.remedies.end());
  // On the patch that the walls lit most; another may get more through the seams.
  EXPECT_GT(foil->light.mean, 0);
  EXPECT_LT(foil->light.mean, 1.2 * study({}).worst_light.mean);
}

// Law: a study that is told to stop stops.
TEST(SeamStudy, Stops) {
  const Assembly a = example_assembly("kestrel", "kestrel-4x5.conversion.toml");
  LeakWatch watch;
  watch.may_go_on = [] { return false; };
  EXPECT_FALSE(leak_study(seam_scene(a, {}, 2, 3), {}, {}, watch));
}

}  // namespace
}  // namespace backfit
