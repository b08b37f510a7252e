// SPDX-License-Identifier: MIT
#include "exposure/lens_change.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "quantity/estimate.hpp"

namespace backfit {

double close_up_factor(double magnification, double pupil_magnification) {
  assert(magnification >= 0 && pupil_magnification > 0);
  return std::pow(1 + magnification / pupil_magnification, 2);
}

double extension_factor(Length extension, Length focal, double pupil_magnification) {
  assert(focal > Length{} && pupil_magnification > 0);
  const double stretch = 1 + extension / focal / pupil_magnification;
  assert(stretch > 0);
  return stretch * stretch;
}

StopsEstimate extension_stops(Measured<Length> extension, Measured<Length> focal,
                              Measured<double> pupil_magnification) {
  Inputs inputs;
  const auto e = inputs.add("extension", extension);
  const auto f = inputs.add("focal length", focal);
  const auto p = inputs.add("pupil magnification", pupil_magnification);
  const BaseEstimate answer = propagate(inputs, [&](const Draw& at) {
    return stops_of(extension_factor(at(e), at(f), at(p))).value;
  });
  return {{answer.value}, {answer.standard_uncertainty}};
}

FNumber with_front_attachment(FNumber aperture, double factor, Length focal,
                              std::optional<Length> clear_front) {
  assert(aperture.value > 0 && factor > 0 && focal > Length{});
  if (!clear_front) return aperture;
  return {std::max(aperture.value, factor * focal / *clear_front)};
}

FNumber with_rear_extender(FNumber aperture, double factor) {
  assert(factor > 0);
  return {factor * aperture.value};
}

std::optional<StopChoice> widest_that_keeps_both(std::span<const StopChoice> stops, Stops allowed,
                                                 Time longest) {
  for (const StopChoice& s : stops) {
    if (s.corner_loss <= allowed && s.time <= longest) return s;
  }
  return {};
}

Stops corner_compromise(Stops corner_loss) { return {corner_loss.value / 2}; }

}  // namespace backfit
