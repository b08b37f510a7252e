// SPDX-License-Identifier: MIT
// The plate between a camera's seat and an instant back: seat on one side, the back's own mounting
// on the other.
#pragma once
#include <optional>
#include <vector>

#include "parts/back_plate.hpp"
#include "parts/part_fault.hpp"
#include "parts/piece.hpp"

namespace backfit {

// All numbers of the adapter. Its front face (z = 0) lies on the seat, as the back plate's does;
// the rear face (z = thickness) carries the instant back. It prints with the rear face on the bed.
struct AdapterPlate {
  Length width, height;  // outline, centred on the axis
  Length corner_radius;
  Length thickness;
  Length window_width, window_height;       // opening for the light, centred on the axis
  BackPlate::Tongue tongue;                 // in the seat's groove
  BackPlate::CountersunkHoles seat_screws;  // heads in the rear face, beside the back
  BackPlate::CountersunkHoles back_screws;  // heads in the front face, under the back

  // The whole instant back, seen from behind.
  PlatePoint back_middle;
  Length back_width, back_height;

  // The closed rectangular groove in the rear face, centred on the back: for its tongue, or for a
  // loose one that goes into the back's own groove.
  struct Groove {
    Length inner_width, inner_height;  // inside the groove's inner edge
    Length inner_corner_radius;        // 0 if square
    Length width, depth;
  };
  // The loose tongue, glued to that groove's floor with `gap` on each side.
  struct LooseTongue {
    Length gap, height;
  };
  std::optional<Groove> groove;
  std::optional<LooseTongue> loose_tongue;  // only with a groove

  Length rest;  // z of the seat in the camera
  Length smallest_wall;
};

// What keeps it from being made or put together, with both numbers each; empty when it can be
// built. A screw of the seat under the back is one: no screwdriver gets there.
std::vector<PartFault> faults(const AdapterPlate& adapter);

// In the camera's axes. Require faults() empty, tongue_of() a loose tongue. Throw SolidFailure.
Solid solid_of(const AdapterPlate& adapter);
Solid tongue_of(const AdapterPlate& adapter);
// By the numbers alone.
Volume volume_of(const AdapterPlate& adapter);
Volume tongue_volume(const AdapterPlate& adapter);
PieceSet set_of(const AdapterPlate& adapter);

}  // namespace backfit
