// SPDX-License-Identifier: MIT
// The back plate's numbers, from the seat, the holder and the printer.
#pragma once
#include "conversion/assembly.hpp"

namespace backfit {

// The smallest wall this printer makes soundly: three widths of its nozzle. Common practice.
Length smallest_wall(const Printer& printer);

// Whether something this wide and high lies on the printer's bed, turned or not.
bool fits_bed(const FrameSize& part, const Printer& printer);

// The tongue that goes into `groove` with `gap` free all round.
BackPlate::Tongue tongue_in(const SeatGroove& groove, Length gap);

// Fills in `plate_thickness`, `plate` and `missing` of an assembly by the back on the seat, whose
// survey, plan, holder and window are there. The thickness is the plan's, or else the least that
// leaves a smallest wall under every recess, in whole layers.
void design_plate(Assembly& assembly);

}  // namespace backfit
