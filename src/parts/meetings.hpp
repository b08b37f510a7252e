// SPDX-License-Identifier: MIT
// What of a set touches what, and whether a driver reaches its screws.
#pragma once
#include <string>
#include <vector>

#include "parts/piece.hpp"

namespace backfit {

// What two bodies may share by rounding where they only touch.
inline constexpr Volume negligible = 1e-3 * mm * mm * mm;

// Every two pieces of `set`, and every piece with every one of its surroundings, that come within
// `reach` of each other, the nearest places counted where a piece is needed more than once. Throws
// SolidFailure.
std::vector<PieceMeeting> meetings_of(const PieceSet& set, Length reach);

// Of a piece by its place in the set, or, counting on, of a surrounding. Requires one that exists.
const std::string& name_of(const PieceSet& set, std::size_t standing);

// A screw that no straight driver turns, and what stands in its way, as PieceMeeting counts.
struct BlockedScrew {
  std::size_t screw, by;
};

// Those whose driver, a cylinder as wide as the head and 60 mm long over it along its axis (a short
// blade; common practice), meets what is in place when they are turned: all pieces but the later
// ones, and in the camera its surroundings. Throws SolidFailure.
std::vector<BlockedScrew> blocked_screws(const PieceSet& set);

}  // namespace backfit
