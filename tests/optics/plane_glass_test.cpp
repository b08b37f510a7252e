// SPDX-License-Identifier: MIT
#include "optics/plane_glass.hpp"

#include <gtest/gtest.h>

namespace backfit {
namespace {

// Truth: Snell's law along the rays, computed apart from this program; tolerance its digits.
// large-format-ground-glass in data/sources.toml (READ): about a third of the glass.
TEST(FocusShift, OfAGroundGlassIsAboutAThirdOfIt) {
  const PlaneGlass glass{1.5 * mm, 1.5168};
  EXPECT_NEAR(focus_shift(glass) / mm, 0.511076, 5e-7);
  EXPECT_NEAR(marginal_focus_shift(glass, {4}) / mm, 0.515483, 5e-7);
  EXPECT_NEAR(marginal_focus_shift(glass, {8.8}) / mm, 0.511980, 5e-7);
  EXPECT_NEAR(focus_shift(glass) / glass.thickness, 1.0 / 3, 0.01);
}

// Law: linear in the thickness, none without glass or with glass like air, and the edge of a small
// stop is near the axis.
TEST(FocusShift, GrowsWithTheGlassAlone) {
  EXPECT_NEAR(focus_shift({4.5 * mm, 1.6}) / focus_shift({1.5 * mm, 1.6}), 3, 1e-12);
  EXPECT_NEAR(
      marginal_focus_shift({4.5 * mm, 1.6}, {5}) / marginal_focus_shift({1.5 * mm, 1.6}, {5}), 3,
      1e-12);
  EXPECT_EQ(focus_shift({0 * mm, 1.6}), 0 * mm);
  EXPECT_NEAR(marginal_focus_shift({2 * mm, 1}, {2}) / mm, 0, 1e-12);
  EXPECT_NEAR(marginal_focus_shift({2 * mm, 1.6}, {1000}) / focus_shift({2 * mm, 1.6}), 1, 1e-6);
}

// Truth: a ray traced by hand through the glass: from the axis z before its front face at the slope
// u (n sin U1 = sin U), it meets the back face on the axis when z = -t tan U1 / tan U, near the
// axis t / n behind the front face.
TEST(TurnedGroundGlass, ErrsByTheThicknessOverTheIndex) {
  const PlaneGlass glass{1.5 * mm, 1.5168};
  EXPECT_NEAR(turned_ground_glass_error(glass) / mm, 0.988924, 5e-7);
  const Angle outside = 0.001 * rad;
  const double inside = std::asin(sin(outside) / glass.index);
  const Length by_ray = glass.thickness * (std::tan(inside) / tan(outside));
  EXPECT_NEAR(turned_ground_glass_error(glass) / by_ray, 1, 1e-6);
}

}  // namespace
}  // namespace backfit
