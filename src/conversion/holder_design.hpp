// SPDX-License-Identifier: MIT
// The printed sheet holder's numbers, from the sheet, the standard or the ground glass at hand, and
// the printer.
#pragma once
#include <optional>

#include "conversion/assembly.hpp"
#include "parts/sheet_holder.hpp"

namespace backfit {

// `film` as `plan` has it: the owner's own sheet for the catalogue's, and the picture that the
// holder's rails leave of it where the plan or the catalogue doesn't say otherwise.
Film held_film(const Film& film, const HolderPlan& plan);

// Whether the depth that the holder is made for is known: from the plan, its ground glass or the
// catalogue's holder for the film, null if it has none.
bool holder_depth_known(const Plan& plan, const Holder* standard);

// Fills in `sheet_holder` and `asked_depth` of an assembly whose plan asks for one, and makes
// `holder` an entry for it: its depth in whole layers, within what two printed thicknesses may be
// off. Its outside and rib are those of `standard`, null if the catalogue has none, or of the plan.
// Requires holder_depth_known().
void design_holder(Assembly& assembly, const Holder* standard);

// Depth that it is made for, before whole layers, within what the standard allows. Requires
// holder_depth_known().
Measured<Length> wanted_depth(const Assembly& assembly, const Holder* standard);

// Where it lies in the camera. Requires its plate.
HolderPose pose_of_holder(const Assembly& assembly);

// `length` in whole layers of the printer: the nearest, the next up, the next down.
Length nearest_layers(Length length, Length layer);
Length layers_up(Length length, Length layer);
Length layers_down(Length length, Length layer);

}  // namespace backfit
