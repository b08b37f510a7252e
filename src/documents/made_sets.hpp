// SPDX-License-Identifier: MIT
// The parts of a conversion as bodies, put together and checked.
#pragma once
#include <optional>
#include <vector>

#include "conversion/report.hpp"
#include "parts/piece.hpp"

namespace backfit {

// Those made of pieces, in the order in which they are made, in the camera's axes, each with what
// stands around it; empty when there are none. A set that has a fault is left out: the findings say
// why. Throws SolidFailure.
std::vector<PieceSet> sets_of(const Report& report);

// All bodies of a conversion, what meets what among them.
struct MadeParts {
  std::optional<Solid> plate;         // the back plate
  std::optional<PieceSet> plate_set;  // the same as a set on its seat, to be checked
  std::vector<PieceSet> sets;
};

// Throws SolidFailure, also where pieces of one set run into each other.
MadeParts made_parts(const Report& report);

// What the assembly of `parts` with the camera finds: pieces that run into it, a back that doesn't
// close over them, screws that no straight driver reaches.
std::vector<Finding> assembly_findings(const Report& report, const MadeParts& parts);

}  // namespace backfit
