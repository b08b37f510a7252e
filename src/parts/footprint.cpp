// SPDX-License-Identifier: MIT
#include "parts/footprint.hpp"

#include <algorithm>

namespace backfit {
namespace {

// Distance from a rectangle's edge to a place `across` and `along` outside its sides; negative
// within the rectangle.
Length distance_to_rectangle(Length across, Length along) {
  return hypot(std::max(across, Length{}), std::max(along, Length{})) +
         std::min(std::max(across, along), Length{});
}

}  // namespace

Length gap_between(const Footprint& a, const Footprint& b) {
  return distance_to_rectangle(abs(a.x - b.x) - a.core_half_width - b.core_half_width,
                               abs(a.y - b.y) - a.core_half_height - b.core_half_height) -
         a.radius - b.radius;
}

// The part of `inner` nearest to the edge of the convex `outer` is a corner, a circle about a
// corner of its core.
Length room_inside(const Footprint& inner, const Footprint& outer) {
  const Length corner_x = abs(inner.x - outer.x) + inner.core_half_width;
  const Length corner_y = abs(inner.y - outer.y) + inner.core_half_height;
  return outer.radius - inner.radius -
         distance_to_rectangle(corner_x - outer.core_half_width, corner_y - outer.core_half_height);
}

}  // namespace backfit
