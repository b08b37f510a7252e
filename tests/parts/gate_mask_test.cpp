// SPDX-License-Identifier: MIT
#include "parts/gate_mask.hpp"

#include <gtest/gtest.h>

#include "piece_checks.hpp"

namespace backfit {
namespace {

GateMask sample() {
  GateMask m;
  m.width = 72.4 * mm;
  m.height = 94.4 * mm;
  m.opening_width = 55.6 * mm;
  m.opening_height = 82.8 * mm;
  m.thickness = 1.2 * mm;
  m.rear = -0.6 * mm;
  m.picture_width = 56 * mm;
  m.picture_height = 83.4 * mm;
  m.soft = 0.1 * mm;
  m.smallest_wall = 1.2 * mm;
  return m;
}

// Truth: by hand; its rear face lies where the gate's edge is, all of it before that.
TEST(GateMask, IsAFlatFrameBeforeTheGatesEdge) {
  expect_no_faults(sample());
  EXPECT_NEAR(volume_of(sample()) / mm3, (72.4 * 94.4 - 55.6 * 82.8) * 1.2, 1e-9);
  const Solid solid = solid_of(sample());
  expect_well_made(solid, volume_of(sample()), "mask");
  EXPECT_NEAR(bounds_of(solid).high.z / mm, -0.6, 1e-6);
  EXPECT_NEAR(bounds_of(solid).low.z / mm, -1.8, 1e-6);
  const PieceSet set = set_of(sample());
  expect_good_set(set);
  EXPECT_TRUE(set.pieces[0].flat);
}

TEST(GateMask, SaysWhenTheOpeningLeavesNoFrame) {
  GateMask m = sample();
  m.opening_width = 71 * mm;
  ASSERT_EQ(faults(m).size(), 1U);
  EXPECT_EQ(faults(m)[0].text, "the opening's width is 71.00 mm; there is room for 70.00 mm");
}

TEST(GateMask, RandomOnesAreWellMade) {
  for (const double step : {0.0, 0.5}) {
    sweep(
        step > 0 ? 2 : 1, 150,
        [step](Random& random) {
          GateMask m;
          m.smallest_wall = between(random, 0.8, 1.8);
          m.width = between(random, 30, 130, step);
          m.height = between(random, 30, 180, step);
          m.opening_width = m.width * (0.3 + 0.7 * random.unit());
          m.opening_height = m.height * (0.3 + 0.7 * random.unit());
          m.thickness = between(random, 0.2, 3);
          m.rear = -between(random, 0, 2);
          return m;
        },
        [](const GateMask& m) { expect_well_made(solid_of(m), volume_of(m), "mask"); });
  }
}

}  // namespace
}  // namespace backfit
