// SPDX-License-Identifier: MIT
// What a printer needs to know about a part: how it lies, whether it fits, what it weighs.
#pragma once
#include "quantity/quantity.hpp"
#include "solid/solid.hpp"

namespace backfit {

// The room in which a printer can print.
struct PrintSpace {
  Length width, depth, height;
};

// `part` turned over about the x axis, so that its rear (+z) lies on the bed: lowest at z = 0,
// centred over the origin.
Solid laid_on_rear_face(const Solid& part);

// The side of a part, in its own axes, that lies on the bed.
enum class BedSide { low_x, high_x, low_y, high_y, low_z, high_z };

// `part` turned until its `side` is down; lowest at z = 0, centred over the origin.
Solid laid(const Solid& part, BedSide side);

// Whether something of this size fits, upright, as it lies or after a quarter turn on the bed.
// Exactly the bed's size still fits, to the 1e-6 mm that bounds are good for.
bool fits(const Bounds& part, const PrintSpace& space);

// volume * density: the mass printed solid, without hollow infill, supports or brim.
// Requires both above 0.
Mass printed_mass(Volume volume, MassDensity density);

}  // namespace backfit
