// SPDX-License-Identifier: MIT
#include "exposure/contrast.hpp"

#include <cassert>
#include <cmath>

namespace backfit {

double log_range(Stops scene) { return std::log10(factor_of(scene)); }

std::optional<LuminousExposure> pre_flash(LuminousExposure darkest, LuminousExposure lightest,
                                          double range) {
  assert(darkest > LuminousExposure{} && lightest > darkest && range > 0);
  const double ratio = std::pow(10.0, range);
  const LuminousExposure missing = lightest - ratio * darkest;
  if (missing <= LuminousExposure{}) return {};
  return missing / (ratio - 1);
}

LuminousExposure largest_pre_flash(LuminousExposure first_tone, Stops margin) {
  return first_tone * factor_of(-margin);
}

double range_with_flash(LuminousExposure darkest, LuminousExposure lightest,
                        LuminousExposure flash) {
  return std::log10((lightest + flash) / (darkest + flash));
}

}  // namespace backfit
