// SPDX-License-Identifier: MIT
// What of a set touches what.
#pragma once
#include <vector>

#include "parts/piece.hpp"

namespace backfit {

// Every two pieces of `set` that come within `reach` of each other, the nearest places counted
// where a piece is needed more than once. Throws SolidFailure.
std::vector<PieceMeeting> meetings_of(const PieceSet& set, Length reach);

}  // namespace backfit
