// SPDX-License-Identifier: MIT
// Columns on a terminal.
#pragma once
#include <string>

namespace backfit {

// `cell` right-aligned to `width` letters, or left-aligned for a negative one. A longer cell stays
// whole.
std::string padded(const std::string& cell, int width);

}  // namespace backfit
