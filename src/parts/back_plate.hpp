// SPDX-License-Identifier: MIT
// The plate between a camera's seat and a sheet-film holder: it sets how far back the film lies.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "parts/strap_lugs.hpp"
#include "quantity/quantity.hpp"
#include "solid/solid.hpp"

namespace backfit {

// A place on the plate, from the optical axis, seen from behind the camera: x right, y up.
struct PlatePoint {
  Length x, y;
};

// All numbers of the plate. Its front face (z = 0) lies on the seat; the rear face (z =
// thickness), flat, carries the holder. It prints with the rear face on the bed, without supports.
struct BackPlate {
  Length width, height;                // outline, centred on the axis
  Length corner_radius;                // of the outline
  Length thickness;                    // seat to holder face
  Length window_width, window_height;  // opening for the light, centred on the axis

  // The light-trap tongue: a closed rectangular ring that stands off the front face into the
  // groove around the camera's back opening.
  struct Tongue {
    Length inner_width, inner_height;  // inside the ring
    Length wall;                       // ring's thickness
    Length inner_corner_radius;  // 0 for a sharp inside corner; the outside one is larger by wall
    Length depth;                // how far it stands off the front face
  } tongue;

  // Through holes for screws with 90 degree countersunk heads, flush with the face they sink into.
  struct CountersunkHoles {
    std::vector<PlatePoint> places;
    Length hole_diameter, head_diameter;
  };
  CountersunkHoles screws;  // hold the plate to the seat; heads in the rear face
  CountersunkHoles fence;   // heads in the front face; behind, their nuts guide the holder's edges

  // The slot in the rear face that takes the holder's locking rib.
  struct RibGroove {
    PlatePoint centre;
    Length size_x, size_y, depth;
  } rib_groove;

  std::optional<StrapLugs> lugs = {};  // beyond the outline

  // With the lugs.
  Length overall_width() const { return lugs && lugs->at_sides ? width + 2 * lugs->out() : width; }
  Length overall_height() const {
    return lugs && !lugs->at_sides ? height + 2 * lugs->out() : height;
  }
};

// Everything about `plate` that can't be made, one clear sentence each with both numbers and
// units: features that meet, overlap or merely touch, walls under `smallest_wall`, sizes not
// above zero, screw holes through the tongue or the groove. Empty when it can be built. Walls
// lie between any two features in plan, below the groove, and around the window inside the
// tongue; a wall short by less than 0.001 mm passes. Sizes of holes count only
// where there are any. Requires smallest_wall >= smallest_detail.
std::vector<std::string> faults(const BackPlate& plate, Length smallest_wall);

// The plate as a solid, in camera axes with z = 0 at the seat. Requires faults() empty for any
// smallest wall. Throws SolidFailure.
Solid solid_of(const BackPlate& plate);

// Volume from the plate's numbers alone, without the geometry kernel:
// outline + lugs - window + tongue ring - countersunk holes - groove.
// Requires faults() empty for any smallest wall.
Volume volume_of(const BackPlate& plate);

}  // namespace backfit
