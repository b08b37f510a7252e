// SPDX-License-Identifier: MIT
// Preferred values of resistors and capacitors (IEC 60063).
#pragma once
#include <vector>

#include "quantity/quantity.hpp"

namespace backfit {

enum class Series { e6 = 6, e12 = 12, e24 = 24, e48 = 48, e96 = 96 };

// The series' numbers of one decade: 10 to 99 for E6 to E24, 100 to 999 for E48 and E96. They are
// 10^(i/n) rounded to two or three figures, but for eight of E24 that the standard sets apart from
// the rule (27 30 33 36 39 43 47 82) and that E12 and E6 share. iec-60063-lists in
// data/sources.toml (READ).
std::vector<int> preferred_numbers(Series series);

// The series' resistors from `least` to `most`, both included, in rising order. Requires
// 0 < least <= most.
std::vector<Resistance> preferred_resistors(Series series, Resistance least, Resistance most);

}  // namespace backfit
