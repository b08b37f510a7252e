// SPDX-License-Identifier: MIT
#include "exposure/shutter_light.hpp"

#include <gtest/gtest.h>

namespace backfit {
namespace {

// Law: the effective time is the integral of the clear share (midpoint rule, 20 000 steps).
TEST(LeafShutter, PassesTheIntegralOfItsClearShare) {
  const LeafShutter shutter{10 * ms, 3 * ms, 4 * ms};
  constexpr int steps = 20000;
  for (const double stop : {1.0, 0.5, 0.2}) {
    double sum = 0;
    for (int i = 0; i < steps; ++i) {
      sum += clear_share(shutter, stop, shutter.total * ((i + 0.5) / steps));
    }
    EXPECT_NEAR(sum / steps, shutter_efficiency(shutter, stop), 1e-6) << stop;
  }
}

// Law: a pinhole sees the whole run, the widest stop a third of opening and closing.
TEST(LeafShutter, GivesASmallStopMore) {
  const LeafShutter fast{4 * ms, 2 * ms, 2 * ms};
  EXPECT_NEAR(shutter_efficiency(fast, 1), 1.0 / 3, 1e-12);
  EXPECT_NEAR(shutter_efficiency(fast, 1e-9), 1, 1e-6);
  EXPECT_GT(shutter_efficiency(fast, 0.25), shutter_efficiency(fast, 0.5));
}

TEST(LeafShutter, IsFoundFromItsEffectiveTime) {
  const LeafShutter slow = shutter_with(16 * ms, 2 * ms, 2 * ms);
  EXPECT_NEAR(effective_time(slow, 1) / ms, 16, 1e-12);
  const LeafShutter fast = shutter_with(1 * ms, 3 * ms, 3 * ms);
  EXPECT_NEAR(effective_time(fast, 1) / ms, 1, 1e-12);
  EXPECT_NEAR((fast.opening + fast.closing) / fast.total, 1, 1e-12);
}

}  // namespace
}  // namespace backfit
