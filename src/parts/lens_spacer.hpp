// SPDX-License-Identifier: MIT
// A printed spacer under the lens board, and shims cut from sheet on it: they move the lens away
// from the film.
#pragma once
#include <string>
#include <vector>

#include "parts/back_plate.hpp"
#include "parts/part_fault.hpp"
#include "parts/piece.hpp"

namespace backfit {

// All numbers of the stack, in the camera's axes. Spacer and shims have one outline.
struct LensSpacer {
  bool round = false;
  Length width, height;  // outside; both the diameter of a round one
  Length corner_radius;
  Length opening;                  // diameter
  std::vector<PlatePoint> screws;  // places
  Length screw_hole;               // diameter; counts where there are screws
  Length printed;                  // thickness of the spacer; 0 for shims alone
  std::vector<Length> shims;       // thicknesses of sheet, thickest first
  std::string shim_sheet;          // what they are cut from: "brass"
  Length error, shim_error;        // how far spacer and one shim may be off
  Length wanted;                   // how far the lens shall move
  Length front;                    // z of the lens board's rear face once it has moved
  Length smallest_wall;

  Length thickness() const;  // of the whole stack
  // Standard uncertainty of thickness(): each layer's error as a rectangular distribution,
  // independent of the others (JCGM 100:2008, 4.3.7 and 5.1.2).
  Length doubt() const;
};

// What keeps it from being made, with both numbers each; empty when it can be built.
std::vector<PartFault> faults(const LensSpacer& spacer);

// One layer of the stack, its rear face on z = 0. Requires faults() empty. Throws SolidFailure.
Solid layer_of(const LensSpacer& spacer, Length thickness);
Area area_of(const LensSpacer& spacer);  // of the outline, by the numbers alone
PieceSet set_of(const LensSpacer& spacer);

}  // namespace backfit
