// SPDX-License-Identifier: MIT
// Shutter speeds as they are marked and as they are meant.
#pragma once
#include <string>
#include <vector>

#include "quantity/quantity.hpp"

namespace backfit {

// The time that a marking of the ISO 516 series means: 1/60 s is 1/64 s, 1/125 s is 1/128 s; each
// speed is half the next (iso-516-marked-speeds in data/sources.toml, READ). Any other time means
// itself.
Time meant_by(Time marked);

// The series from 1/500 s to 4 s, fastest first: what a switch of twelve positions holds, less one
// for B.
std::vector<Time> usual_speeds();

// "1/60 s", "2 s"; a time that is no marking of the series in s or ms: "0.3 s", "4.2 ms".
std::string speed_text(Time marked);

}  // namespace backfit
