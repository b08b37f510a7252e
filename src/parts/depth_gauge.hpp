// SPDX-License-Identifier: MIT
// A bridge on two feet that carries a caliper: its depth rod tells how deep a face lies below
// what the feet stand on.
#pragma once
#include <string>
#include <vector>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"

namespace backfit {

// What the rod may be let down on.
struct DepthReading {
  std::string face;
  Length reading;  // on the caliper: the bridge's thickness and the depth
};

// All numbers of the bridge. It spans along x, or along y if `upright`, its middle on the axis.
struct DepthGauge {
  Length length, width;
  Length thickness;   // from the feet's soles to the face that the caliper stands on
  Length foot;        // length of each foot
  Length relief;      // how far the bridge clears what lies between its feet
  Length hole;        // for the rod
  Length hole_pitch;  // the outer two from the middle one
  bool upright = false;
  bool from_front = false;  // the caliper stands on the lens's side, as on a holder's face
  Length rest;              // z of what the feet stand on, in the camera's axes
  Length smallest_wall;
  std::vector<DepthReading> readings;
};

// What keeps it from being made, with both numbers each; empty when it can be built.
std::vector<PartFault> faults(const DepthGauge& gauge);

// Requires faults() empty. The solid, in the camera's axes, throws SolidFailure.
Solid solid_of(const DepthGauge& gauge);
Volume volume_of(const DepthGauge& gauge);  // by the numbers alone
PieceSet set_of(const DepthGauge& gauge);

}  // namespace backfit
