// SPDX-License-Identifier: MIT
#include "exposure/metering.hpp"

#include <cassert>
#include <cmath>
#include <numbers>

namespace backfit {

Ev ev_of(FNumber aperture, Time time) {
  assert(aperture.value > 0 && time > Time{});
  return {std::log2(aperture.value * aperture.value / (time / second))};
}

Ev ev_of(Luminance light, IsoSpeed speed, ReflectedConstant k) {
  assert(light > Luminance{} && speed.value > 0);
  return {std::log2(light * second * speed.value / k.value)};
}

Ev ev_of(Illuminance light, IsoSpeed speed, IncidentConstant c) {
  assert(light > Illuminance{} && speed.value > 0);
  return {std::log2(light * second * speed.value / c.value)};
}

Luminance luminance_of(Ev ev, IsoSpeed speed, ReflectedConstant k) {
  assert(speed.value > 0);
  return std::exp2(ev.value) / speed.value * k.value / second;
}

Illuminance illuminance_of(Ev ev, IsoSpeed speed, IncidentConstant c) {
  assert(speed.value > 0);
  return std::exp2(ev.value) / speed.value * c.value / second;
}

Time time_at(Ev ev, FNumber aperture) {
  return aperture.value * aperture.value / std::exp2(ev.value) * second;
}

FNumber aperture_at(Ev ev, Time time) { return {std::sqrt(std::exp2(ev.value) * (time / second))}; }

double camera_share(double transmittance, double vignetting, Angle off_axis) {
  return std::numbers::pi / 4 * transmittance * vignetting * std::pow(cos(off_axis), 4);
}

Illuminance film_illuminance(Luminance subject, FNumber aperture, double share) {
  assert(aperture.value > 0);
  return share / (aperture.value * aperture.value) * subject * rad * rad;
}

LuminousExposure metered_exposure(IsoSpeed speed, ReflectedConstant k, double share) {
  assert(speed.value > 0);
  return share / speed.value * k.value * rad * rad;
}

}  // namespace backfit
