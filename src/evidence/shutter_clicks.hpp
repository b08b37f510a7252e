// SPDX-License-Identifier: MIT
// How long a shutter was open, by the sound of it alone: from the click of the opening to that of
// the closing.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "evidence/recorded_signal.hpp"
#include "quantity/estimate.hpp"

namespace backfit {

struct ClickedShot {
  Time at;              // the opening click, from the recording's start
  Estimate<Time> open;  // click to click
  // The sound's loudness from the opening click on, 0 to 1 of the loudest, a point a stretch.
  std::vector<double> loudness;
};

struct ClickTrace {
  std::vector<ClickedShot> shots;
  Time loudness_step;
  int unpaired = 0;  // clicks without a partner
};

// A click begins where the loudness of 0.25 ms is eight times that of the 2 ms before it, 30 times
// the recording's median and a fiftieth of its loudest. Clicks pair in their order; with `expected`
// times a pair must lie within two stops of one of them, so that other noises are passed over.
// Two clicks within 2 ms are heard as one. Standard uncertainty: each click may stand apart from
// the light's edge by up to 1 ms, evenly (common practice; no recording of sound tells how much),
// and begins somewhere in its 0.25 ms; clock as for light.
ClickTrace shots_by_sound(const RecordedSignal& signal, std::span<const Time> expected);

}  // namespace backfit
