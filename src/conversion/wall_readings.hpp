// SPDX-License-Identifier: MIT
// What the owner has read of the light through printed walls, and what there is to read.
#pragma once
#include <array>
#include <optional>

#include "files/diagnostic.hpp"
#include "lighttrap/slab.hpp"
#include "survey/plan.hpp"

namespace backfit {

using WallReadings = std::array<SlabReading, 2>;

// The readings of the plan's printer. Adds an error where there are not two or where no slab
// explains both, and returns empty then, as where there are none.
std::optional<WallReadings> wall_readings(const Printer& printer, Diagnostics& diagnostics);

// Two steps whose readings would tell what walls pass, in whole layers; behind thicker ones a meter
// soon reads nothing.
std::array<Length, 2> steps_to_read(const Printer& printer);

}  // namespace backfit
