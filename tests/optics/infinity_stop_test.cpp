// SPDX-License-Identifier: MIT
#include "optics/infinity_stop.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "optics/focus.hpp"

namespace backfit {
namespace {

// Truth: Newton's form (s - f)(s' - f) = f^2, in Jacobson, Photographic Lenses Tutorial (1995),
// question 4, READ: 1 m takes 14.668172 mm of extension with 114 mm; tolerance its digits.
TEST(StopError, IsTheTravelTooMuch) {
  EXPECT_NEAR(*stop_error(114 * mm, 1000 * mm, 14.668172 * mm) / mm, 0, 5e-7);
  EXPECT_NEAR(*stop_error(114 * mm, 1000 * mm, 15 * mm) / mm, 0.331828, 5e-7);
  EXPECT_NEAR(*stop_error(114 * mm, 1000 * mm, 14 * mm) / mm, -0.668172, 5e-7);
  EXPECT_FALSE(stop_error(114 * mm, 114 * mm, 1 * mm));
}

// Law: with the error made good the lens at its stop is sharp at infinity: the travel left is the
// extension.
TEST(StopError, MadeGoodPutsTheTestRight) {
  const Length error = *stop_error(118 * mm, 3000 * mm, 5.2 * mm);
  EXPECT_NEAR(*stop_error(118 * mm, 3000 * mm, 5.2 * mm - error) / mm, 0, 1e-12);
}

const std::vector<Length> stock{0.1 * mm, 0.2 * mm, 0.5 * mm};

// Truth: by hand.
TEST(ShimStack, IsTheNearestWithFewestShims) {
  const ShimStack seven = shim_stack(0.7 * mm, stock, 4);
  EXPECT_EQ(seven.shims, (std::vector<Length>{0.5 * mm, 0.2 * mm}));
  EXPECT_NEAR(seven.left / mm, 0, 1e-12);
  const ShimStack near = shim_stack(0.34 * mm, stock, 4);
  EXPECT_EQ(near.shims, (std::vector<Length>{0.2 * mm, 0.1 * mm}));
  EXPECT_NEAR(near.left / mm, 0.04, 1e-12);
  const ShimStack above = shim_stack(0.19 * mm, stock, 4);
  EXPECT_EQ(above.shims, (std::vector<Length>{0.2 * mm}));
  EXPECT_NEAR(above.left / mm, -0.01, 1e-12);
  EXPECT_TRUE(shim_stack(0.04 * mm, stock, 4).shims.empty());
  EXPECT_TRUE(shim_stack(1 * mm, {}, 4).shims.empty());
  EXPECT_NEAR(shim_stack(9 * mm, stock, 4).left / mm, 7, 1e-12);  // no more than four
}

// Law: taking the thickest that fits, again and again, is never better.
TEST(ShimStack, IsNeverWorseThanTheThickestFirst) {
  std::mt19937 random(5);
  std::uniform_int_distribution<int> thickness(3, 60), need(0, 200);
  for (int trial = 0; trial < 300; ++trial) {
    std::vector<Length> some;
    some.reserve(5);
    for (int i = 0; i < 5; ++i) some.push_back(thickness(random) / 100.0 * mm);
    const Length needed = need(random) / 100.0 * mm;
    std::vector<Length> falling = some;
    std::ranges::sort(falling, std::ranges::greater{});
    Length left = needed;
    int used = 0;
    for (const Length shim : falling) {
      for (; shim <= left && used < 4; ++used) left -= shim;
    }
    const ShimStack best = shim_stack(needed, some, 4);
    EXPECT_LE(abs(best.left), left + 1e-9 * mm);
    Length sum;
    for (const Length shim : best.shims) sum += shim;
    EXPECT_NEAR((sum + best.left) / mm, needed / mm, 1e-9);
    EXPECT_LE(best.shims.size(), 4U);
  }
}

}  // namespace
}  // namespace backfit
