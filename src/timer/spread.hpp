// SPDX-License-Identifier: MIT
// How far off each speed of a switch may be: by choice of values, by the parts' tolerance, by what
// is not known of the shutter, by leak, cells and cold; and a trimmer where that is too much.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "timer/fit.hpp"
#include "timer/resistors.hpp"

namespace backfit {

// How far a speed may be off: this much less light, this much more. Both >= 0.
struct Band {
  Stops under, over;
  bool holds(Stops error) const { return -under.value <= error.value && error.value <= over.value; }
};

// One position of a switch. Errors in stops, positive for more light than wanted.
struct SpeedSpread {
  Resistance resistance;
  Time time;
  Stops error;                    // with every part at its marked value
  Stops standard_uncertainty;     // of that: the shutter's law and the parts' tolerance
  Stops worst_under, worst_over;  // parts at the ends of their tolerance, law of its 95 % interval
  double yield = 0;               // probability of lying in the band
};

struct SwitchSpread {
  std::vector<SpeedSpread> positions;  // as in the switch
  double all = 0;                      // probability that every position lies in the band
};

// Monte Carlo over `draws` switches: each part evenly within its tolerance (a fraction), law, leak
// and threshold as the fit knows them. Requires positions with parts, at which the shutter closes;
// 0 <= tolerance < 1.
SwitchSpread spread_of(const ResistorSwitch& design, const TimerFit& fit, double tolerance,
                       Band band, std::size_t draws, std::uint64_t seed = 1);

// A fixed resistor and a trimmer in series with it that together reach every resistance from
// `least` to `most`, though the trimmer has only four fifths of what is marked and the fixed one is
// `tolerance` too large. Trimmers in steps of 1, 2, 5 (both common practice). Without a fixed part
// when the stock has none small enough. Requires 0 <= least < most.
struct Trimmer {
  std::optional<Resistance> fixed;
  Resistance trimmer;
};
Trimmer trimmer_over(Resistance least, Resistance most, std::span<const StockItem> stock,
                     double tolerance);

// The resistances that may be needed for a time, by the law's 95 % interval. Empty when the law
// may be unable to give it.
struct ResistanceRange {
  Resistance least, most;
};
std::optional<ResistanceRange> resistance_range(const TimerFit& fit, Time wanted);

}  // namespace backfit
