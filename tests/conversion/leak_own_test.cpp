// SPDX-License-Identifier: MIT
// Light past the small parts of conversions whose film lies in the camera's own.
#include "conversion/leak_own.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "conversion/leak_scene.hpp"
#include "example.hpp"
#include "leak_scenes.hpp"

namespace backfit {
namespace {

const Assembly& with_spacer() {
  static const Assembly a =
      of_unknown_print(example_assembly("bittern", "bittern-paper.conversion.toml"));
  return a;
}
const Assembly& with_cover() {
  static const Assembly a = of_unknown_print(example_assembly("wren", "wren-35mm.conversion.toml"));
  return a;
}
constexpr Slab light_felt{1, 2};

// Truth: by hand, from the survey and the plan as they are written (examples/bittern): a board of
// 70 × 70 mm with an opening of 42 mm, a print that may be off by 0.05 mm and a shim by 0.02 mm.
TEST(LeakOwn, HasTheSpacersSeams) {
  const SeamScene s = seam_scene(with_spacer(), LeakOwn{}, 2, 3);
  ASSERT_EQ(s.seams.size(), 12U);
  for (const LeakSeam& seam : s.seams) {
    expect_near(seam.profile.arms, {14});
    EXPECT_NEAR(seam.profile.gap / mm, seam.name == "lens board's seam" ? 0.02 : 0.05, 1e-9);
    EXPECT_NEAR(seam.length / mm, 70, 1e-9);
  }
  ASSERT_EQ(s.walls.size(), 4U);
  EXPECT_NEAR(s.walls.front().thickness / mm, 14, 1e-9);
  EXPECT_NEAR(s.walls.front().along.z / mm, 0.8, 1e-9);
  // The last gap ends where the survey has the standard.
  const LeakSeam& last = seam_of(s, "lens spacer's seam", "left");
  EXPECT_NEAR(std::max(last.corner.z / mm, (last.corner.z + last.across.z) / mm), -118, 1e-9);
}

// Law: each way of the spacer leads to the picture; wider gaps pass more, and tape shuts them all.
TEST(LeakOwn, SpacersSeamsLeadToThePicture) {
  const SeamScene whole = seam_scene(with_spacer(), LeakOwn{}, 2, 3);
  EXPECT_FALSE(fault_of(whole));
  EXPECT_EQ(facing(whole.film), -1);
  for (const LeakSeam& seam : whole.seams) {
    EXPECT_GT(light_on(studied(alone(whole, seam), false, 2048), true), 0) << seam.name;
  }
  for (const PrintedWall& wall : whole.walls) {
    EXPECT_GT(light_on(studied(alone(whole, wall), false, 2048), true), 0) << wall.side;
  }
  const auto light = [](const LeakOwn& own) {
    return light_on(studied(seam_scene(with_spacer(), own, 2, 3), false, 32768), true);
  };
  EXPECT_LT(light({.spacer = {.face_gap = 0.02 * mm}}), light({.spacer = {.face_gap = 0.05 * mm}}));
  EXPECT_TRUE(seam_scene(with_spacer(), LeakOwn{.spacer = {.taped = true}}, 2, 3).seams.empty());
}

// Law: a round board is alike on all sides, and under a sky so is the picture on the left and on
// the right.
TEST(LeakOwn, IsAlikeOnBothSides) {
  const LeakStudy s = studied(seam_scene(with_spacer(), LeakOwn{}, 2, 3), false, 65536);
  for (std::size_t row = 0; row < 3; ++row) {
    const TallyResult &left = s.patches[2 * row].all, &right = s.patches[2 * row + 1].all;
    ASSERT_TRUE(left.interval && right.interval);
    EXPECT_NEAR(left.mean, right.mean, 4.5 * std::hypot(left.standard_error, right.standard_error));
  }
}

// Truth: by hand, from examples/wren and the cover's own numbers: a slider 2 mm thick whose sides
// lean in by half a right angle, 0.25 mm clear, over felt of 0.8 mm that reaches 4 mm beyond the
// window.
TEST(LeakOwn, HasTheCoversSeamsAndSlider) {
  const SeamScene s = seam_scene(with_cover(), LeakOwn{.felt = light_felt}, 2, 3);
  ASSERT_EQ(s.seams.size(), 4U);
  const LeakSeam& left = seam_of(s, "window cover's slider", "left");
  expect_near(left.profile.widths, {0.25, 0.8});
  expect_near(left.profile.arms, {2 * std::numbers::sqrt2, 0.8});
  EXPECT_EQ(left.passes, transmission(light_felt, 4 * mm));
  ASSERT_EQ(s.walls.size(), 1U);
  EXPECT_NEAR(s.walls.front().thickness / mm, 2, 1e-9);
  // As large as the round window of 9.2 mm at the most.
  EXPECT_NEAR(s.walls.front().across.y / mm * (s.walls.front().along.x / mm),
              std::numbers::pi / 4 * 9.2 * 9.2, 1e-9);
}

// Law: what comes by the red window meets the film's back and nothing of the picture; open it lets
// in far more than its slider does, and that more than felt of which nothing is known.
TEST(LeakOwn, CoversWaysLeadToTheFilmsBack) {
  const SeamScene whole = seam_scene(with_cover(), LeakOwn{.felt = light_felt}, 2, 3);
  EXPECT_FALSE(fault_of(whole));
  ASSERT_EQ(whole.pieces.size(), 1U);
  for (const LeakSeam& seam : whole.seams) {
    const LeakStudy s = studied(alone(whole, seam), false, 2048);
    EXPECT_GT(light_on(s, false), 0) << seam.side;
    EXPECT_EQ(light_on(s, true), 0) << seam.side;
  }
  const LeakStudy wall = studied(alone(whole, whole.walls.front()), false, 2048);
  EXPECT_GT(light_on(wall, false), 0);
  EXPECT_EQ(light_on(wall, true), 0);
  const LeakStudy open = studied(seam_scene(with_cover(), LeakOwn{.window_open = true}, 2, 3));
  EXPECT_GT(light_on(open, false), 1e3 * light_on(studied(whole), false));
  EXPECT_GT(open.worst_patch().all.mean, 0.1);
  EXPECT_LT(open.worst_patch().all.mean, 1);
  EXPECT_TRUE(seam_scene(with_cover(), LeakOwn{}, 2, 3).seams.empty());
}

// Law: where nothing that was designed lies between daylight and film, or nothing of it counts, the
// answer says why and what could be done.
TEST(LeakOwn, IsRefusedWithoutAPart) {
  const auto felted = leak_refusal({with_cover()});
  ASSERT_TRUE(felted);
  EXPECT_LT(felted->help.find("wall_readings"), felted->help.size());
  Assembly bare = with_spacer();
  EXPECT_FALSE(leak_refusal({bare}));
  bare.plan.lens_spacer.reset();
  EXPECT_TRUE(leak_refusal({bare}));
  Assembly papered = with_cover();
  papered.spool.emplace();
  const auto paper = leak_refusal({papered});
  ASSERT_TRUE(paper);
  EXPECT_TRUE(paper->why.ends_with("backing paper"));
}

// Law: a spacer counts beside whatever carries the film.
TEST(LeakOwn, SpacerCountsInOtherScenesToo) {
  Assembly back = example_assembly("kestrel", "kestrel-4x5.conversion.toml");
  const std::size_t seams = seam_scene(back, LeakBack{}, 2, 3).seams.size();
  back.camera.lens_board = with_spacer().camera.lens_board;
  back.camera.lens_board->before_film.value.value = 112 * mm;
  back.plan.lens_spacer = with_spacer().plan.lens_spacer;
  back.plan.lens_spacer->forward.emplace();
  back.plan.lens_spacer->forward->value = exactly(1 * mm);
  const SeamScene s = seam_scene(back, LeakBack{}, 2, 3);
  EXPECT_EQ(s.seams.size(), seams + 8);
  EXPECT_FALSE(fault_of(s));
  EXPECT_GT(
      light_on(studied(alone(s, seam_of(s, "lens spacer's seam", "above")), false, 2048), true), 0);
  const auto remedies = seam_remedies(back, LeakBack{}, 2, 3);
  EXPECT_EQ(remedies.back().what, tape_remedy);
}

}  // namespace
}  // namespace backfit
