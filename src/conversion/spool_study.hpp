// SPDX-License-Identifier: MIT
// Whether the new film's spools go where the old ones lay.
#pragma once
#include <optional>

#include "conversion/assembly.hpp"

namespace backfit {

struct SpoolStudy {
  Estimate<Length> spare_length;    // room across the film less the spool's length
  Estimate<Length> spare_diameter;  // room for a roll less the flange, as large as a full roll
  double odds_fit = 0;              // that neither is negative
};

// Empty but for roll film on a known spool in surveyed chambers.
std::optional<SpoolStudy> study_spools(const Assembly& assembly);

}  // namespace backfit
