// SPDX-License-Identifier: MIT
// What a study of a gap or a hole says, for people and for programs.
#pragma once
#include <string>

#include "conversion/trap_study.hpp"

namespace backfit {

// Lines for the terminal.
std::string trap_summary(const TrapStudy& study);

// Schema "backfit.trap/1"; ends in a newline. Six figures of each number.
std::string trap_json(const TrapStudy& study);

}  // namespace backfit
