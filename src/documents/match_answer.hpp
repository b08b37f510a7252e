// SPDX-License-Identifier: MIT
// What a match of all films says, for people and for programs.
#pragma once
#include <string>

#include "conversion/match.hpp"

namespace backfit {

// A table under each verdict, 100 columns wide at most; below each film what it takes.
std::string match_summary(const Match& match);

// Schema "backfit.match/1"; ends in a newline.
std::string match_json(const Match& match);

}  // namespace backfit
