// SPDX-License-Identifier: MIT
// Where in a recording of light the shutter opened and closed, roughly.
#pragma once
#include <cstddef>
#include <vector>

#include "evidence/recorded_signal.hpp"

namespace backfit {

// One opening and the closing behind it, as samples: to about a millisecond.
struct ShotPlace {
  std::size_t opening = 0, closing = 0;
};

struct FoundShots {
  std::vector<ShotPlace> shots;
  bool light_goes_down = false;  // the opening makes the samples smaller
  int unpaired = 0;              // steps without a partner
  double step = 0, noise = 0;    // of the matched steps: the largest, and the noise of all
};

// Steps by matched filter: the mean over 1.6 ms after a sample less that before it, which a slow
// droop of the level (AC coupling) hardly touches. A step counts from eight times the noise of
// these differences (by their median) and from 0.3 of the largest on. The first step in the
// recording opens; each opening pairs with the next step the other way, and what has no partner is
// counted.
FoundShots shots_in(const RecordedSignal& signal);

}  // namespace backfit
