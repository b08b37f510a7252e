// SPDX-License-Identifier: MIT
#include "lighttrap/section.hpp"

#include <algorithm>
#include <limits>

namespace backfit::gap {
namespace {

constexpr std::array<Point, 4> outward{Point{-1, 0}, {1, 0}, {0, -1}, {0, 1}};

// The side of a box that faces `direction`, which is along an axis.
std::size_t side_towards(Point direction) {
  return direction.x < -0.5 ? 0 : direction.x > 0.5 ? 1 : direction.y < -0.5 ? 2 : 3;
}

}  // namespace

Section::Section(const Cells& cells)
    : boxes_(cells.count()), outer_(cells.portals.front()), inner_(cells.portals.back()) {
  for (std::size_t i = 0; i < cells.count(); ++i) {
    const Portal& in = cells.portals[i];
    const Portal& out = cells.portals[i + 1];
    Box& box = boxes_[i];
    const auto [left, right] = std::minmax({in.left.x, in.right.x, out.left.x, out.right.x});
    const auto [low, high] = std::minmax({in.left.y, in.right.y, out.left.y, out.right.y});
    const std::array<double, 4> coordinates{left, right, low, high};
    for (std::size_t s = 0; s < 4; ++s) box.at(s).coordinate = coordinates.at(s);
    box.at(side_towards(-1 * in.heading)).beyond = Beyond::previous;
    box.at(side_towards(out.heading)).beyond = Beyond::next;
  }
  for (const bool right : {true, false}) {
    for (const WallPiece& piece : right ? cells.right_walls : cells.left_walls) {
      const double piece_length = distance(piece.from, piece.to);
      if (piece_length == 0) continue;
      const Point along = 1 / piece_length * (piece.to - piece.from);
      const Point in = right ? left_of(along) : -1 * left_of(along);
      Side& side = boxes_[piece.cell].at(side_towards(-1 * in));
      side.wall = walls_.size();
      side.origin = along.x * along.x > 0.5 ? piece.from.x : piece.from.y;
      walls_.push_back(piece);
      inward_.push_back(in);
    }
  }
}

Point Section::on_wall(std::size_t wall, double along) const {
  const WallPiece& piece = walls_[wall];
  return piece.from + along / length(wall) * (piece.to - piece.from);
}

Hit Section::met_by(std::size_t cell, Point from, Point direction) const {
  constexpr double never = std::numeric_limits<double>::infinity();
  const std::size_t x_side = direction.x > 0 ? 1 : 0, y_side = direction.y > 0 ? 3 : 2;
  for (;;) {
    const Box& box = boxes_[cell];
    const double to_x = direction.x == 0 ? never : (box[x_side].coordinate - from.x) / direction.x;
    const double to_y = direction.y == 0 ? never : (box[y_side].coordinate - from.y) / direction.y;
    const bool meets_x = to_x < to_y;
    const Side& side = box[meets_x ? x_side : y_side];
    from = meets_x ? Point{side.coordinate, from.y + to_x * direction.y}
                   : Point{from.x + to_y * direction.x, side.coordinate};
    if (side.beyond == Beyond::wall) {
      const double along = std::abs((meets_x ? from.y : from.x) - side.origin);
      return {Meets::wall, cell, side.wall, along, from, -1 * outward[meets_x ? x_side : y_side]};
    }
    if (side.beyond == Beyond::next ? cell + 1 == boxes_.size() : cell == 0) {
      const Meets mouth = side.beyond == Beyond::next ? Meets::inner_mouth : Meets::outer_mouth;
      return {mouth, cell, 0, 0, from, {}};
    }
    cell = side.beyond == Beyond::next ? cell + 1 : cell - 1;
  }
}

}  // namespace backfit::gap
