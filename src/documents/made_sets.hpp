// SPDX-License-Identifier: MIT
// The parts of a conversion that are made of pieces.
#pragma once
#include <vector>

#include "conversion/report.hpp"
#include "parts/piece.hpp"

namespace backfit {

// In the order in which they are made, in the camera's axes; empty when there are none. A set that
// has a fault is left out: the findings say why. Throws SolidFailure.
std::vector<PieceSet> sets_of(const Report& report);

}  // namespace backfit
