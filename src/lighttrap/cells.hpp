// SPDX-License-Identifier: MIT
// A gap's section cut into cells, rectangles that light passes one after the other, in units of the
// gap. For the solvers of this room.
#pragma once
#include <cmath>
#include <cstddef>
#include <vector>

#include "lighttrap/profile.hpp"

namespace backfit::gap {

struct Point {
  double x = 0, y = 0;
  friend Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
  friend Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
  friend Point operator*(double k, Point p) { return {k * p.x, k * p.y}; }
  friend bool operator==(const Point&, const Point&) = default;
};
inline double distance(Point a, Point b) { return std::hypot(b.x - a.x, b.y - a.y); }
// Twice the area of the triangle, positive when a, b, c turn to the left.
inline double turning(Point a, Point b, Point c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}
// A quarter turn to the left.
inline Point left_of(Point p) { return {-p.y, p.x}; }

// The opening between two cells, seen along the way in.
struct Portal {
  Point left, right, heading;
};

// A straight piece of wall in one cell.
struct WallPiece {
  Point from, to;
  std::size_t cell = 0;
  std::size_t arm = 0;  // whose wall it goes on with
  bool right = true;
  double width = 1;  // of the gap there, the narrower one in a corner
};

struct Cells {
  std::vector<Portal> portals;                     // the mouth first; one more than there are cells
  std::vector<WallPiece> right_walls, left_walls;  // both from the mouth in

  std::size_t count() const { return portals.size() - 1; }
};

// Requires no fault_of(profile) but that it may run through itself.
Cells cells_of(const GapProfile& profile);

}  // namespace backfit::gap
