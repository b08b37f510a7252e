// SPDX-License-Identifier: MIT
// Straight rays in a gap's section, from wall to wall, in units of its outer mouth. For the solvers
// of this room.
#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "lighttrap/cells.hpp"

namespace backfit::gap {

enum class Meets { wall, outer_mouth, inner_mouth };

// Where a ray ends.
struct Hit {
  Meets meets = Meets::wall;
  std::size_t cell = 0;
  std::size_t wall = 0;  // the piece's number
  double along = 0;      // from the start of the piece
  Point at, inward;      // the place, and the wall's normal into the gap
};

// The walls as boxes along the axes, so that a step of a ray is two divisions.
class Section {
 public:
  explicit Section(const Cells& cells);

  // The pieces that have some length, the right walls first.
  const std::vector<WallPiece>& walls() const { return walls_; }
  double length(std::size_t wall) const { return distance(walls_[wall].from, walls_[wall].to); }
  Point inward(std::size_t wall) const { return inward_[wall]; }
  Point on_wall(std::size_t wall, double along) const;
  // A place on a mouth, `part` of the way from its right to its left end, and the way through it.
  Point on_mouth(double part) const { return on(outer_, part); }
  Point on_inner_mouth(double part) const { return on(inner_, part); }
  double mouth() const { return distance(outer_.right, outer_.left); }
  double inner_mouth() const { return distance(inner_.right, inner_.left); }
  Point way_in() const { return outer_.heading; }
  Point way_out() const { return inner_.heading; }

  // Where the ray from `from` in `cell` along `direction` ends. Requires a direction that is not
  // null and leads into the cell.
  Hit met_by(std::size_t cell, Point from, Point direction) const;

 private:
  enum class Beyond : std::uint8_t { wall, next, previous };
  struct Side {
    double coordinate = 0;  // on its axis
    Beyond beyond = Beyond::wall;
    std::size_t wall = 0;
    double origin = 0;  // of the piece, on the other axis
  };
  // Sides towards -x, +x, -y, +y.
  using Box = std::array<Side, 4>;

  static Point on(const Portal& mouth, double part) {
    return mouth.right + part * (mouth.left - mouth.right);
  }

  std::vector<Box> boxes_;
  std::vector<WallPiece> walls_;
  std::vector<Point> inward_;
  Portal outer_, inner_;
};

}  // namespace backfit::gap
