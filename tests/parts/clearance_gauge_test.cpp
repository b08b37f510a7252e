// SPDX-License-Identifier: MIT
#include "parts/clearance_gauge.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "solid/mesh.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

// Truth: two gaps by hand. Holes of 8.4 and 9.0 in a block of 9 + 3 + 3 + 9 + 3 by ... mm.
TEST(ClearanceGauge, BlockIsItsPlateLessTheHoles) {
  ClearanceGauge g;
  g.gaps = {0.2 * mm, 0.5 * mm};
  const double width = 3 + 9 + 3 + 9 + 3, depth = 3 + 9 + (3.5 + 3) + 9 + 3;
  const double holes = (1 + pi / 4) * (8.4 * 8.4 + 9 * 9);
  EXPECT_NEAR(block_volume(g) / mm3, (width * depth - holes) * 6, 1e-6);
}

// Law: both pieces are sound; the words take no more than a sliver of the block.
TEST(ClearanceGauge, PiecesAreSound) {
  const ClearanceGauge g = usual_gauge();
  const Soundness block = soundness_of(gauge_block(g)), peg = soundness_of(gauge_peg(g));
  EXPECT_TRUE(block.sound());
  EXPECT_TRUE(peg.sound());
  EXPECT_LT(block.volume, block_volume(g));
  EXPECT_GT(block.volume, 0.98 * block_volume(g));
}

// Law: the peg goes into each hole, and no farther than its gap to each side.
TEST(ClearanceGauge, PegIsSquareAndRoundAtItsEnds) {
  const ClearanceGauge g = usual_gauge();
  const Bounds around = bounds_of(gauge_peg(g));
  EXPECT_NEAR(around.low.z / mm, 0, 1e-6);
  EXPECT_NEAR((around.high.z - around.low.z) / mm, 2 * (6 + 4) + 8, 1e-6);
  EXPECT_NEAR(
      common_volume(gauge_peg(g), box({-20 * mm, -20 * mm, 0 * mm}, {20 * mm, 20 * mm, 6 * mm})) /
          mm3,
      8 * 8 * 6, 1e-6);
}

}  // namespace
}  // namespace backfit
