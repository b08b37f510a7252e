// SPDX-License-Identifier: MIT
// Two small pieces to print first: they tell which gap this printer leaves between what slides.
#pragma once
#include <vector>

#include "parts/piece.hpp"
#include "solid/solid.hpp"

namespace backfit {

// A block with a row of square holes and a row of round ones, each larger than the peg by one of
// `gaps` a side, engraved beside it in hundredths of a millimetre. The peg is square below and
// round above.
struct ClearanceGauge {
  std::vector<Length> gaps;  // rising
  Length peg = 8 * mm;       // side of the square, and diameter of the round
  Length height = 6 * mm;    // of the block
  Length wall = 3 * mm;      // between holes and around them
  Length letters = 3.5 * mm;
  Length engraving = 0.4 * mm;
};

// Gaps from 0.10 to 0.50 mm a side, the guide values of the filament trade for press fits up to
// loose ones.
ClearanceGauge usual_gauge();

// The block, flat on z = 0, its words on top; requires rising gaps above 0, a peg of 4 mm at least.
Solid gauge_block(const ClearanceGauge& gauge);
// The peg, standing on its square end, a handle between that and the round end.
Solid gauge_peg(const ClearanceGauge& gauge);

// Block and peg, which is to be tried in the block's holes.
PieceSet gauge_set(const ClearanceGauge& gauge);

// Of the block without its words, from the numbers alone.
Volume block_volume(const ClearanceGauge& gauge);

}  // namespace backfit
