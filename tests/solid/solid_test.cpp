// SPDX-License-Identifier: MIT
#include "solid/solid.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "sample_solid.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

// The kernel integrates over the exact surfaces; what remains is rounding in its Gauss sums.
constexpr double volume_tolerance = 1e-9;  // relative

void expect_volume(const Solid& body, double expected_mm3) {
  EXPECT_NEAR(volume_of(body) / mm3, expected_mm3, volume_tolerance * expected_mm3);
}

void expect_bounds(const Solid& body, Point3 low, Point3 high) {
  const Bounds around = bounds_of(body);
  const double tolerance_mm = 1e-6;  // the contract's
  EXPECT_NEAR(around.low.x / mm, low.x / mm, tolerance_mm);
  EXPECT_NEAR(around.low.y / mm, low.y / mm, tolerance_mm);
  EXPECT_NEAR(around.low.z / mm, low.z / mm, tolerance_mm);
  EXPECT_NEAR(around.high.x / mm, high.x / mm, tolerance_mm);
  EXPECT_NEAR(around.high.y / mm, high.y / mm, tolerance_mm);
  EXPECT_NEAR(around.high.z / mm, high.z / mm, tolerance_mm);
}

// Truths of the next five: closed forms of elementary geometry.
TEST(Box, HasTheProductOfItsSidesAsVolume) {
  const Solid body = box({-1 * mm, 2 * mm, 3.5 * mm}, {4 * mm, 2.7 * mm, 14.5 * mm});
  expect_volume(body, 5 * 0.7 * 11);
  expect_bounds(body, {-1 * mm, 2 * mm, 3.5 * mm}, {4 * mm, 2.7 * mm, 14.5 * mm});
}

TEST(RoundedPrism, LacksWhatFourQuarterCirclesLeaveOfASquare) {
  const double radii_mm[] = {0, 0.01, 3, 9.99};
  for (const double r : radii_mm) {
    const Solid body = rounded_prism(20 * mm, 32 * mm, r * mm, -2 * mm, 5 * mm);
    expect_volume(body, (20 * 32 - (4 - pi) * r * r) * 7);
    expect_bounds(body, {-10 * mm, -16 * mm, -2 * mm}, {10 * mm, 16 * mm, 5 * mm});
    EXPECT_TRUE(soundness_of(body).sound());
  }
}

TEST(RoundedRing, IsTheLargerPrismLessTheSmaller) {
  const double radii_mm[] = {0, 3};
  for (const double r : radii_mm) {
    const Solid body = rounded_ring(20 * mm, 32 * mm, r * mm, 2 * mm, -2 * mm, 5 * mm);
    const double outer_mm2 = 24 * 36 - (4 - pi) * (r + 2) * (r + 2);
    const double inner_mm2 = 20 * 32 - (4 - pi) * r * r;
    expect_volume(body, (outer_mm2 - inner_mm2) * 7);
    expect_bounds(body, {-12 * mm, -18 * mm, -2 * mm}, {12 * mm, 18 * mm, 5 * mm});
    EXPECT_TRUE(soundness_of(body).sound());
  }
}

TEST(Cylinder, HoldsPiRadiusSquaredTimesHeight) {
  const Solid body = cylinder(7 * mm, 1 * mm, 12 * mm);
  expect_volume(body, pi * 3.5 * 3.5 * 11);
  expect_bounds(body, {-3.5 * mm, -3.5 * mm, 1 * mm}, {3.5 * mm, 3.5 * mm, 12 * mm});
}

TEST(Frustum, HoldsAThirdOfHeightTimesTheThreeMeanSquares) {
  const auto closed_form_mm3 = [](double r, double s, double h) {
    return pi * h / 3 * (r * r + r * s + s * s);
  };
  expect_volume(frustum(2.4 * mm, 2.9 * mm, 4.6 * mm, 4 * mm), closed_form_mm3(1.2, 2.3, 1.1));
  expect_volume(frustum(9 * mm, -3 * mm, 1 * mm, 4 * mm), closed_form_mm3(4.5, 0.5, 7));
}

// Law: V(A or B) = V(A) + V(B) - V(A and B), with bodies whose common part is known.
TEST(Union, CountsWhatIsSharedOnce) {
  const Solid joined = union_of({box({0 * mm, 0 * mm, 0 * mm}, {4 * mm, 4 * mm, 4 * mm}),
                                 box({3 * mm, 1 * mm, 1 * mm}, {9 * mm, 3 * mm, 3 * mm}),
                                 box({8 * mm, -5 * mm, 0.5 * mm}, {10 * mm, 7 * mm, 2 * mm})});
  expect_volume(joined, (64 + 24 + 36) - 1 * 2 * 2 - 1 * 2 * 1);
  EXPECT_TRUE(soundness_of(joined).sound());
}

TEST(Difference, TakesAwayWhatIsShared) {
  const Solid block = box({0 * mm, 0 * mm, 0 * mm}, {10 * mm, 10 * mm, 10 * mm});
  const Solid drilled = difference_of(
      block, {translated(cylinder(4 * mm, -1 * mm, 11 * mm), {5 * mm, 5 * mm, 0 * mm}),
              box({9 * mm, -1 * mm, 2 * mm}, {11 * mm, 11 * mm, 5 * mm})});
  expect_volume(drilled, 1000 - pi * 4 * 10 - 1 * 10 * 3);
  EXPECT_TRUE(soundness_of(drilled).sound());
  expect_volume(block, 1000);  // unharmed
  expect_volume(difference_of(block, {}), 1000);
}

