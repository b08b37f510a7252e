// SPDX-License-Identifier: MIT
// What of a set touches what.
#pragma once
#include <vector>

#include "parts/piece.hpp"

namespace backfit {

// Two pieces of a set, by their places in it, in their places in the camera.
struct PieceMeeting {
  std::size_t first, second;
  Length apart;   // 0 where they touch
  Volume common;  // of material that both take up: above 0 they don't go together
};

// Every two pieces of `set` that come within `reach` of each other, the nearest places counted
// where a piece is needed more than once. Throws SolidFailure.
std::vector<PieceMeeting> meetings_of(const PieceSet& set, Length reach);

}  // namespace backfit
