// SPDX-License-Identifier: MIT
#include "optics/rangefinder.hpp"

#include <gtest/gtest.h>

#include "optics/focus.hpp"

namespace backfit {
namespace {

constexpr Angle arc_minute = deg / 60;
const RangefinderOptics finder{60 * mm, 1, arc_minute};

// Truth: triangle and first-order errors, figures computed apart from this program, their digits.
TEST(RangefinderErrors, FollowFromTheTriangle) {
  EXPECT_NEAR(parallax(60 * mm, 3000 * mm) / deg, 1.145763, 5e-7);
  EXPECT_NEAR(distance_error(finder, 3000 * mm) / mm, 43.633, 5e-4);
  EXPECT_NEAR(film_error(finder, 114 * mm, {}) / mm, 0.063006, 5e-7);
}

TEST(RangefinderErrors, AskForABase) {
  const struct {
    double focal, stop, circle, base;
  } rows[] = {{114, 8.8, 0.1, 4.296},
              {127, 4.7, 0.1, 9.982},
              {50, 1.5, 0.033, 14.691},
              {135, 4, 0.033, 40.162}};
  for (const auto& row : rows) {
    const Length depth = depth_of_focus({row.stop}, row.circle * mm, 0, 1);
    EXPECT_NEAR(needed_base(row.focal * mm, arc_minute, depth) / mm, row.base, 5e-4);
  }
}

// Law: the distance a misaligned finder gives, by the triangle itself, lies as far off as said, and
// so does the image. One arc minute is small: second order 1e-2 at most.
TEST(RangefinderErrors, AreThoseOfATriangleSlightlyWrong) {
  for (const double s : {800.0, 1500.0, 3000.0}) {
    const Angle seen = parallax(finder.base, s * mm) - finder.alignment;
    const Length taken_for = finder.base / tan(seen);
    EXPECT_NEAR((taken_for - s * mm) / distance_error(finder, s * mm), 1, 0.02);
    const Length moved = *extension_for(118 * mm, s * mm) - *extension_for(118 * mm, taken_for);
    EXPECT_NEAR(moved / film_error(finder, 118 * mm, s * mm), 1, 0.02);
  }
  EXPECT_NEAR(film_error(finder, 118 * mm, 1e9 * mm) / film_error(finder, 118 * mm, {}), 1, 1e-6);
}

// Truth: magnification widens a base: twice the base or twice the magnification halve the error.
TEST(RangefinderErrors, ShrinkWithBaseTimesMagnification) {
  const RangefinderOptics wide{120 * mm, 1, arc_minute}, strong{60 * mm, 2, arc_minute};
  EXPECT_DOUBLE_EQ(distance_error(finder, 2000 * mm) / distance_error(wide, 2000 * mm), 2);
  EXPECT_DOUBLE_EQ(distance_error(finder, 2000 * mm) / distance_error(strong, 2000 * mm), 2);
}

// Truth: s = f + f^2 / (x0 + d) as tabulated for f = 114 mm apart from this program.
TEST(CoupledFinder, FocusesTooNearAfterASetBack) {
  EXPECT_NEAR(*focused_by_finder(114 * mm, 3000 * mm, 1 * mm) / mm, 2475.570, 5e-4);
  EXPECT_NEAR(*focused_by_finder(114 * mm, 1000 * mm, 0.25 * mm) / mm, 985.152, 5e-4);
  EXPECT_NEAR(*finder_reading(114 * mm, 3000 * mm, 1 * mm) / mm, 3823.837, 5e-4);
  EXPECT_FALSE(finder_reading(114 * mm, 50000 * mm, 1 * mm));
}

// Law: set on what it reads, the finder brings the lens back; in its pose it reads the truth.
TEST(CoupledFinder, ReadsAndFocusesTheSameThing) {
  for (const double late : {-1.0, 0.0, 0.4, 2.0}) {
    for (const double s : {900.0, 1500.0, 4000.0}) {
      const auto reads = finder_reading(118 * mm, s * mm, late * mm);
      ASSERT_TRUE(reads);
      EXPECT_NEAR(*focused_by_finder(118 * mm, *reads, late * mm) / mm, s, 1e-8);
      if (late == 0) {
        EXPECT_NEAR(*reads / mm, s, 1e-9);
      }
    }
  }
}

}  // namespace
}  // namespace backfit
