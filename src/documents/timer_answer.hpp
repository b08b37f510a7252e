// SPDX-License-Identifier: MIT
// What a study of the hand-timed shutter says, for people and for programs.
#pragma once
#include <string>

#include "conversion/report.hpp"

namespace backfit {

// The law, its trials, and a line for each speed. Requires report.timer.
std::string timer_summary(const Report& report);

// Schema "backfit.timer/1"; ends in a newline. Requires report.timer.
std::string timer_json(const Report& report);

}  // namespace backfit
