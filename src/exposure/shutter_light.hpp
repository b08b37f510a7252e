// SPDX-License-Identifier: MIT
// How much light a leaf shutter lets through against one that opens and closes at once.
#pragma once
#include "quantity/light.hpp"

namespace backfit {

// A shutter in the lens: blades that open over `opening`, stay open, and close over `closing`;
// `total` runs from the first light to the last.
struct LeafShutter {
  Time total;
  Time opening;
  Time closing;
};

// How much of the stop's area is clear, 0 to 1, at time `t` after the first light. The blades'
// hole is taken as round with a diameter that grows evenly up to the lens's widest stop: its area
// grows as t^2 until it has bared the stop, whose diameter is `stop` of the widest (0 to 1].
// Requires opening + closing <= total, 0 < stop <= 1.
double clear_share(const LeafShutter& shutter, double stop, Time t);

// The time for which a shutter of no opening time would pass the same light: total less two thirds
// of `stop` times (opening + closing). Derived from clear_share(); a small stop is bared early and
// covered late, so the same speed gives it more. Requires as above.
Time effective_time(const LeafShutter& shutter, double stop);

// Effective over total time, 0 to 1.
double shutter_efficiency(const LeafShutter& shutter, double stop);

// The shutter whose effective time at the widest stop is `effective`: what a shutter tester reads
// with the lens wide open. Requires effective > 0.
LeafShutter shutter_with(Time effective, Time opening, Time closing);

}  // namespace backfit
