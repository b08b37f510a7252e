// SPDX-License-Identifier: MIT
// What a lens study says, for people and for programs.
#pragma once
#include <string>

#include "conversion/lens_study.hpp"

namespace backfit {

// Lines for the terminal.
std::string lens_summary(const LensStudy& study);

// Schema "backfit.lens/1"; ends in a newline. Lengths to 1e-7 mm.
std::string lens_json(const LensStudy& study);

}  // namespace backfit
