// SPDX-License-Identifier: MIT
// The film's way through an insert as lines to draw, from the roll's start to its end.
#pragma once
#include <string>

#include "conversion/path_study.hpp"

namespace backfit {

// Schema "backfit.winding/1"; ends in a newline. Everything in the section of the layout: x runs
// with the film, z = 0 is the new film plane, the lens at negative z. Requires a layout.
std::string winding_json(const PathStudy& study);

}  // namespace backfit
