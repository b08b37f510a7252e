// SPDX-License-Identifier: MIT
// A plate without an opening that closes a camera's seat, for leak tests and for the shelf.
#pragma once
#include <vector>

#include "parts/back_plate.hpp"
#include "parts/part_fault.hpp"
#include "parts/piece.hpp"

namespace backfit {

// All numbers of the cover. Its front lies on the seat, its tongue in the groove, as the back
// plate's does; it prints with the rear face on the bed.
struct BlankCover {
  Length width, height;  // outline, centred on the axis
  Length corner_radius;
  Length thickness;
  BackPlate::Tongue tongue;
  std::vector<PlatePoint> screws;  // places of through holes
  Length screw_hole;               // diameter; counts where there are screws
  Length rest;                     // z of the seat
  Length smallest_wall;
};

// What keeps it from being made, with both numbers each; empty when it can be built.
std::vector<PartFault> faults(const BlankCover& cover);

// In the camera's axes. Requires faults() empty. The solid throws SolidFailure.
Solid solid_of(const BlankCover& cover);
Volume volume_of(const BlankCover& cover);  // by the numbers alone
PieceSet set_of(const BlankCover& cover);

}  // namespace backfit
