// SPDX-License-Identifier: MIT
#include "exposure/correction.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace backfit {
namespace {

Time power_1_3(Time t) { return t <= second ? t : std::pow(t / second, 1.3) * second; }

// Truth: order-of-exposure-factors in data/sources.toml (READ): filter and bellows factors first,
// reciprocity last. Law: 2 s through two stops is 8 s, and 8^1.3 = 14.93 s; the other way round
// would give 4 * 2^1.3 = 9.85 s.
TEST(CorrectedTime, GivesFactorsBeforeReciprocity) {
  const CorrectedTime t =
      corrected_time(2 * second, {}, {{"filter", {1}, {}}, {"extension", {1}, {}}}, power_1_3);
  EXPECT_NEAR(t.calculated / second, 8, 1e-12);
  EXPECT_NEAR(t.time / second, std::pow(8, 1.3), 1e-12);
  ASSERT_EQ(t.steps.size(), 3U);
  EXPECT_EQ(t.steps[0].name, "filter");
  EXPECT_EQ(t.steps[2].name, "reciprocity");
  EXPECT_NEAR(t.total.value, std::log2(t.time / (2 * second)), 1e-12);
}

TEST(CorrectedTime, LeavesShortTimesToTheMeter) {
  const CorrectedTime t = corrected_time(second / 60, {0.1}, {{"filter", {1}, {0.2}}}, power_1_3);
  EXPECT_EQ(t.steps.size(), 1U);
  EXPECT_NEAR(t.time / second, 1.0 / 30, 1e-12);
  EXPECT_NEAR(t.standard_uncertainty.value, std::hypot(0.1, 0.2), 1e-12);
}

// Law: through t^p every doubt of the time grows p times.
TEST(CorrectedTime, StretchesDoubtWithTheLaw) {
  const CorrectedTime t = corrected_time(8 * second, {0.3}, {}, power_1_3, {0.5});
  EXPECT_NEAR(t.standard_uncertainty.value, std::hypot(1.3 * 0.3, 0.5), 1e-9);
}

}  // namespace
}  // namespace backfit
