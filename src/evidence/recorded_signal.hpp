// SPDX-License-Identifier: MIT
// What a sound input or an oscilloscope wrote down, and how fast it could follow.
#pragma once
#include <algorithm>
#include <optional>
#include <span>

#include "quantity/quantity.hpp"

namespace backfit {

using Frequency = Quantity<Dimension{.time = -1}>;
inline constexpr Frequency hertz = 1 / second, kilohertz = 1000 * hertz;

// Evenly spaced samples in any unit. `resolution` is the smallest step that they can make, 0 when
// it isn't known. Requires interval > 0 and finite samples.
struct RecordedSignal {
  std::span<const float> samples;
  Time interval;
  double resolution = 0;
};

// The highest frequency that comes through whole: of a converter 1 / (2.2 intervals), 20 kHz at
// 44.1 kHz (common practice), and 0.35 / rise of a sensor that takes `rise` from 10 to 90 % of a
// step (one time constant: ln 9 / (2 pi) = 0.3497). Requires interval > 0.
inline Frequency bandwidth(Time interval, std::optional<Time> sensor_rise) {
  const Frequency converter = 1 / (2.2 * interval);
  return sensor_rise ? std::min(converter, 0.35 / *sensor_rise) : converter;
}

// Recorders must be within 3 dB up to 100 / t0 for a total time t0 (iso-516-annex-a in
// data/sources.toml, READ): the shortest total time for which `band` is enough.
inline Time shortest_by_iso_516(Frequency band) { return 100 / band; }

}  // namespace backfit
