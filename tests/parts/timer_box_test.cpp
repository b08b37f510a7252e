// SPDX-License-Identifier: MIT
#include "parts/timer_box.hpp"

#include <gtest/gtest.h>

#include <numbers>
#include <random>

namespace backfit {
namespace {

using std::numbers::pi;

// Twelve places in steps of 30 degrees.
TimerBox sample() {
  TimerBox b;
  b.width = b.height = 62 * mm;
  b.depth = 22 * mm;
  b.wall = 2 * mm;
  b.panel = 2.4 * mm;
  b.corner_radius = 3 * mm;
  b.lip = 2 * mm;
  b.gap = 0.25 * mm;
  b.bush = 9.5 * mm;
  b.post = 6 * mm;
  b.pilot = 2.5 * mm;
  b.through = 3.4 * mm;
  b.lead = 3 * mm;
  b.dial = {13 * mm,  16 * mm,
            22 * mm,  {3.2 * mm, 0.45 * mm},
            0.4 * mm, -165 * deg,
            30 * deg, {"500", "250", "125", "60", "30", "15", "8", "4", "2", "1S", "2S", "B"}};
  return b;
}

TEST(TimerBox, SampleHasNoFaults) {
  for (const std::string& f : faults(sample(), 1.2 * mm, 0.4 * mm)) ADD_FAILURE() << f;
}

// Truth: a box without rounding or lip worked out by hand: 20 x 20 x (1 + 9) outside, walls of 1,
// posts of 3 with holes of 1, a notch of 2 x (1 + 2) through the wall.
TEST(TimerBox, TrayIsItsWallsPostsAndNotch) {
  TimerBox b = sample();
  b.width = b.height = 20 * mm;
  b.depth = 9 * mm;
  b.wall = b.corner_radius = 1 * mm;
  b.post = 3 * mm;
  b.pilot = 1 * mm;
  b.lip = 1 * mm;
  b.lead = 2 * mm;
  const double outside = 400 - (4 - pi), inside = 18 * 18, posts = 4 * (9 - pi / 4);
  EXPECT_NEAR(tray_volume(b) / mm3, outside * 10 - inside * 9 + posts * 9 - 2 * 1 * 3, 1e-9);
}

// Law: both pieces are sound, and of the volume that the numbers give; engraving takes a sliver.
TEST(TimerBox, PiecesAreSoundOverTheirRange) {
  std::mt19937 random(11);
  const auto draw = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random) * mm;
  };
  for (int i = 0; i < 12; ++i) {
    TimerBox b = sample();
    b.width = draw(58, 90);
    b.height = draw(58, 90);
    b.depth = draw(10, 40);
    b.wall = draw(1.4, 3);
    b.corner_radius = draw(1.1, 1.7) / mm * b.wall;
    b.gap = draw(0.1, 0.5);
    b.lip = draw(1, 3);
    if (i > 1) b.dial.marks.resize(3);  // engraving is slow
    if (!faults(b, 1.2 * mm, 0.4 * mm).empty()) continue;
    const Soundness tray = soundness_of(tray_of(b)), panel = soundness_of(panel_of(b));
    EXPECT_TRUE(tray.sound());
    EXPECT_TRUE(panel.sound());
    EXPECT_NEAR(tray.volume / tray_volume(b), 1, 1e-6);
    EXPECT_LT(panel.volume, panel_volume(b));
    EXPECT_GT(panel.volume, 0.97 * panel_volume(b));
    const Bounds around = bounds_of(panel_of(b));
    EXPECT_NEAR((around.high.z - around.low.z) / mm, (b.panel + b.lip) / mm, 1e-6);
  }
}

// Law: the panel set on the tray touches it and never enters it.
TEST(TimerBox, PanelClosesTheTray) {
  TimerBox b = sample();
  b.dial.marks.resize(1);
  const Solid panel = translated(half_turned_about_x(panel_of(b)),
                                 {Length{}, Length{}, b.wall + b.depth + b.panel});
  EXPECT_NEAR(common_volume(tray_of(b), panel) / mm3, 0, 1e-6);
}

// Law: what is wrong is named with its numbers.
TEST(TimerBox, NamesItsFaults) {
  TimerBox b = sample();
  b.dial.letters_at = 12 * mm;
  b.wall = 0.8 * mm;
  bool touch = false, wall = false;
  for (const std::string& f : faults(b, 1.2 * mm, 0.4 * mm)) {
    touch |= f.find("touch") != std::string::npos;
    wall |= f == "a wall of 0.80 mm is under 1.20 mm";
  }
  EXPECT_TRUE(touch);
  EXPECT_TRUE(wall);
}

// Law: the first mark of a dial that begins straight up stands above the shaft, the next to its
// right as one looks at the panel.
TEST(Dial, GoesClockwise) {
  Dial d{10 * mm, 12 * mm, 16 * mm, {3 * mm, 0.4 * mm}, 0.4 * mm, 0 * deg, 90 * deg, {"I", "I"}};
  const auto outlines = outlines_of(d);
  const auto middle = [](const std::vector<OutlineCorner>& o) {
    return OutlineCorner{(o[0].x + o[2].x) / 2, (o[0].y + o[2].y) / 2};
  };
  EXPECT_NEAR(middle(outlines.front()).y / mm, 11, 1e-9);
  EXPECT_NEAR(middle(outlines[outlines.size() / 2]).x / mm, 11, 1e-9);
}

}  // namespace
}  // namespace backfit
