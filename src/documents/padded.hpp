// SPDX-License-Identifier: MIT
// Cells of the tables that a terminal shows.
#pragma once
#include <string>

namespace backfit {

// `cell` right-aligned to `width` code points, or left-aligned for a negative one.
std::string padded(const std::string& cell, int width);

}  // namespace backfit
