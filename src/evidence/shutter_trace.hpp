// SPDX-License-Identifier: MIT
// How long a shutter was open, from a recording of the light through it, and how sure that is.
// Derivation and terms: docs/derivations/recordings.md.
#pragma once
#include <optional>
#include <vector>

#include "evidence/recorded_signal.hpp"
#include "evidence/shot_search.hpp"
#include "quantity/estimate.hpp"

namespace backfit {

// Of a light sensor: how long it takes from 10 to 90 % of a step. Its time constant is this over
// ln 9. Requires value >= 0.
using SensorRise = Measured<Time>;

// A place of the curve of one shot: light as recorded with the droop taken out, and as fitted, in
// shares of full light.
struct LightPoint {
  Time at;  // from the first light
  double seen = 0, fitted = 0;
};

// One exposure. Terms of ISO 516 (FROM MEMORY): total time from first to last light; half-peak time
// between the crossings of half of full light; effective time, the area under the curve over full
// light; efficiency, effective over total. The budgets say where their doubts come from.
struct TimedShot {
  Time at;  // first light, from the recording's start
  Estimate<Time> total, half;
  // Empty for a curve without a flat top: whether the blades opened fully it doesn't tell.
  std::optional<Estimate<Time>> effective;
  std::optional<Estimate<double>> efficiency;
  Estimate<Time> opening, closing;  // from first light to fully open, and back
  Estimate<Frequency> ac_corner;    // of the coupling; about 0 without one
  double noise = 0;                 // standard deviation of a sample over full light
  // How much the standard uncertainties were widened for slow noise (hum, a flickering lamp) and
  // for edges that follow no power of time. 1: not at all.
  double widened_for_noise = 1, widened_for_shape = 1;
  bool shape_held = false;  // an edge too short or too noisy to tell its shape
  std::vector<LightPoint> curve;
};

struct LightTrace {
  std::vector<TimedShot> shots;
  bool light_goes_down = false;
  int unpaired = 0;  // steps of light without a partner
  int unusable =
      0;  // shots with too little dark before or behind them, or that don't look like one
};

// Every shot that shots_in() found in a recording of light under a steady lamp; the coupling's
// droop is fitted with the edges. Assumed besides: the recorder's clock within 100 ppm (common
// practice for quartz); an edge shorter than two samples known to a sample, evenly.
LightTrace shots_of_light(const RecordedSignal& signal, const FoundShots& found,
                          const std::optional<SensorRise>& sensor);

}  // namespace backfit
