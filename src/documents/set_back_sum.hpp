// SPDX-License-Identifier: MIT
// The sum that leads to the set-back, part by part.
#pragma once
#include "conversion/report.hpp"
#include "documents/table.hpp"

namespace backfit::paper {

// 101 mm wide: each part with its sign and what it lies within, and what they add up to.
Table set_back_sum(const Report& report);

}  // namespace backfit::paper
