// SPDX-License-Identifier: MIT
// Whether survey and plan say what gauges, mask, spacer, rings and covers are made from.
#pragma once
#include "files/diagnostic.hpp"
#include "survey/camera.hpp"
#include "survey/plan.hpp"

namespace backfit {

// Adds an error for a lens board without exactly one shape, and for screws without a diameter.
void check_lens_board(const Camera& camera, Diagnostics& diagnostics);

// Adds an error for each table of the plan that asks for what survey, method or plan don't have.
void check_extras(const Camera& camera, const Plan& plan, Diagnostics& diagnostics);

}  // namespace backfit
