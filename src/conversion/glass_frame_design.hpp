// SPDX-License-Identifier: MIT
// The frame of the ground glass, from the glass, the holder that it stands in for and the printer.
#pragma once
#include "conversion/assembly.hpp"
#include "parts/glass_frame.hpp"

namespace backfit {

// Fills in `glass_frame` of an assembly whose plan asks for one. The glass lies as deep as
// focus.ground_glass says; without that where the film lies in its holder, its ground side towards
// the lens. Requires the plate, whose rib groove and width it shares.
void design_glass_frame(Assembly& assembly);

}  // namespace backfit
