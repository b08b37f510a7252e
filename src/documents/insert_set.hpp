// SPDX-License-Identifier: MIT
// The insert as a set of pieces in the camera.
#pragma once
#include "conversion/report.hpp"
#include "parts/piece.hpp"

namespace backfit {

// Its pieces in the camera's axes, what is bought for it, how it is printed. How it goes together
// and into the camera is among the conversion's own steps. Requires report.insert->can_be_made().
// Throws SolidFailure.
PieceSet insert_set(const Report& report);

// That nothing of the set stands where spools with full rolls lie or film passes at any state of
// winding. Takes a second or two. Requires insert_set(report). Throws SolidFailure with the names
// of what meets.
void demand_free_way(const Report& report, const PieceSet& insert);

}  // namespace backfit
