// SPDX-License-Identifier: MIT
// The gate mask's numbers, from the picture wanted and the lens's pupil.
#pragma once
#include <optional>

#include "conversion/report.hpp"
#include "parts/gate_mask.hpp"

namespace backfit {

// The mask whose lit_frame() at half the pupil is the picture that the plan asks for: its opening
// is that picture times 1 - d / D, with d from the mask's rear edge and D from the exit pupil to
// the film. Empty unless the plan asks for one. Requires a plan that check_extras() finds no fault
// with.
std::optional<GateMask> gate_mask(const Report& report);

}  // namespace backfit
