// SPDX-License-Identifier: MIT
// Lengths as drawings say them.
#pragma once
#include <string>

#include "quantity/quantity.hpp"

namespace backfit::paper {

// `value` in mm with `decimals` decimals at most, without a unit, as dimensions on a drawing in
// millimetres are written: "62", "62.5", "−0.2". Half cases round as printf does. Requires
// 0 <= decimals <= 6.
std::string in_mm(Length value, int decimals = 1);

}  // namespace backfit::paper
