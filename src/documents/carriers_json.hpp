// SPDX-License-Identifier: MIT
// The numbers of what holds the film, for programs.
#pragma once
#include "conversion/report.hpp"
#include "documents/json_numbers.hpp"

namespace backfit::json {

// Adds a member for each of adapter, insert, printed holder, ground-glass frame and holder in the
// pack's place that the conversion has.
void add_carriers(Json& answer, const Report& report);

}  // namespace backfit::json
