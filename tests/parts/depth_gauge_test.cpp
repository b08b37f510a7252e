// SPDX-License-Identifier: MIT
#include "parts/depth_gauge.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "piece_checks.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

DepthGauge sample() {
  DepthGauge g;
  g.length = 138 * mm;
  g.width = 16 * mm;
  g.thickness = 10 * mm;
  g.foot = 12 * mm;
  g.relief = 1 * mm;
  g.hole = 5 * mm;
  g.hole_pitch = 30 * mm;
  g.rest = 0.8 * mm;
  g.smallest_wall = 1.2 * mm;
  g.readings = {{"the old film plane", 10.8 * mm}};
  return g;
}

// Truth: by hand.
TEST(DepthGauge, BridgeIsABarLessReliefAndHoles) {
  expect_no_faults(sample());
  EXPECT_NEAR(volume_of(sample()) / mm3, 138 * 16 * 10 - 114 * 16 * 1 - 3 * pi / 4 * 25 * 9, 1e-6);
  for (const bool upright : {false, true}) {
    for (const bool from_front : {false, true}) {
      DepthGauge g = sample();
      g.upright = upright;
      g.from_front = from_front;
      expect_well_made(solid_of(g), volume_of(g), "bridge");
      expect_good_set(set_of(g));
    }
  }
}

// Law: the soles lie on the rest, the caliper's face a thickness behind it, or before it for a
// holder's face; a rod goes through the middle and touches nothing.
TEST(DepthGauge, StandsOnItsRest) {
  DepthGauge g = sample();
  EXPECT_NEAR(bounds_of(solid_of(g)).low.z / mm, 0.8, 1e-6);
  EXPECT_NEAR(bounds_of(solid_of(g)).high.z / mm, 10.8, 1e-6);
  const Solid rod = cylinder(4.5 * mm, -20 * mm, 30 * mm);
  EXPECT_NEAR(distance_between(rod, solid_of(g)) / mm, 0.25, 1e-6);
  g.from_front = true;
  EXPECT_NEAR(bounds_of(solid_of(g)).high.z / mm, 0.8, 1e-6);
  EXPECT_NEAR(bounds_of(solid_of(g)).low.z / mm, -9.2, 1e-6);
}

TEST(DepthGauge, SaysWhatCantBeMade) {
  DepthGauge g = sample();
  g.foot = 2 * mm;
  ASSERT_EQ(faults(g).size(), 1U);
  EXPECT_EQ(faults(g)[0].text, "a foot's length is 2.00 mm; 2.40 mm is needed");
  g.foot = 40 * mm;
  EXPECT_EQ(faults(g).size(), 1U);
}

TEST(DepthGauge, RandomOnesAreWellMade) {
  for (const double step : {0.0, 0.5}) {
    sweep(
        step > 0 ? 2 : 1, 150,
        [step](Random& random) {
          DepthGauge g;
          g.smallest_wall = between(random, 0.8, 1.8);
          g.length = between(random, 60, 200, step);
          g.width = between(random, 10, 25, step);
          g.thickness = between(random, 4, 15, step);
          g.foot = between(random, 3, 20, step);
          g.relief = between(random, 0.5, 3, step);
          g.hole = between(random, 3, 8, step);
          g.hole_pitch = between(random, 6, 50, step);
          g.upright = random.unit() < 0.5;
          g.from_front = random.unit() < 0.5;
          g.rest = between(random, -5, 15, step);
          return g;
        },
        [](const DepthGauge& g) { expect_well_made(solid_of(g), volume_of(g), "bridge"); });
  }
}

}  // namespace
}  // namespace backfit
