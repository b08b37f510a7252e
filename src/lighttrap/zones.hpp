// SPDX-License-Identifier: MIT
// Surfaces cut into zones by how far they are from what they face, so that a narrow gap has small
// ones. Each zone has two sides. For the walks of this room.
#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "lighttrap/rays.hpp"

namespace backfit::ray {

class Zones {
 public:
  struct Zone {
    std::array<Vec, 3> corners;
    double area_mm2 = 0;
    std::uint32_t triangle = 0;
    std::uint32_t group = 0;
  };
  // Zones that together are one piece of a triangle, some at most: numbers first to end.
  struct Group {
    std::size_t first = 0, end = 0;
    double area_mm2 = 0;
  };

  // Halves each triangle's longest edge until it is no longer than 0.6 times the clear distance in
  // front of or, but for bodies, behind it, or than a thousandth of the whole; in a gap
  // along the edges of parts 8 times that; and no longer than a 24th of the whole. Bodies' where
  // the shadows of edges close by end, instead of in halves. The coarsest first, so that `most`
  // zones go where they are needed most.
  Zones(const Surfaces& surfaces, const Kernel& kernel, std::size_t most);

  // Halves zones on, those of the most `worth` first, until there are `most`: each half is then
  // worth its part of the area. Down to a 4000th of the whole, and to a fifth of what the first cut
  // asks for. Returns for each zone the one that it was part of.
  std::vector<std::size_t> refine(const Surfaces& surfaces, const Kernel& kernel,
                                  const std::vector<double>& worth, std::size_t most);

  const std::vector<Zone>& zones() const { return zones_; }
  const std::vector<Group>& groups() const { return groups_; }
  std::size_t sides() const { return 2 * zones_.size(); }
  // The side met at u, v of a triangle: 2 zone, and 1 more for the back.
  std::size_t side_at(std::uint32_t triangle, double u, double v, bool back) const;

 private:
  // Either a zone or the split of the edge from corner `edge` to the next.
  struct Node {
    std::uint32_t edge = 0, first = 0;  // children first and first + 1; a zone when edge is 3
    float part = 0.5F;                  // of the edge, to where it is split
  };
  struct Open;
  class Cutter;
  // Of a node's triangle its two halves.
  std::array<Open, 2> halves(const Open& at);
  // Zones numbered as they lie on their triangles, in groups; and found by grids. Returns which
  // number each had before.
  std::vector<std::size_t> settle();
  void number(std::uint32_t node, std::vector<std::size_t>& before, std::vector<Zone>& zones);
  void lay_grids();
  std::uint32_t zone_at(std::uint32_t triangle, double u, double v) const;

  std::vector<Node> nodes_;  // those of the triangles first
  std::vector<Zone> zones_;
  std::vector<Group> groups_;
  // Of each triangle u and v cut into equal parts: the zone of each cell, if it lies in one.
  struct Grid {
    double parts = 1;
    int last = 0;             // part
    std::uint32_t first = 0;  // cell
  };
  std::vector<Grid> grids_;
  std::vector<std::uint32_t> cells_;
};

}  // namespace backfit::ray
