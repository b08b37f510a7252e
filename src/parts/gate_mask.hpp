// SPDX-License-Identifier: MIT
// A plate in the old gate with a smaller opening.
#pragma once
#include <vector>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"

namespace backfit {

// All numbers of the mask, in the camera's axes, its middle on the axis.
struct GateMask {
  Length width, height;                  // outside, in the old gate
  Length opening_width, opening_height;  // that the light is let through by
  Length thickness;
  Length rear;                           // z of its rear face, whose edge cuts the light last
  Length picture_width, picture_height;  // on the film, where half the lens is seen
  Length soft;                           // width of the picture's soft edge
  Length smallest_wall;
};

// What keeps it from being made, with both numbers each; empty when it can be built.
std::vector<PartFault> faults(const GateMask& mask);

// Requires faults() empty. The solid throws SolidFailure.
Solid solid_of(const GateMask& mask);
Volume volume_of(const GateMask& mask);  // by the numbers alone
PieceSet set_of(const GateMask& mask);

}  // namespace backfit
