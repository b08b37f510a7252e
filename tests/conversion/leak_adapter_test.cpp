// SPDX-License-Identifier: MIT
// Light through the seams and walls of the demos' instant backs on their adapters.
#include <gtest/gtest.h>

#include "conversion/leak_back.hpp"
#include "conversion/leak_scene.hpp"
#include "example.hpp"
#include "leak_scenes.hpp"

namespace backfit {
namespace {

const std::vector<Turn> groove_on_right{Turn::right, Turn::left, Turn::left, Turn::right};
const std::vector<Turn> groove_on_left{Turn::left, Turn::right, Turn::right, Turn::left};

// Its back has a tongue, or a groove for a loose one.
const Assembly& with_tongue() {
  static const Assembly a =
      of_unknown_print(example_assembly("kestrel", "kestrel-62x46.conversion.toml"));
  return a;
}
const Assembly& with_groove() {
  static const Assembly a =
      of_unknown_print(example_assembly("kestrel", "kestrel-79x79.conversion.toml"));
  return a;
}
// The same without either.
Assembly flat() {
  Assembly a = with_tongue();
  a.plan.back->mounting->trap.reset();
  a.adapter->groove.reset();
  return a;
}

// Truth: by hand, from the survey and the plan as they are written (examples/kestrel): the printer
// may be off by 0.10 mm and clears 0.25 mm a side; the adapter is 137.8 × 175.8 mm, the back 92 ×
// 116 mm with its middle 6 mm above the axis, its opening 50 × 66 mm about the axis.
TEST(LeakAdapter, HasTheSeamsOfItsParts) {
  const SeamScene s = seam_scene(with_tongue(), LeakBack{}, 2, 3);
  ASSERT_EQ(s.seams.size(), 8U);
  // Seat: groove 107 mm inside and 2.8 mm wide, 3 mm deep; the chamber's room is 90 mm wide.
  const LeakSeam& seat = seam_of(s, "seat seam", "right");
  expect_near(seat.profile.widths, {0.1, 0.25, 0.35, 0.25, 0.1});
  expect_near(seat.profile.arms, {12.6, 2.65, 2.3, 2.65, 8.5});
  EXPECT_EQ(seat.profile.turns, groove_on_right);
  // The back's tongue: 58 × 86 mm inside, 2 mm thick, 1.8 mm long; the groove is 0.25 mm larger all
  // round.
  const LeakSeam& right = seam_of(s, "instant back's seam", "right");
  expect_near(right.profile.widths, {0.1, 0.25, 0.35, 0.25, 0.1});
  expect_near(right.profile.arms, {14.75, 1.7, 2.0, 1.7, 3.75});
  EXPECT_EQ(right.profile.turns, groove_on_right);
  EXPECT_NEAR(right.length / mm, 116, 1e-9);
  expect_near(seam_of(s, "instant back's seam", "above").profile.arms,
              {12.75, 1.7, 2.0, 1.7, 15.75});
  expect_near(seam_of(s, "instant back's seam", "below").profile.arms,
              {12.75, 1.7, 2.0, 1.7, 3.75});
}

// Truth: by hand likewise: the back's groove is 88 mm inside, 2.4 mm wide and 2 mm deep; the loose
// tongue stands 1.75 mm out of the adapter's groove, glued there, 0.25 mm from each side.
TEST(LeakAdapter, GoesRoundALooseTongueInTheBacksGroove) {
  const SeamScene s = seam_scene(with_groove(), LeakBack{}, 2, 3);
  const LeakSeam& right = seam_of(s, "instant back's seam", "right");
  expect_near(right.profile.widths, {0.1, 0.25, 0.35, 0.25, 0.1});
  expect_near(right.profile.arms, {7.6, 1.65, 1.9, 1.65, 3.0});
  EXPECT_EQ(right.profile.turns, groove_on_left);
  EXPECT_EQ(
      std::ranges::count_if(s.not_counted,
                            [](const std::string& way) { return way.find("glue") < way.size(); }),
      1);
}

// Truth: by hand: beside the back, 46 mm from the axis, the adapter lies on the seat all the way in
// to the chamber's room, 45 mm from it: light slants through the print, over 1 mm beside the
// adapter's 3.4 mm.
TEST(LeakAdapter, HasItsWallsWhereDaylightMeetsIt) {
  const SeamScene s = seam_scene(with_tongue(), LeakBack{}, 2, 3);
  ASSERT_EQ(s.walls.size(), 4U);
  const Length thick = with_tongue().adapter->thickness;
  EXPECT_NEAR(wall_of(s, "adapter's wall", "right").thickness / mm, std::hypot(1, thick / mm),
              1e-9);
  EXPECT_TRUE(seam_scene(with_tongue(), LeakBack{.foil = true}, 2, 3).walls.empty());
}

// Law: every seam and wall leads to the film, whose emulsion faces the lens; their shares are the
// whole.
TEST(LeakAdapter, EachWayLeadsToTheFilm) {
  for (const Assembly* a : {&with_tongue(), &with_groove()}) {
    SeamScene whole = seam_scene(*a, LeakBack{}, 2, 3);
    EXPECT_FALSE(fault_of(whole));
    EXPECT_EQ(facing(whole.film), -1);
    whole.readings = thin_print;
    const LeakStudy s = studied(whole);
    ASSERT_EQ(s.seams.size(), whole.seams.size() + whole.walls.size());
    for (const LeakSeamLight& way : s.seams) EXPECT_GT(way.share, 0) << way.name << way.side;
    EXPECT_NEAR(all_shares(s), 1, 1e-9);
  }
}

// Law: narrower gaps pass less; between flat faces felt shuts what was open, or passes what it was
// read to.
TEST(LeakAdapter, GrowsWithItsGaps) {
  const auto light = [](const Assembly& a, const LeakBack& back) {
    return light_on(studied(seam_scene(a, back, 2, 3), false, 16384), true);
  };
  const double usual = light(with_tongue(), {});
  EXPECT_LT(light(with_tongue(), {.seat_gap = 0.05 * mm, .holder_gap = 0.05 * mm}), usual);
  const Assembly open = flat();
  const double bare = light(open, {.felt_round_holder = false});
  EXPECT_GT(bare, 1e6 * usual);
  const double felted = light(open, {.felt = Slab{1, 2}});
  EXPECT_LT(felted, bare);
  EXPECT_GT(felted, light(open, {}));
}

// Law: with the sun as well there is a verdict; all ways' shares are the whole, and what helps
// helps.
TEST(LeakAdapter, HasAVerdictAndRemedies) {
  const LeakStudy s = studied(seam_scene(with_tongue(), LeakBack{}, 2, 3), true, 65536,
                              seam_remedies(with_tongue(), LeakBack{}, 2, 3));
  ASSERT_TRUE(s.worst_light.interval);
  EXPECT_EQ(s.verdict, LeakVerdict::tight);
  EXPECT_NEAR(all_shares(s), 1, 1e-9);
  ASSERT_TRUE(s.wall_need);
  EXPECT_EQ(s.wall_need->wall, "adapter's wall");
  ASSERT_FALSE(s.remedies.empty());
  for (const LeakStudy::Remedied& r : s.remedies) {
    ASSERT_TRUE(r.light.interval) << r.what;
    EXPECT_LT(r.light.mean, s.worst_light.mean) << r.what;
  }
  EXPECT_FALSE(leak_refusal({with_tongue()}));
}

// Law: an instant back that fits the seat itself has no adapter, and is told what to add.
TEST(LeakAdapter, IsRefusedWithoutAMounting) {
  Assembly a = with_tongue();
  a.adapter.reset();
  const auto why = leak_refusal({a});
  ASSERT_TRUE(why);
  EXPECT_TRUE(why->help.ends_with("[back.mounting]"));
}

}  // namespace
}  // namespace backfit
