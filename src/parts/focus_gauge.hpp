// SPDX-License-Identifier: MIT
// A ground glass, or frosted tape, in a frame that lies where the film will lie: what is sharp on
// it is sharp on the film.
#pragma once
#include <vector>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"

namespace backfit {

// All numbers of the gauge, in the camera's axes. The frame lies with its front on what carries it
// at z = rest, its middle on the axis. The glass lies in a pocket that is open to the lens, on a
// ledge round the opening that one looks through. Where the film lies before its rest, a nose
// carries the pocket forward.
struct FocusGauge {
  Length width, height;              // outside
  Length rest;                       // z of what carries it
  Length film;                       // z at which the matt face shall lie
  Length front;                      // z of the pocket's mouth: rest, or of the nose's front
  Length ledge;                      // z of the face that the glass lies on
  Length back;                       // z of the frame's rear face
  Length glass_width, glass_height;  // of glass or tape
  Length glass_thickness;
  bool tape = false;
  Length gap;                      // a side between glass and pocket
  Length view_width, view_height;  // opening in the ledge
  Length nose_width, nose_height;  // outside; only where front < rest
  Length smallest_wall;

  bool has_nose() const { return front < rest; }
  bool has_pocket() const { return ledge > front; }
  Length pocket_width() const { return glass_width + 2 * gap; }
  Length pocket_height() const { return glass_height + 2 * gap; }
  // What goes between ledge and glass so that its matt face lies in the film's plane; negative
  // where the glass stands out of the frame and lies on the rest itself.
  Length packing() const { return ledge - glass_thickness - film; }
};

// What keeps it from being made, with both numbers each; empty when it can be built.
std::vector<PartFault> faults(const FocusGauge& gauge);

// Requires faults() empty. The set's solid throws SolidFailure.
Solid solid_of(const FocusGauge& gauge);
Volume volume_of(const FocusGauge& gauge);  // by the numbers alone
PieceSet set_of(const FocusGauge& gauge);

}  // namespace backfit
