// SPDX-License-Identifier: MIT
// The lens spacer's numbers, from how far the lens must move and the shims at hand.
#pragma once
#include <optional>

#include "conversion/report.hpp"
#include "parts/lens_spacer.hpp"

namespace backfit {

// How far the lens shall move away from the film: as the plan states; else by the test of the
// infinity stop; else as far as the film moves forward. Negative: it must move back.
Length lens_forward(const Report& report);
Length lens_forward(const Assembly& assembly);  // the same without a report's other studies

// The printed spacer of whole layers, none under three, that with at most four shims of the sheet
// in the plan
// comes nearest to lens_forward(). Empty unless the plan asks for one and the lens moves forward.
// Requires a plan that check_extras() finds no fault with.
std::optional<LensSpacer> lens_spacer(const Report& report);
std::optional<LensSpacer> lens_spacer(const Assembly& assembly);

}  // namespace backfit
