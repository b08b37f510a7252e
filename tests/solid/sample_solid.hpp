// SPDX-License-Identifier: MIT
// A body with flat, cylindrical and conical faces for the tests of this room.
#pragma once
#include "solid/solid.hpp"

namespace backfit {

// A block with rounded edges, a countersunk hole, a blind hole, a slot and a boss.
inline Solid sample_solid() {
  return difference_of(
      union_of({rounded_prism(40 * mm, 30 * mm, 5 * mm, 0 * mm, 8 * mm),
                translated(cylinder(10 * mm, 4 * mm, 12.5 * mm), {-10 * mm, 0 * mm, 0 * mm})}),
      {translated(cylinder(4 * mm, -1 * mm, 9 * mm), {8 * mm, 6 * mm, 0 * mm}),
       translated(frustum(2 * mm, 4.5 * mm, 9.25 * mm, 8.125 * mm), {8 * mm, 6 * mm, 0 * mm}),
       translated(cylinder(3 * mm, 2 * mm, 9 * mm), {8 * mm, -6 * mm, 0 * mm}),
       box({-2 * mm, -10 * mm, 5 * mm}, {2 * mm, 10 * mm, 9 * mm})});
}

}  // namespace backfit
