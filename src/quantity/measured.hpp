// SPDX-License-Identifier: MIT
// What a caliper gave: a value and how far off it may be for sure.
#pragma once
#include <numbers>

#include "quantity/quantity.hpp"

namespace backfit {

// "value ± half_width": the true value lies within half_width of value, every place in that
// range as likely as another. Standard uncertainty half_width / sqrt(3), a rectangular
// distribution (JCGM 100:2008, 4.3.7). Requires half_width >= 0.
template <class Q>
struct Measured {
  Q value{};
  Q half_width{};

  constexpr Q standard_uncertainty() const { return half_width * std::numbers::inv_sqrt3; }
};

template <class Q>
constexpr Measured<Q> exactly(Q value) {
  return {value, Q{}};
}

}  // namespace backfit
