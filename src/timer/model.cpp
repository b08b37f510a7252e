// SPDX-License-Identifier: MIT
#include "timer/model.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace backfit {
namespace {

// ln(1/(1-k))
double time_constants(double threshold) { return -std::log1p(-threshold); }

// The resistor between `low` and `high` at which the rising function `excess` crosses zero.
template <class Excess>
Resistance crossing(Resistance low, Resistance high, const Excess& excess) {
  for (int i = 0; i < 200 && high - low > 1e-13 * high; ++i) {
    const Resistance middle = (low + high) / 2;
    (excess(middle) ? high : low) = middle;
  }
  return (low + high) / 2;
}

}  // namespace

Capacitance time_per_ohm(Capacitance capacitance, double threshold) {
  assert(threshold > 0 && threshold < 1);
  return capacitance * time_constants(threshold);
}

std::optional<Resistance> counting_resistance(const TimerLaw& law, Resistance resistor) {
  if (!law.leakage) return resistor;
  const Resistance leak = *law.leakage;
  const double threshold = law.threshold * (1 + resistor / leak);
  if (!(threshold < 1)) return {};
  const Resistance both = resistor / (1 + resistor / leak);
  return both * (time_constants(threshold) / time_constants(law.threshold));
}

std::optional<Resistance> greatest_resistance(const TimerLaw& law) {
  if (!law.leakage) return {};
  return *law.leakage * (1 / law.threshold - 1);
}

std::optional<Time> open_time(const TimerLaw& law, Resistance resistor) {
  const auto counts = counting_resistance(law, resistor);
  if (!counts) return {};
  return law.fixed + law.per_ohm * *counts;
}

std::optional<Resistance> resistor_for(const TimerLaw& law, Time time) {
  if (!(time > law.fixed)) return {};
  const Resistance alone = (time - law.fixed) / law.per_ohm;
  if (!law.leakage) return alone;
  // A leak only lengthens the time: the resistor is smaller than it would be alone.
  const Resistance most = std::min(alone, (1 - 1e-6) * *greatest_resistance(law));
  const auto exceeds = [&](Resistance r) {
    const auto found = open_time(law, r);
    return !found || *found > time;
  };
  if (most < alone && !exceeds(most)) return {};
  return crossing(Resistance{}, most, exceeds);
}

Stops stops_over(Time time, Time wanted) {
  assert(time > Time{} && wanted > Time{});
  return {std::log2(time / wanted)};
}

std::optional<Time> slowest_real(const TimerLaw& law, Stops allowed) {
  assert(allowed.value > 0);
  if (!law.leakage) return {};
  const Resistance r = crossing(Resistance{}, *greatest_resistance(law), [&](Resistance at) {
    const auto leaking = open_time(law, at);
    return !leaking || stops_over(*leaking, law.fixed + law.per_ohm * at) > allowed;
  });
  return law.fixed + law.per_ohm * r;
}

std::optional<TimerLaw> at_supply(const TimerLaw& law, double ratio) {
  assert(ratio > 0);
  const double threshold = law.threshold / ratio;
  if (!(threshold < 1)) return {};
  TimerLaw sagged = law;
  sagged.threshold = threshold;
  sagged.per_ohm = law.per_ohm * (time_constants(threshold) / time_constants(law.threshold));
  return sagged;
}

}  // namespace backfit
