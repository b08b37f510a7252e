// SPDX-License-Identifier: MIT
// The speeds that can be set on this shutter, and what each of them gives.
#pragma once
#include <vector>

#include "conversion/report.hpp"
#include "quantity/light.hpp"

namespace backfit {

struct ShutterSpeed {
  Time marked;
  Time gives;                  // effective, with the lens wide open
  Stops standard_uncertainty;  // of that
};

enum class SpeedsBy { nothing, marks, recordings, timer };

struct ShutterSpeeds {
  SpeedsBy by = SpeedsBy::nothing;
  std::vector<ShutterSpeed> list;  // fastest first; empty: no speed can be set
};

// Of a shutter timed by hand, the positions of its switch. Else the marked speeds: as the owner
// recorded them, or the true times behind the marks within half a stop (common practice).
ShutterSpeeds speeds_of(const Report& report);

// "recordings", "marks" and so on.
std::string_view name_of(SpeedsBy by);

}  // namespace backfit
