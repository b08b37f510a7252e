// SPDX-License-Identifier: MIT
// All that a conversion takes: what is printed, by mass and time, and what is bought.
#pragma once
#include <string>
#include <vector>

#include "conversion/report.hpp"
#include "documents/price_list.hpp"
#include "parts/piece.hpp"

namespace backfit::paper {

// The back plate, the sets, then what the plan lists.
PriceList materials_of(const Report& report, const std::vector<PieceSet>& sets);

}  // namespace backfit::paper
