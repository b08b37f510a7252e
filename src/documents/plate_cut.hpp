// SPDX-License-Identifier: MIT
// The back plate cut through the middle, as closed outlines of the cut material.
#pragma once
#include <vector>

#include "documents/drawing.hpp"
#include "parts/back_plate.hpp"

namespace backfit::paper {

// One outline for each piece that window and holes leave of the plate, cut through the axis along
// x or y: z to the right, 0 at the seat, and the plate's x or y up. Holes count when the cut runs
// through them, heads as 45 degree flanks also beside their middle; corners are not rounded.
// Requires faults(plate) empty for any smallest wall.
std::vector<std::vector<PartPoint>> cut_pieces(const BackPlate& plate, Along along);

}  // namespace backfit::paper
