// SPDX-License-Identifier: MIT
// What is left of a battery's voltage under load, warm and cold.
#pragma once
#include "quantity/quantity.hpp"

namespace backfit {

// Internal resistance by a pulse: how far the voltage falls over how far the current rises, as
// battery makers measure it. Requires the pulse's current > the current before it.
Resistance internal_resistance(Voltage before, Voltage in_pulse, Current current_before,
                               Current current_in_pulse);

// Internal resistance of an alkaline AA cell at a temperature in degrees Celsius: 0.1 ohm at +40,
// 0.9 ohm at -40, battery-internal-resistance in data/sources.toml (READ); in between evenly on a
// logarithmic scale, our own reading of that curve. Outside, the value at the nearer end.
Resistance alkaline_cell_resistance(double celsius);

// Fall of the voltage of `cells` in series: cells x resistance x current. Requires cells >= 0.
Voltage sag(int cells, Resistance of_each, Current current);

}  // namespace backfit
