// SPDX-License-Identifier: MIT
#include "solid/section.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace backfit {
namespace {

// Area inside the outlines, holes less: by Green's theorem, each outline's sense set aside.
double area_mm2(const std::vector<PaperPoint>& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PaperPoint &p = outline[i], &q = outline[(i + 1) % outline.size()];
    twice += p.x / mm * (q.y / mm) - q.x / mm * (p.y / mm);
  }
  return std::abs(twice) / 2;
}

const Length chord = 0.001 * mm;

// Truth: closed forms of plane figures.
TEST(Section, OfAPlateWithAHoleIsItsOutlineAndTheHoles) {
  const Solid plate =
      difference_of(rounded_prism(40 * mm, 30 * mm, 4 * mm, 0 * mm, 3 * mm),
                    {translated(cylinder(10 * mm, -1 * mm, 4 * mm), {5 * mm, 0 * mm, 0 * mm})});
  auto outlines = cut_of(plate, 1.5 * mm, chord);
  ASSERT_EQ(outlines.size(), 2u);
  double large = area_mm2(outlines[0]), small = area_mm2(outlines[1]);
  if (large < small) std::swap(large, small);
  const double pi = std::numbers::pi;
  EXPECT_NEAR(large, 40 * 30 - (4 - pi) * 16, 0.2);
  EXPECT_NEAR(small, pi * 25, 0.1);
}

TEST(Section, OfATubeLengthwaysIsTwoRectanglesAndBesideItNothing) {
  const Solid tube = quarter_turned_about_x(
      difference_of(cylinder(20 * mm, 0 * mm, 50 * mm), {cylinder(12 * mm, -1 * mm, 51 * mm)}));
  const auto outlines = cut_of(tube, 0 * mm, chord);
  ASSERT_EQ(outlines.size(), 2u);
  for (const auto& outline : outlines) EXPECT_NEAR(area_mm2(outline), 4 * 50, 1e-6);
  EXPECT_TRUE(cut_of(tube, 11 * mm, chord).empty());
}

TEST(QuarterTurns, BringAxesWhereTheySay) {
  const Solid body = box({1 * mm, 2 * mm, 3 * mm}, {4 * mm, 6 * mm, 8 * mm});
  const auto corner = [](const Solid& s) { return bounds_of(s).low; };
  const Point3 y = corner(quarter_turned_about_y(body));  // (z, y, -x)
  EXPECT_NEAR(y.x / mm, 3, 1e-6);
  EXPECT_NEAR(y.y / mm, 2, 1e-6);
  EXPECT_NEAR(y.z / mm, -4, 1e-6);
  const Point3 z = corner(quarter_turned_about_z(body));  // (-y, x, z)
  EXPECT_NEAR(z.x / mm, -6, 1e-6);
  EXPECT_NEAR(z.y / mm, 1, 1e-6);
  EXPECT_NEAR(z.z / mm, 3, 1e-6);
}

TEST(Distance, BetweenBodiesIsTheShortestWay) {
  const Solid a = box(Point3{}, {10 * mm, 10 * mm, 10 * mm});
  EXPECT_NEAR(distance_between(a, translated(a, {13 * mm, 14 * mm, 0 * mm})) / mm, 5, 1e-9);
  EXPECT_EQ(distance_between(a, translated(a, {10 * mm, 0 * mm, 0 * mm})), 0 * mm);
  EXPECT_EQ(distance_between(a, box({2 * mm, 2 * mm, 2 * mm}, {3 * mm, 3 * mm, 3 * mm})), 0 * mm);
  EXPECT_EQ(distance_between(a, translated(a, {5 * mm, 5 * mm, 5 * mm})), 0 * mm);
}

}  // namespace
}  // namespace backfit
