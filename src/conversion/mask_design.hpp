// SPDX-License-Identifier: MIT
// The gate mask's numbers, from the picture wanted and the lens's pupil.
#pragma once
#include <optional>

#include "conversion/report.hpp"
#include "parts/gate_mask.hpp"

namespace backfit {

// The mask with Assembly::mask_opening(), its rear edge where the old gate's is. Empty unless the
// plan asks for one. Requires a plan that check_extras() finds no fault with.
std::optional<GateMask> gate_mask(const Report& report);

}  // namespace backfit