TEST(Difference, ThatLeavesNothingIsAFailure) {
  const Solid inner = box({0 * mm, 0 * mm, 0 * mm}, {1 * mm, 1 * mm, 1 * mm});
  const Solid outer = box({-1 * mm, -1 * mm, -1 * mm}, {2 * mm, 2 * mm, 2 * mm});
  EXPECT_THROW(difference_of(inner, {outer}), SolidFailure);
}

TEST(Motion, KeepsVolumeAndMovesBounds) {
  const Solid body = sample_solid();
  expect_bounds(body, {-20 * mm, -15 * mm, 0 * mm}, {20 * mm, 15 * mm, 12.5 * mm});
  const Solid moved = translated(body, {1 * mm, 2 * mm, -3 * mm});
  expect_bounds(moved, {-19 * mm, -13 * mm, -3 * mm}, {21 * mm, 17 * mm, 9.5 * mm});
  expect_volume(moved, volume_of(body) / mm3);
  const Solid turned = half_turned_about_x(moved);
  expect_bounds(turned, {-19 * mm, -17 * mm, -9.5 * mm}, {21 * mm, 13 * mm, 3 * mm});
  expect_volume(turned, volume_of(body) / mm3);
  EXPECT_TRUE(soundness_of(turned).sound());
}

TEST(Soundness, FindsNothingWrongWithASoundBody) {
  const Soundness report = soundness_of(sample_solid());
  EXPECT_TRUE(report.sound());
  EXPECT_EQ(report.bodies, 1);
  EXPECT_EQ(report.volume, volume_of(sample_solid()));
}

TEST(Soundness, CountsSeparateBodies) {
  const Soundness report =
      soundness_of(union_of({box({0 * mm, 0 * mm, 0 * mm}, {1 * mm, 1 * mm, 1 * mm}),
                             box({2 * mm, 0 * mm, 0 * mm}, {3 * mm, 1 * mm, 1 * mm})}));
  EXPECT_EQ(report.bodies, 2);
  EXPECT_FALSE(report.sound());
}

// The kernel's own check calls these valid.
TEST(Soundness, FindsLinesThatMerelyTouch) {
  const Solid block = box({0 * mm, 0 * mm, 0 * mm}, {8 * mm, 4 * mm, 4 * mm});
  const Soundness two_holes_tangent = soundness_of(
      difference_of(block, {translated(cylinder(2 * mm, -1 * mm, 5 * mm), {3 * mm, 2 * mm, {}}),
                            translated(cylinder(2 * mm, -1 * mm, 5 * mm), {5 * mm, 2 * mm, {}})}));
  EXPECT_FALSE(two_holes_tangent.sound());
  const Soundness corner_to_corner = soundness_of(
      difference_of(block, {box({-1 * mm, -1 * mm, -1 * mm}, {4 * mm, 2 * mm, 5 * mm}),
                            box({4 * mm, 2 * mm, -1 * mm}, {9 * mm, 5 * mm, 5 * mm})}));
  EXPECT_GE(corner_to_corner.bad_edges, 1);
  EXPECT_FALSE(corner_to_corner.sound());
}

TEST(Soundness, FindsAClosedHollow) {
  const Soundness report =
      soundness_of(difference_of(box({0 * mm, 0 * mm, 0 * mm}, {4 * mm, 4 * mm, 4 * mm}),
                                 {box({1 * mm, 1 * mm, 1 * mm}, {3 * mm, 3 * mm, 3 * mm})}));
  EXPECT_TRUE(report.valid);
  EXPECT_EQ(report.cavities, 1);
  EXPECT_FALSE(report.sound());
}

TEST(SolidDeathTest, RefusesLengthsThatAreZeroOrNotNumbers) {
  const Length no_number = std::numeric_limits<double>::quiet_NaN() * mm;
  const Length endless = std::numeric_limits<double>::infinity() * mm;
  EXPECT_DEATH(cylinder(Length{}, 0 * mm, 1 * mm), "makeable");
  EXPECT_DEATH(cylinder(no_number, 0 * mm, 1 * mm), "makeable");
  EXPECT_DEATH(cylinder(1 * mm, 1 * mm, 1 * mm), "makeable");
  EXPECT_DEATH(cylinder(1 * mm, 0 * mm, endless), "makeable");
  EXPECT_DEATH(rounded_prism(2 * mm, 2 * mm, no_number, 0 * mm, 1 * mm), "has_outline");
  EXPECT_DEATH(rounded_prism(2 * mm, 2 * mm, 1 * mm, 0 * mm, 1 * mm), "has_outline");
  EXPECT_DEATH(frustum(2 * mm, 0 * mm, 2 * mm, 1 * mm), "makeable");
  EXPECT_DEATH(box({1 * mm, 0 * mm, 0 * mm}, {0 * mm, 1 * mm, 1 * mm}), "makeable");
  EXPECT_DEATH(translated(cylinder(1 * mm, 0 * mm, 1 * mm), {no_number, {}, {}}), "within_reach");
}

}  // namespace
}  // namespace backfit
