// SPDX-License-Identifier: MIT
// Edges of parts that throw sharp shadows on what lies close by. For the walks of this room.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "lighttrap/rays.hpp"

namespace backfit::ray {

// Where two faces turn by 30 degrees or more, outwards, the plane of each goes on over what lies
// close by as the border of a shadow: before it a place sees along the face, behind it less and
// less.
class ShadowEdges {
 public:
  // The triangles are those of the kernel's surfaces. Requires corners that exist.
  ShadowEdges(const std::vector<Vec>& points,
              const std::vector<std::array<std::uint32_t, 3>>& triangles, const Kernel& kernel);

  // Where to cut a triangle's edge, from corner `edge` to the next.
  struct Cut {
    std::uint32_t edge = 0;
    double part = 0.5;  // of the edge
  };
  // Of the planes of faces that have such an edge within `reach` of the triangle, and those a fifth
  // of its distance behind them, the one that parts it most evenly, if to either side a corner is
  // off it by `least` and by a hundredth of the distance; of the two edges that it crosses, the
  // longer.
  std::optional<Cut> cut(const std::array<Vec, 3>& corners, double reach_mm, double least_mm) const;

 private:
  struct Face {
    std::array<Vec, 3> corners;
    Vec out;
    std::array<bool, 3> throws{};  // a shadow: the edge from that corner to the next
  };
  std::vector<Face> faces_;
  const Kernel& kernel_;
};

}  // namespace backfit::ray
