// SPDX-License-Identifier: MIT
// Light past the demo's holder in the pack's place.
#include <gtest/gtest.h>

#include "conversion/leak_pack.hpp"
#include "conversion/leak_scene.hpp"
#include "example.hpp"
#include "leak_scenes.hpp"

namespace backfit {
namespace {

const Assembly& paper() {
  static const Assembly a =
      of_unknown_print(example_assembly("kestrel", "kestrel-paper.conversion.toml"));
  return a;
}
SeamScene scene(const LeakPack& pack = {}) { return seam_scene(paper(), pack, 2, 3); }

// Truth: by hand, from the survey and the plan as they are written (examples/kestrel): the printer
// may be off by 0.05 mm and clears 0.25 mm a side; the place is 89.5 × 123.5 mm, each within 0.2;
// the gate 73 × 95 mm and so the picture.
TEST(LeakPack, HasTheSeamsOfItsPart) {
  const PackHolder& h = *paper().pack_holder;
  const SeamScene s = scene({.slide_gap = 0.2 * mm, .tape = false});
  ASSERT_EQ(s.seams.size(), 9U);
  const LeakSeam& right = seam_of(s, "holder's face", "right");
  expect_near(right.profile.widths, {0.35, 0.05});
  expect_near(right.profile.arms, {h.thickness() / mm, (88.8 - 73) / 2});
  EXPECT_EQ(right.profile.turns, std::vector<Turn>{Turn::left});
  EXPECT_NEAR(right.length / mm, 122.8, 1e-9);
  expect_near(seam_of(s, "holder's face", "above").profile.arms,
              {h.thickness() / mm, (122.8 - 95) / 2});
  // Tabs came out at the bottom; the slide is drawn to 1 mm beyond the picture.
  const LeakSeam& mouth = seam_of(s, "dark slide's mouth", "below");
  expect_near(mouth.profile.arms, {122.8 / 2 - 95.0 / 2 - 1});
  const LeakSeam& lid = seam_of(s, "lid's edge", "left");
  expect_near(lid.profile.widths, {0.25, 0.05});
  expect_near(lid.profile.arms, {1.2, 2.0});
}

// Law: each way alone leads to the sheet, and to that side of it alone to which it opens. The
// picture's emulsion faces the lens.
TEST(LeakPack, EachWayLeadsToItsSideOfTheSheet) {
  const SeamScene whole = scene({.slide_gap = 0.2 * mm, .tape = false});
  EXPECT_FALSE(fault_of(whole));
  EXPECT_EQ(facing(whole.film), -1);
  ASSERT_EQ(whole.pieces.size(), 1U);
  const auto expect_one_side = [](const SeamScene& s, bool picture, const std::string& name) {
    const LeakStudy light = studied(s, false, 2048);
    EXPECT_GT(light_on(light, picture), 0) << name;
    EXPECT_EQ(light_on(light, !picture), 0) << name;
  };
  for (const LeakSeam& seam : whole.seams) {
    expect_one_side(alone(whole, seam), seam.name != "lid's edge", seam.name + ", " + seam.side);
  }
  for (const PrintedWall& wall : whole.walls) {
    expect_one_side(alone(whole, wall), wall.name == "holder's side", wall.name + ", " + wall.side);
  }
}

// Law: alike on both sides under a sky; narrower gaps pass less; felt beside the holder shuts its
// face, or passes what it was read to.
TEST(LeakPack, GoesWithItsGaps) {
  const LeakStudy usual = studied(scene(), false, 65536);
  for (std::size_t row = 0; row < 3; ++row) {
    const TallyResult &left = usual.patches[2 * row].all, &right = usual.patches[2 * row + 1].all;
    ASSERT_TRUE(left.interval && right.interval);
    EXPECT_NEAR(left.mean, right.mean, 4.5 * std::hypot(left.standard_error, right.standard_error));
  }
  EXPECT_GT(light_on(studied(scene({.face_gap = 0.1 * mm})), true), 1.5 * light_on(usual, true));
  const LeakStudy felted = studied(scene({.felt_beside = true, .felt = Slab{1, 2}}));
  EXPECT_LT(light_on(felted, true), 0.01 * light_on(usual, true));
  EXPECT_GT(light_on(felted, true), 0);
  EXPECT_TRUE(scene({.felt_beside = true}).seams.empty());
}

// Law: a holder without a slide has no tape round its lid, whose edges then light the sheet's back;
// tape is what would help.
TEST(LeakPack, ShowsTheLidOfAHolderWithoutASlide) {
  Assembly a = paper();
  a.pack_holder->slide.reset();
  const SeamScene s = seam_scene(a, LeakPack{}, 2, 3);
  EXPECT_EQ(s.seams.size(), 8U);
  const auto remedies = seam_remedies(a, LeakPack{}, 2, 3);
  EXPECT_TRUE(std::ranges::any_of(
      remedies, [](const SeamRemedy& r) { return r.what == "black tape along the lid's edges"; }));
}

// Law: with the sun as well there is a verdict, all ways' shares are the whole, and the answer says
// what it takes as open.
TEST(LeakPack, HasAVerdict) {
  const LeakStudy s = studied(scene(), true, 65536, seam_remedies(paper(), LeakPack{}, 2, 3));
  ASSERT_TRUE(s.worst_light.interval);
  EXPECT_EQ(s.verdict, LeakVerdict::leaks);
  EXPECT_TRUE(s.shelter.starts_with("the camera's closed back"));
  EXPECT_NEAR(all_shares(s), 1, 1e-9);
  ASSERT_TRUE(s.wall_need);
  EXPECT_EQ(s.wall_need->wall, "lid");
  EXPECT_EQ(s.remedies.size(), 2U);
  EXPECT_FALSE(leak_refusal({paper()}));
}

}  // namespace
}  // namespace backfit
