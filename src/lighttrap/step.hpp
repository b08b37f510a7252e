// SPDX-License-Identifier: MIT
// One step of a walk among surfaces. For the walks of this room.
#pragma once
#include "lighttrap/aim.hpp"

namespace backfit::ray {

// Where a step ends when faces have mirrored it, by which direction it began, and what the walk's
// weight is to be multiplied by for the way that was chosen.
struct Step {
  Arrival arrival;
  Vec direction;
  double factor = 1;
};

// Some steps go out as light is scattered, others graze, and the rest are aimed if there is light
// to aim at, or else graze.
Step step_from(const Room& room, const Aim* aim, const Start& from, Random& random);

}  // namespace backfit::ray
