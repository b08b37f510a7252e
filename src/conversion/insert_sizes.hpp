// SPDX-License-Identifier: MIT
// What of a printed insert follows from survey, plan and printer alone: the film's way must leave
// room for it.
#pragma once
#include "conversion/path_study.hpp"
#include "parts/roll_insert.hpp"

namespace backfit {

// The least whole number of layers that is as high.
Length in_layers(Length height, Length layer);

// An insert's numbers that no path changes: gaps and walls, lip and groove, the spools' ends, the
// floor in the old gate, where the cheeks begin, the plate's ears, the lid's screws. What the owner
// has not measured of the spools' ends is 0, and a usual bore stands in for it. Needs what
// path_design() has filled in before the layout's printed body. Requires a printer.
RollInsert insert_before_path(const Assembly& assembly, const PathDesign& design);

// What such an insert asks of the layout, so that faults() of the whole one finds nothing in it to
// refuse.
PrintedBody printed_body(const RollInsert& begun);

}  // namespace backfit
