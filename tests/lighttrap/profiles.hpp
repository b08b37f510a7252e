// SPDX-License-Identifier: MIT
// Gaps for the tests, written as on the command line or drawn at random.
#pragma once
#include <string_view>
#include <vector>

#include "lighttrap/profile.hpp"
#include "quantity/random.hpp"

namespace backfit::profiles {

// Arms in mm, turns as in "LRRL".
inline GapProfile profile(const std::vector<double>& arms, std::string_view turns,
                          Length gap = 1 * mm) {
  GapProfile p{gap, {}, {}};
  for (const double arm : arms) p.arms.push_back(arm * mm);
  for (const char turn : turns) p.turns.push_back(turn == 'L' ? Turn::left : Turn::right);
  return p;
}

// Some gap with up to four bends, its arms up to 6 gaps long.
inline GapProfile some_profile(Random& random) {
  for (;;) {
    GapProfile p{(0.1 + random.unit()) * mm, {}, {}};
    const auto bends = static_cast<std::size_t>(5 * random.unit());
    for (std::size_t i = 0; i <= bends; ++i) p.arms.push_back((0.1 + 6 * random.unit()) * p.gap);
    for (std::size_t i = 0; i < bends; ++i) {
      p.turns.push_back(random.unit() < 0.5 ? Turn::left : Turn::right);
    }
    if (!fault_of(p)) return p;
  }
}

inline GapProfile turned_round(const GapProfile& p) {
  GapProfile r{p.gap, {p.arms.rbegin(), p.arms.rend()}, {p.turns.rbegin(), p.turns.rend()}};
  // Walked the other way, a turn to the left is one to the right.
  for (Turn& turn : r.turns) turn = turn == Turn::left ? Turn::right : Turn::left;
  return r;
}

}  // namespace backfit::profiles
