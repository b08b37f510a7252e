// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <numbers>

#include "solid/lettering.hpp"
#include "solid/solid.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

constexpr double rounding = 1e-9;  // relative, of the kernel's integration

// Truth: a right triangle's half product, an L's two rectangles.
TEST(Prism, HasTheOutlinesAreaTimesItsHeight) {
  const Solid triangle =
      prism({{0 * mm, 0 * mm}, {6 * mm, 0 * mm}, {0 * mm, 4 * mm}}, -1 * mm, 2 * mm);
  EXPECT_NEAR(volume_of(triangle) / mm3, 36, 36 * rounding);
  // Clockwise: the same body, not turned inside out.
  const Solid mirrored =
      prism({{0 * mm, 4 * mm}, {6 * mm, 0 * mm}, {0 * mm, 0 * mm}}, -1 * mm, 2 * mm);
  EXPECT_NEAR(volume_of(mirrored) / mm3, 36, 36 * rounding);
  EXPECT_TRUE(soundness_of(mirrored).sound());
  const Solid l = prism({{0 * mm, 0 * mm},
                         {5 * mm, 0 * mm},
                         {5 * mm, 1 * mm},
                         {1 * mm, 1 * mm},
                         {1 * mm, 4 * mm},
                         {0 * mm, 4 * mm}},
                        0 * mm, 2 * mm);
  EXPECT_NEAR(volume_of(l) / mm3, 16, 16 * rounding);
}

// Truth: a square corner rounded by r lacks (1 - pi/4) r^2; one of 60 degrees in an equilateral
// triangle lacks (sqrt 3 - pi/3) r^2: two tangents of r/tan 30, less a sector of 120 degrees.
TEST(Prism, RoundsItsCornersByTangentArcs) {
  const Solid square =
      prism({{0 * mm, 0 * mm}, {10 * mm, 0 * mm, 3 * mm}, {10 * mm, 10 * mm}, {0 * mm, 10 * mm}},
            0 * mm, 1 * mm);
  EXPECT_NEAR(volume_of(square) / mm3, 100 - (1 - pi / 4) * 9, 100 * rounding);
  const double side = 10, r = 1;
  const Solid triangle = prism({{0 * mm, 0 * mm, r * mm},
                                {side * mm, 0 * mm, r * mm},
                                {side / 2 * mm, side * std::sqrt(3) / 2 * mm, r * mm}},
                               0 * mm, 1 * mm);
  const double area = std::sqrt(3) / 4 * side * side - 3 * (std::sqrt(3) - pi / 3) * r * r;
  EXPECT_NEAR(volume_of(triangle) / mm3, area, area * rounding);
  EXPECT_TRUE(soundness_of(triangle).sound());
}

TEST(Turning, QuarterAboutXBringsZToMinusY) {
  const Bounds b =
      bounds_of(quarter_turned_about_x(box({1 * mm, 2 * mm, 3 * mm}, {2 * mm, 4 * mm, 7 * mm})));
  EXPECT_NEAR(b.low.x / mm, 1, 1e-6);
  EXPECT_NEAR(b.low.y / mm, -7, 1e-6);
  EXPECT_NEAR(b.high.y / mm, -3, 1e-6);
  EXPECT_NEAR(b.low.z / mm, 2, 1e-6);
  EXPECT_NEAR(b.high.z / mm, 4, 1e-6);
}

// Truth: two crossed cylinders of one radius share 16/3 r^3 (Archimedes).
TEST(CommonVolume, OfCrossedCylindersIsArchimedes) {
  const Solid one = cylinder(6 * mm, -10 * mm, 10 * mm);
  EXPECT_NEAR(common_volume(one, quarter_turned_about_x(one)) / mm3, 16.0 / 3 * 27, 1e-6);
}

TEST(CommonVolume, OfNeighboursIsNothing) {
  const Solid a = box({0 * mm, 0 * mm, 0 * mm}, {1 * mm, 1 * mm, 1 * mm});
  EXPECT_EQ(common_volume(a, box({2 * mm, 0 * mm, 0 * mm}, {3 * mm, 1 * mm, 1 * mm})), Volume{});
  EXPECT_NEAR(common_volume(a, translated(a, {1 * mm, 0 * mm, 0 * mm})) / mm3, 0, 1e-9);
}

// Law: every letter is engraved soundly, and takes what its strokes cover: no more than their sum.
TEST(Lettering, AllLettersEngraveSoundly) {
  const Lettering lettering{3.5 * mm, 0.5 * mm};
  const Solid plate = box({-2 * mm, -2 * mm, 0 * mm}, {150 * mm, 6 * mm, 2 * mm});
  for (const std::string_view text : {"0123456789 + - / ×", "ABCDEFGHIJKLM", "nopqrstuvwxyz"}) {
    const auto strokes = strokes_of(text, lettering);
    EXPECT_FALSE(strokes.empty());
    Area area;
    for (const auto& s : strokes) {
      area += hypot(s[1].x - s[0].x, s[1].y - s[0].y) * hypot(s[3].x - s[0].x, s[3].y - s[0].y);
      for (const OutlineCorner& c : s) {
        EXPECT_GE(c.y, -0.2 * mm);
        EXPECT_LE(c.y, 3.7 * mm);
      }
    }
    const Solid cut = engraved(plate, strokes, 1.6 * mm, 3 * mm);
    EXPECT_TRUE(soundness_of(cut).sound()) << text;
    const double taken = (volume_of(plate) - volume_of(cut)) / (area * (0.4 * mm));
    EXPECT_LE(taken, 1 + 1e-9) << text;
    EXPECT_GT(taken, 0.9) << text;
  }
}

TEST(Lettering, LinesAreAsWideAsTheySay) {
  const Lettering lettering{4 * mm, 0.5 * mm};
  Length right;
  for (const auto& s : strokes_of("0", lettering)) {
    for (const OutlineCorner& c : s) right = std::max(right, c.x);
  }
  EXPECT_NEAR(right / mm, lettering.width(1) / mm, 1e-9);
}

}  // namespace
}  // namespace backfit
