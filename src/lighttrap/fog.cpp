// SPDX-License-Identifier: MIT
#include "lighttrap/fog.hpp"

#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>

namespace backfit {
namespace {

constexpr Density speed_point{0.10};

}  // namespace

LuminousExposure fog_exposure(IsoSpeed speed, Density rise) {
  assert(speed.value > 0 && rise > Density{} && rise <= speed_point);
  return 0.8 / speed.value * (rise.value / speed_point.value) * lux_second;
}

Stops fog_exposure_u(Density rise) {
  assert(rise > Density{} && rise <= speed_point);
  const double step = 1.0 / 6;
  const double shape = 0.5 * std::log(speed_point.value / rise.value) / std::log(5);
  return {std::hypot(step, shape) * std::numbers::inv_sqrt3};
}

FogTime time_to_fog(IsoSpeed speed, Density rise, double through, double through_u) {
  assert(through >= 0 && through_u >= 0);
  if (through == 0) return {rise, std::numeric_limits<double>::infinity() * second, 0};
  const double sun_u = full_sun.standard_uncertainty() / full_sun.value;
  const double film_u = std::numbers::ln2 * fog_exposure_u(rise).value;
  return {rise, fog_exposure(speed, rise) / (through * full_sun.value),
          std::hypot(sun_u, film_u, through_u / through)};
}

}  // namespace backfit
