// SPDX-License-Identifier: MIT
#include "parts/window_cover.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "piece_checks.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

WindowCover sample() {
  WindowCover c;
  c.window = 12 * mm;
  c.overlap = 4 * mm;
  c.felt = 0.8 * mm;
  c.base = 1.2 * mm;
  c.slider = 2 * mm;
  c.wall = 1.2 * mm;
  c.plug = 4 * mm;
  c.grip = 2.4 * mm;
  c.gap = 0.25 * mm;
  c.place = {5 * mm, 20 * mm, 38 * mm};
  c.smallest_wall = 1.2 * mm;
  return c;
}

// Truth: by hand. Slider 20 square at its felt, 16 wide at its face; channel 22.307 wide at its
// floor, 2.8 high; frame 24.707 wide, 4 high and 21.45 + 30.25 - 0 long.
TEST(WindowCover, VolumesAreThoseOfTheirDovetails) {
  const WindowCover c = sample();
  expect_no_faults(c);
  const double floor = 20 + 2 * 0.8 + 2 * std::sqrt(2.0) * 0.25;
  const double channel = (floor - 2.8) * 2.8;
  const double low = 10 + 0.25, high = 10 + 16 + 0.25 + 4;
  EXPECT_NEAR(frame_volume(c) / mm3,
              (floor + 2.4) * (low + 1.2 + high) * 4 - channel * (low + high) - pi * 36 * 1.2,
              1e-6);
  EXPECT_NEAR(slider_volume(c) / mm3, 18 * 2 * 20 + 13.6 * 1.2 * 2.4, 1e-6);
  EXPECT_NEAR(plug_volume(c) / mm3, (20 + 1.6 - 2.8) * 2.8 * 4, 1e-6);
  expect_well_made(frame_of(c), frame_volume(c), "frame");
  expect_well_made(slider_of(c), slider_volume(c), "slider");
  expect_well_made(plug_of(c), plug_volume(c), "plug");
}

// Law: closed, the slider lies over the window with its overlap all round, the gap free in its
// channel; pushed by its travel it clears the window and has not met the plug.
TEST(WindowCover, SliderClosesAndOpens) {
  const WindowCover c = sample();
  const Solid frame = frame_of(c), slider = slider_of(c), plug = plug_of(c);
  EXPECT_NEAR(distance_between(frame, slider) / mm, 0.25, 1e-6);
  const Solid open = translated(slider, {{}, c.travel(), {}});
  EXPECT_NEAR(common_volume(frame, open) / mm3, 0, 1e-6);
  EXPECT_NEAR(distance_between(plug, open) / mm, 0.25, 1e-6);
  EXPECT_NEAR(distance_between(frame, open) / mm, 0.25, 1e-6);
  // A ray through the window's upper edge passes below the open slider.
  EXPECT_GE(bounds_of(open).low.y / mm, 6 - 1e-6);
  expect_good_set(set_of(c));
  // It stands on the camera's outside, its window over the window.
  const Bounds b = bounds_of(set_of(c).pieces[0].in_place[0]);
  EXPECT_NEAR(b.low.z / mm, 38, 1e-6);
  EXPECT_NEAR((b.low.x + b.high.x) / mm, 10, 1e-6);
}

TEST(WindowCover, SaysWhatCantBeMade) {
  WindowCover c = sample();
  c.slider = 1 * mm;
  ASSERT_EQ(faults(c).size(), 1U);
  EXPECT_EQ(faults(c)[0].text, "the slider is 1.00 mm; 1.20 mm is needed");
}

TEST(WindowCover, RandomOnesAreWellMade) {
  for (const double step : {0.0, 0.5}) {
    sweep(
        step > 0 ? 2 : 1, 150,
        [step](Random& random) {
          WindowCover c = sample();
          c.smallest_wall = between(random, 0.8, 1.8);
          c.window = between(random, 4, 25, step);
          c.overlap = between(random, 2, 8, step);
          c.felt = between(random, 0.3, 2);
          c.base = between(random, 1, 3, step);
          c.slider = between(random, 1, 4, step);
          c.wall = between(random, 1, 4, step);
          c.plug = between(random, 2, 8, step);
          c.grip = between(random, 1, 4, step);
          c.gap = between(random, 0.1, 0.4);
          return c;
        },
        [](const WindowCover& c) {
          expect_well_made(frame_of(c), frame_volume(c), "frame");
          expect_well_made(slider_of(c), slider_volume(c), "slider");
          expect_well_made(plug_of(c), plug_volume(c), "plug");
        });
  }
}

}  // namespace
}  // namespace backfit
