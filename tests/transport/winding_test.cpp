// SPDX-License-Identifier: MIT
#include "transport/winding.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <utility>

namespace backfit {
namespace {

// One material of even thickness.
RollMake even(Length thickness, Length length) {
  return {thickness, Length{}, 1, length, Length{}, Length{}};
}

RollMake roll_120() { return {0.10 * mm, 0.13 * mm, 1.05, 390 * mm, 820 * mm, 300 * mm}; }

// Truth: roll-length-calculator in data/sources.toml (READ): 5 in outside, 2 in inside, 0.011 in
// thick: 1499.39 in. Tolerance: its printed digit, cut and not rounded.
TEST(Roll, HoldsTheLengthOfThePublishedExample) {
  const RollMake make = even(0.011 * inch, 1499.39 * inch);
  EXPECT_NEAR(2 * take_up_radius(make, 1 * inch, make.total()) / inch, 5.0, 1e-5);
}

// Truth: reel-law in data/sources.toml (READ): length in m = 6500 pi (R^2 - S^2), hub S = 30 mm:
// 25 m at R = 46.1 mm and 150 m at 90.8 mm. Tolerance: the printed 0.1 mm.
TEST(Roll, GrowsByTheReelLaw) {
  const RollMake make = even(metre / 6500, 200 * metre);
  EXPECT_NEAR(take_up_radius(make, 30 * mm, 25 * metre) / mm, 46.1, 0.05);
  EXPECT_NEAR(take_up_radius(make, 30 * mm, 150 * metre) / mm, 90.8, 0.05);
}

// Truth: Archimedean spiral integrated turn by turn. Tolerance: 2e-5 of the length; the area rule
// counts whole rings.
TEST(Roll, HasTheTurnsOfASpiral) {
  constexpr double layer = 0.22;
  const double turns = take_up_turns(even(layer * mm, 500 * mm), 5.75 * mm, 500 * mm);
  double length = 0;
  constexpr int steps = 200'000;
  for (int i = 0; i < steps; ++i) {
    const double angle = 2 * std::numbers::pi * turns * (i + 0.5) / steps;
    const double radius = 5.75 + layer * angle / (2 * std::numbers::pi);
    length +=
        std::hypot(radius, layer / (2 * std::numbers::pi)) * 2 * std::numbers::pi * turns / steps;
  }
  EXPECT_NEAR(length, 500, 0.01);
}

// Law: all film is on one roll or the other: what both hold together never changes.
TEST(Rolls, ConserveTheFilm) {
  const RollMake make = roll_120();
  const Area all =
      make.packing * (make.total() * make.paper_thickness + make.film * make.film_thickness);
  for (Length wound; wound <= make.total(); wound += 37 * mm) {
    const Length a = take_up_radius(make, 5.9 * mm, wound);
    const Length b = supply_radius(make, 5.9 * mm, wound);
    const Area both = std::numbers::pi * (a * a + b * b - 2 * 5.9 * 5.9 * mm2);
    EXPECT_NEAR(both / all, 1, 1e-12);
  }
}

// Law: turns and length undo each other, over all three stretches.
TEST(Roll, TurnsAndLengthUndoEachOther) {
  const RollMake make = roll_120();
  for (Length wound = 1 * mm; wound < make.total(); wound += 29 * mm) {
    const double turns = take_up_turns(make, 5.9 * mm, wound);
    EXPECT_NEAR(wound_by(make, 5.9 * mm, turns) / mm, wound / mm, 1e-9);
  }
  EXPECT_EQ(wound_by(make, 5.9 * mm, 1e6), make.total());
}

// Truth: roll-film-120-frames in data/sources.toml (READ): frames on one roll for all eight
// formats, with one usable length of 760 mm (the shortest film that roll-film-120-article names)
// and one gap of 5 mm.
TEST(Frames, OnARollAreAsPublishedForAllEightFormats) {
  constexpr std::array<std::pair<double, int>, 8> table{
      {{41.5, 16}, {56, 12}, {70, 10}, {77, 9}, {84, 8}, {118, 6}, {168, 4}, {224, 3}}};
  for (const auto& [frame, count] : table) {
    EXPECT_EQ(frames_on(760 * mm, frame * mm, 5 * mm), count) << frame;
  }
  EXPECT_EQ(frames_on(50 * mm, 56 * mm, 5 * mm), 0);
}

TEST(Frames, AreSpreadInTheMiddleOfTheFilm) {
  const FrameRow row = centred_row(820 * mm, 56 * mm, 5 * mm, 12);
  EXPECT_NEAR(row.before_first() / mm, row.behind_last(820 * mm) / mm, 1e-12);
  EXPECT_NEAR(row.before_first() / mm, (820 - 12 * 56 - 11 * 5) / 2.0, 1e-12);
  EXPECT_NEAR(row.gap() / mm, 5, 1e-12);
}

// Truth: by hand, mean-layer sum: core 11.5 mm, layers of 0.22 mm, advances of 63 mm. Frame n is
// reached after (sqrt(d^2 + 4 L t/pi) - d)/2t turns. Tolerance: the four decimals worked out.
TEST(Winding, TurnsForEachFrameFallAsTheRollGrows) {
  const RollMake make = even(0.22 * mm, 800 * mm);
  const FrameRow row{12, 56 * mm, -737 * mm, 63 * mm};  // frame 1 after the first 63 mm
  const auto table = winding_table(
      make, 5.75 * mm, row, [](Length) { return -1e-9 * mm; }, Length{});
  constexpr std::array<double, 12> by_hand{1.6892, 1.5924, 1.5105, 1.4401, 1.3787, 1.3245,
                                           1.2763, 1.2330, 1.1938, 1.1581, 1.1255, 1.0954};
  ASSERT_EQ(table.size(), 12U);
  for (std::size_t i = 0; i < 12; ++i) EXPECT_NEAR(table[i].advance, by_hand[i], 5e-5);
}

// Law: after the turns of the table each frame stands in the gate, for a reach that changes.
TEST(Winding, TableBringsEachFrameIntoTheGate) {
  const RollMake make = roll_120();
  const FrameRow row = centred_row(make.film, 84 * mm, 6 * mm, 8);
  const Reach reach = [](Length radius) { return 90 * mm - 1.5 * radius; };
  const auto table = winding_table(make, 5.9 * mm, row, reach, 200 * mm);
  for (const FrameWinding& w : table) {
    const Length passed = passed_after(make, 5.9 * mm, reach, 200 * mm, w.turns);
    EXPECT_NEAR((passed - make.leader - row.middle(w.frame)) / mm, 0, 1e-6);
    EXPECT_GT(w.take_up, 5.9 * mm);
  }
  EXPECT_GT(table[1].advance, table[7].advance);
  EXPECT_LT(table[7].supply, table[0].supply);
}

// Law: any window inside the reach leaves film before the first frame and behind the last, and
// none outside does.
TEST(Window, KeepsAllFramesOnTheFilm) {
  const NumberRow numbers{60 * mm, 62 * mm};
  const auto reach = window_reach(numbers, 820 * mm, 56 * mm, 12, 5 * mm, 8 * mm);
  ASSERT_TRUE(reach);
  for (const Length place : {reach->least, reach->most}) {
    const FrameRow row{12, 56 * mm, numbers.first + place, numbers.pitch};
    EXPECT_GE(row.before_first() / mm, 5 - 1e-9);
    EXPECT_GE(row.behind_last(820 * mm) / mm, 8 - 1e-9);
  }
  EXPECT_NEAR((reach->most - reach->least) / mm, 820 - 13 - 11 * 62 - 56, 1e-9);
  EXPECT_FALSE(window_reach(numbers, 820 * mm, 70 * mm, 12, 5 * mm, 8 * mm));
  EXPECT_FALSE(window_reach(numbers, 700 * mm, 56 * mm, 12, 5 * mm, 8 * mm));
}

}  // namespace
}  // namespace backfit
