// SPDX-License-Identifier: MIT
// How long a photocell-timed shutter stays open once a resistor stands in the cell's place.
// Derivation: docs/derivations/timer.md.
#pragma once
#include <optional>

#include "quantity/quantity.hpp"

namespace backfit {

// The law that the shutter follows: time = fixed + per_ohm R. A capacitor fills through the
// resistor until it has reached a share of the supply; the blades take the rest. `per_ohm` is a
// time per resistance, which is a capacitance: 1 µF is 1 ms/kΩ.
struct TimerLaw {
  Time fixed;                         // what no resistor can take away
  Capacitance per_ohm;                // > 0
  double threshold = 0.5;             // share of the supply that ends the exposure, 0 to 1
  std::optional<Resistance> leakage;  // across the capacitor
};

// C ln(1/(1-k)). A circuit that empties the capacitor from V0 to V has k = 1 - V/V0. Requires
// 0 < k < 1.
Capacitance time_per_ohm(Capacitance capacitance, double threshold);

// What a resistor counts for beside a leak: a leak makes the capacitor fill towards less than the
// supply, R' ln(1/(1-k')) / ln(1/(1-k)) with R' = R || leak and k' = k (1 + R/leak). R itself
// without a leak. Empty when the threshold is never reached: R >= greatest_resistance().
std::optional<Resistance> counting_resistance(const TimerLaw& law, Resistance resistor);

// leak (1/k - 1): from there on the shutter never closes. Empty without a leak.
std::optional<Resistance> greatest_resistance(const TimerLaw& law);

// fixed + per_ohm counting_resistance. Empty when the shutter never closes.
std::optional<Time> open_time(const TimerLaw& law, Resistance resistor);

// The resistor with that open time, to 1e-12 of itself. Empty when time <= fixed, and within a
// millionth of greatest_resistance(), to which nothing on a bench is trimmed.
std::optional<Resistance> resistor_for(const TimerLaw& law, Time time);

// log2(time / wanted): positive gives more light. Requires both > 0.
Stops stops_over(Time time, Time wanted);

// The time beyond which the leak alone lengthens the exposure by more than `allowed`: there the
// leak times it, not the resistor. Empty without a leak. Requires allowed > 0.
std::optional<Time> slowest_real(const TimerLaw& law, Stops allowed);

// The law when the supply is `ratio` of what it was and the threshold is a fixed voltage, k/ratio
// of the new supply. A threshold that follows the supply has the same law at any supply. Empty
// when the threshold then can't be reached. Requires ratio > 0.
std::optional<TimerLaw> at_supply(const TimerLaw& law, double ratio);

}  // namespace backfit
