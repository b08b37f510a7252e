// SPDX-License-Identifier: MIT
#include "solid/view.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "sample_solid.hpp"

namespace backfit {
namespace {

struct Extent {
  double left_mm = 1e9, right_mm = -1e9, bottom_mm = 1e9, top_mm = -1e9, length_mm = 0;
  int lines = 0;
};

// Size and total length of the lines that `wanted` picks.
Extent extent_of(const std::vector<ViewLine>& lines,
                 const std::function<bool(const ViewLine&)>& wanted) {
  Extent e;
  for (const ViewLine& line : lines) {
    if (!wanted(line)) {
      continue;
    }
    ++e.lines;
    for (std::size_t i = 0; i < line.points.size(); ++i) {
      const PaperPoint& p = line.points[i];
      e.left_mm = std::min(e.left_mm, p.x / mm);
      e.right_mm = std::max(e.right_mm, p.x / mm);
      e.bottom_mm = std::min(e.bottom_mm, p.y / mm);
      e.top_mm = std::max(e.top_mm, p.y / mm);
      if (i > 0) {
        e.length_mm += hypot(p.x - line.points[i - 1].x, p.y - line.points[i - 1].y) / mm;
      }
    }
  }
  return e;
}

bool seen(const ViewLine& line) { return line.visible; }
bool hidden(const ViewLine& line) { return !line.visible; }

constexpr double tolerance_mm = 1e-6;

// Lines of a box: 4 edges make the visible rectangle; the paper axes are those of the contract.
void expect_rectangle(View view, double left_mm, double right_mm, double bottom_mm, double top_mm) {
  const Solid body = box({1 * mm, 20 * mm, 300 * mm}, {3 * mm, 24 * mm, 305 * mm});
  const Extent e = extent_of(lines_of(body, view, 0.05 * mm), seen);
  EXPECT_EQ(e.lines, 4);
  EXPECT_NEAR(e.left_mm, left_mm, tolerance_mm);
  EXPECT_NEAR(e.right_mm, right_mm, tolerance_mm);
  EXPECT_NEAR(e.bottom_mm, bottom_mm, tolerance_mm);
  EXPECT_NEAR(e.top_mm, top_mm, tolerance_mm);
  EXPECT_NEAR(e.length_mm, 2 * (right_mm - left_mm + top_mm - bottom_mm), tolerance_mm);
}

TEST(View, OfABoxFromTheFrontIsItsRectangle) { expect_rectangle(View::front, -3, -1, 20, 24); }
TEST(View, OfABoxFromTheRearIsItsRectangle) { expect_rectangle(View::rear, 1, 3, 20, 24); }
TEST(View, OfABoxFromTheRightIsItsRectangle) { expect_rectangle(View::right, -305, -300, 20, 24); }
TEST(View, OfABoxFromTheTopIsItsRectangle) { expect_rectangle(View::top, 1, 3, -305, -300); }

// Truth: along a cube's diagonal nine edges are seen and three hidden, each shortened to
// sqrt(2/3) (isometric projection, elementary geometry), and y stands upright.
TEST(View, AlongACubesDiagonalIsIsometric) {
  const Solid cube = box({-1 * mm, -1 * mm, -1 * mm}, {1 * mm, 1 * mm, 1 * mm});
  for (const View view : {View::oblique_front, View::oblique_rear}) {
    const std::vector<ViewLine> lines = lines_of(cube, view, 0.05 * mm);
    const Extent outside = extent_of(lines, seen);
    const Extent inside = extent_of(lines, hidden);
    EXPECT_EQ(outside.lines, 9);
    EXPECT_EQ(inside.lines, 3);
    EXPECT_NEAR(outside.length_mm, 9 * 2 * std::sqrt(2.0 / 3), tolerance_mm);
    EXPECT_NEAR(inside.length_mm, 3 * 2 * std::sqrt(2.0 / 3), tolerance_mm);
    EXPECT_NEAR(outside.right_mm, std::sqrt(2.0), tolerance_mm);
    EXPECT_NEAR(outside.top_mm, 2 * std::sqrt(2.0 / 3), tolerance_mm);
  }
}

// A mark on the +x, +y, +z corner tells left from right and which side is seen.
TEST(View, ObliqueOnesShowTheSideTheyAreNamedFor) {
  const Solid plate = union_of({box({-10 * mm, -10 * mm, 0 * mm}, {10 * mm, 10 * mm, 1 * mm}),
                                box({7 * mm, 7 * mm, 0.5 * mm}, {9 * mm, 9 * mm, 3 * mm})});
  const auto visible_length_mm = [&plate](View view) {
    return extent_of(lines_of(plate, view, 0.05 * mm), seen).length_mm;
  };
  EXPECT_GT(visible_length_mm(View::oblique_rear), visible_length_mm(View::oblique_front));
}

TEST(View, TellsWhatIsHidden) {
  const Solid block = difference_of(box({-5 * mm, -5 * mm, 0 * mm}, {5 * mm, 5 * mm, 4 * mm}),
                                    {box({-1 * mm, -2 * mm, 2 * mm}, {1 * mm, 2 * mm, 5 * mm})});
  const auto pocket = [](bool visible) {
    return [visible](const ViewLine& line) {
      return line.visible == visible &&
             std::all_of(line.points.begin(), line.points.end(),
                         [](const PaperPoint& p) { return abs(p.x) < 2 * mm; });
    };
  };
  const std::vector<ViewLine> rear = lines_of(block, View::rear, 0.05 * mm);
  EXPECT_NEAR(extent_of(rear, pocket(true)).length_mm, 12, tolerance_mm);
  const std::vector<ViewLine> front = lines_of(block, View::front, 0.05 * mm);
  EXPECT_EQ(extent_of(front, pocket(true)).lines, 0);
  EXPECT_NEAR(extent_of(front, pocket(false)).left_mm, -1, tolerance_mm);
  EXPECT_NEAR(extent_of(front, pocket(false)).top_mm, 2, tolerance_mm);
}

// Law: no chord is farther than the tolerance from its arc: r - sqrt(r^2 - (l/2)^2) <= chord.
TEST(View, DrawsACircleWithinTheChord) {
  const double radius_mm = 8;
  const std::vector<ViewLine> lines =
      lines_of(cylinder(2 * radius_mm * mm, 0 * mm, 3 * mm), View::rear, 0.01 * mm);
  const Extent e = extent_of(lines, seen);
  EXPECT_NEAR(e.right_mm - e.left_mm, 2 * radius_mm, 0.02);
  EXPECT_NEAR(e.length_mm, 2 * 3.14159265358979 * radius_mm, 2 * 3.1416 * 0.01);
  for (const ViewLine& line : lines) {
    for (std::size_t i = 1; line.visible && i < line.points.size(); ++i) {
      const PaperPoint& p = line.points[i - 1];
      const PaperPoint& q = line.points[i];
      EXPECT_NEAR(hypot(p.x, p.y) / mm, radius_mm, tolerance_mm);
      const double half_mm = hypot(p.x - q.x, p.y - q.y) / mm / 2;
      EXPECT_LE(radius_mm - std::sqrt(radius_mm * radius_mm - half_mm * half_mm), 0.0101);
    }
  }
}

TEST(View, MarksTheRunIntoARoundedCornerAsSmooth) {
  const std::vector<ViewLine> lines =
      lines_of(rounded_prism(10 * mm, 10 * mm, 2 * mm, 0 * mm, 5 * mm), View::top, 0.05 * mm);
  const Extent smooth =
      extent_of(lines, [](const ViewLine& line) { return line.visible && !line.sharp; });
  EXPECT_EQ(smooth.lines, 2);  // on the top side; those of the left and right lie in silhouettes
  EXPECT_NEAR(smooth.right_mm, 3, tolerance_mm);
}

}  // namespace
}  // namespace backfit
