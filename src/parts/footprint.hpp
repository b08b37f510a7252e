// SPDX-License-Identifier: MIT
// How much material stays between features of a part, seen in plan.
#pragma once
#include "quantity/quantity.hpp"

namespace backfit {

// A circle or a rounded rectangle: everything within `radius` of a core rectangle with sides along
// x and y, which is a single point for a circle.
struct Footprint {
  Length x, y;  // centre
  Length core_half_width, core_half_height;
  Length radius;

  static Footprint circle(Length x, Length y, Length diameter) {
    return {x, y, {}, {}, diameter / 2};
  }
  // Requires corner_radius from 0 to half of each side.
  static Footprint rectangle(Length x, Length y, Length width, Length height,
                             Length corner_radius) {
    return {x, y, width / 2 - corner_radius, height / 2 - corner_radius, corner_radius};
  }
};

// Shortest distance between two footprints, 0 where they touch. Where they overlap: minus the
// shift that would part them, along x or y when their cores overlap.
Length gap_between(const Footprint& a, const Footprint& b);

// Shortest distance from `inner` to the edge of `outer`, from within. Where it sticks out: minus
// how far.
Length room_inside(const Footprint& inner, const Footprint& outer);

}  // namespace backfit
