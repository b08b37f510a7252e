// SPDX-License-Identifier: MIT
// The numbers of the covers of a red window and of the seat.
#pragma once
#include <optional>

#include "conversion/report.hpp"
#include "parts/blank_cover.hpp"
#include "parts/window_cover.hpp"

namespace backfit {

// Empty unless the plan asks for one. Require a plan that check_extras() finds no fault with.
std::optional<WindowCover> window_cover(const Assembly& assembly);
std::optional<BlankCover> blank_cover(const Report& report);

}  // namespace backfit
