// SPDX-License-Identifier: MIT
// Whether a material's range takes a scene's, and what a pre-flash does about it.
#pragma once
#include <optional>

#include "quantity/light.hpp"

namespace backfit {

// The range of a scene in log10 of exposure: stops times log10(2).
double log_range(Stops scene);

// An even exposure, before or after the picture's, that squeezes the picture's from shadow to
// light, `darkest` to `lightest`, into `range` (log10): (lightest - 10^range darkest) /
// (10^range - 1). None when the picture fits already. Requires lightest > darkest > 0, range > 0.
std::optional<LuminousExposure> pre_flash(LuminousExposure darkest, LuminousExposure lightest,
                                          double range);

// The largest pre-flash that leaves the paper white: `margin` stops below the first visible tone
// of a test strip or of a wedge (PaperSpeedPoint::first_tone). One third is common practice.
LuminousExposure largest_pre_flash(LuminousExposure first_tone, Stops margin = {1.0 / 3});

// log10 of lightest over darkest with `flash` given to both.
double range_with_flash(LuminousExposure darkest, LuminousExposure lightest,
                        LuminousExposure flash);

}  // namespace backfit
