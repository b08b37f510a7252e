// SPDX-License-Identifier: MIT
#include "parts/glass_frame.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "quantity/random.hpp"
#include "sizes_shown.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

GlassFrame sample() {
  GlassFrame g;
  g.gap = 0.25 * mm;
  g.smallest_wall = 1.2 * mm;
  g.window_width = 95 * mm;
  g.window_height = 120 * mm;
  g.glass_width = 102 * mm;
  g.glass_height = 127 * mm;
  g.glass_thickness = 2 * mm;
  g.depth = 4.8 * mm;
  g.width = 120.6 * mm;
  g.top = 84 * mm;
  g.bottom = 66 * mm;
  g.rib = {80 * mm, 1.6 * mm, 1.5 * mm, 1.2 * mm};
  g.clips = {2 * mm, 10 * mm, 3.25 * mm, 42 * mm, 2 * mm};
  return g;
}

// Law: the kernel's volume is the one from the numbers; each piece is one sound lump.
void expect_well_made(const GlassFrame& g) {
  const PieceSet set = set_of(g, {});
  ASSERT_EQ(set.pieces.size(), 3U);
  ASSERT_EQ(set.apart.size(), 3U);
  const Soundness frame = soundness_of(set.pieces[0].on_bed);
  const Soundness clip = soundness_of(set.pieces[1].on_bed);
  EXPECT_TRUE(frame.sound()) << frame.valid << frame.bodies << frame.bad_edges;
  EXPECT_TRUE(clip.sound());
  EXPECT_NEAR(frame.volume / frame_volume(g), 1, 1e-9);  // rounding in the kernel's integration
  EXPECT_NEAR(clip.volume / clip_volume(g), 1, 1e-9);
  EXPECT_TRUE(soundness_of(set.pieces[2].on_bed).sound());
}

TEST(GlassFrame, SampleIsWellMade) {
  for (const PartFault& f : faults(sample())) ADD_FAILURE() << f.id << ": " << f.text;
  expect_sizes_shown(set_of(sample(), {}));
  expect_well_made(sample());
}

// Truth: worked out by hand for the sample's round numbers.
TEST(GlassFrame, VolumesAreTheSumsOfTheirBoxes) {
  const GlassFrame g = sample();
  EXPECT_NEAR(frame_volume(g) / mm3,
              120.6 * 150 * 6.6 - 95 * 120 * 4.8 - 102.5 * 127.5 * 1.8 - 120.6 * 1.85 * 1.2 -
                  4 * pi / 4 * 1.7 * 1.7 * 5.4,
              1e-6);
  // From 47.75 to 51.25 + 1.2 + 2.5 + 1.2.
  EXPECT_NEAR(clip_volume(g) / mm3, ((56.15 - 47.75) * 10 - pi / 4 * 2.5 * 2.5) * 2, 1e-6);
}

// Law: a glass on the ledge has its face nearer the lens `depth` behind the plate's face, keeps the
// gap on each side and meets nothing; the clips lie on it.
TEST(GlassFrame, HoldsTheGlassAtItsDepth) {
  const GlassFrame g = sample();
  const Length face = 7 * mm;
  const PieceSet set = set_of(g, {face});
  const Solid glass =
      box({-g.glass_width / 2, -g.glass_height / 2, face + g.depth},
          {g.glass_width / 2, g.glass_height / 2, face + g.depth + g.glass_thickness});
  for (const Piece& p : set.pieces) {
    for (const Solid& body : p.in_place) {
      EXPECT_NEAR(common_volume(glass, body) / mm3, 0, 1e-6) << p.name;
    }
  }
  const Solid& frame = set.pieces[0].in_place.front();
  EXPECT_NEAR(distance_between(glass, frame) / mm, 0, 1e-9);
  EXPECT_NEAR(distance_between(translated(glass, {{}, {}, 0.1 * mm}), frame) / mm, 0.1, 1e-6);
  for (const Solid& clip : set.pieces[1].in_place) {
    EXPECT_NEAR(distance_between(glass, clip) / mm, 0, 1e-6);
    EXPECT_NEAR(distance_between(frame, clip) / mm, g.press / mm, 1e-6);
  }
}

TEST(GlassFrame, NamesItsFaults) {
  const auto fault_of = [](auto change) {
    GlassFrame g = sample();
    change(g);
    const std::vector<PartFault> list = faults(g);
    return list.empty() ? std::string() : list.front().id + ": " + list.front().text;
  };
  EXPECT_EQ(
      fault_of([](GlassFrame& g) { g.glass_width = 97 * mm; }),
      "glass-falls-through: around the window the glass, pushed to one side, lies on 0.75 mm; "
      "1.50 mm is needed");
  EXPECT_EQ(fault_of([](GlassFrame& g) { g.width = 110 * mm; }).substr(0, 23),
            "glass-frame-too-narrow:");
  EXPECT_EQ(fault_of([](GlassFrame& g) { g.depth = NAN * mm; }).substr(0, 17), "glass-frame-size:");
}

GlassFrame random_frame(Random& random, Length step) {
  const auto between = [&random, step](double low_mm, double high_mm) {
    const Length drawn = (low_mm + (high_mm - low_mm) * random.unit()) * mm;
    return step > Length{} ? std::round(drawn / step) * step : drawn;
  };
  GlassFrame g = sample();
  g.gap = between(0.1, 0.4);
  g.smallest_wall = between(0.6, 1.4);
  g.window_width = between(40, 200);
  g.window_height = between(50, 250);
  g.glass_width = g.window_width + 2 * g.gap + between(3, 10);
  g.glass_height = g.window_height + 2 * g.gap + between(3, 10);
  g.glass_thickness = between(1.2, 3.5);
  g.depth = between(3, 8);
  g.clips = {g.smallest_wall + between(0, 2), between(6, 12), g.gap + between(2, 3),
             g.glass_height / 2 - between(8, 20), between(1.6, 3)};
  g.width = 2 * g.clip_to() + between(0, 10);
  g.rib.from_middle = g.recess_height() / 2 + between(1, 20);
  g.rib.sunk = between(0.2, 2);
  g.top = std::max(g.recess_height() / 2 + g.smallest_wall,
                   g.rib.from_middle + g.rib_groove() / 2 + g.smallest_wall) +
          between(0, 5);
  g.bottom = g.recess_height() / 2 + g.smallest_wall + between(0, 10);
  return g;
}

void expect_random_frames_well_made(std::uint64_t seed, Length step, int wanted) {
  Random random(seed);
  int built = 0, drawn = 0;
  while (built < wanted && !testing::Test::HasFailure()) {
    ASSERT_LT(drawn, 12 * wanted) << "only " << built << " frames could be built";
    ++drawn;
    const GlassFrame g = random_frame(random, step);
    if (!faults(g).empty()) continue;
    ++built;
    expect_well_made(g);
  }
  testing::Test::RecordProperty("drawn", drawn);
}

TEST(GlassFrame, RandomOnesAreWellMade) { expect_random_frames_well_made(1, Length{}, 150); }
TEST(GlassFrame, RandomOnesOfRoundNumbersAreWellMade) {
  expect_random_frames_well_made(2, 0.1 * mm, 150);
}

}  // namespace
}  // namespace backfit
