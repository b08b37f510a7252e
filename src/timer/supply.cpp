// SPDX-License-Identifier: MIT
#include "timer/supply.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace backfit {

Resistance internal_resistance(Voltage before, Voltage in_pulse, Current current_before,
                               Current current_in_pulse) {
  assert(current_in_pulse > current_before);
  return (before - in_pulse) / (current_in_pulse - current_before);
}

Resistance alkaline_cell_resistance(double celsius) {
  constexpr double cold = -40, warm = 40;
  constexpr Resistance at_cold = 0.9 * ohm, at_warm = 0.1 * ohm;
  const double share = (std::clamp(celsius, cold, warm) - cold) / (warm - cold);
  return at_cold * std::pow(at_warm / at_cold, share);
}

Voltage sag(int cells, Resistance of_each, Current current) {
  assert(cells >= 0);
  return cells * of_each * current;
}

}  // namespace backfit
