// SPDX-License-Identifier: MIT
// How long fog takes, in words.
#pragma once
#include <string>

#include "quantity/quantity.hpp"

namespace backfit {

// Two or three figures in the unit that fits, from seconds to years; "never" beyond 30 million
// years.
std::string fog_time_text(Time time);

}  // namespace backfit
