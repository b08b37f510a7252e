// SPDX-License-Identifier: MIT
// Metric screws as they are sold.
#pragma once
#include <optional>
#include <string>

#include "quantity/quantity.hpp"

namespace backfit {

// The longest screw of `most` or less: whole millimetres from 4 to 6, then 8, 10, 12 and 16. Empty
// when `most` is less than 4 mm. Common lengths of the trade, from memory.
std::optional<Length> screw_on_sale(Length most);

// "M2 × 6", "M2.5 × 10".
std::string screw_name(Length thread, Length length);

}  // namespace backfit
