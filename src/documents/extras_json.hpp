// SPDX-License-Identifier: MIT
// The numbers of gauges, mask, spacer, rings and covers, for programs.
#pragma once
#include "conversion/report.hpp"
#include "documents/json_numbers.hpp"

namespace backfit::json {

// A member for each that the plan asks for; empty when it asks for none.
Json extras_of(const Report& report);

}  // namespace backfit::json
