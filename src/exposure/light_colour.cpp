// SPDX-License-Identifier: MIT
#include "exposure/light_colour.hpp"

#include <cassert>
#include <cmath>

namespace backfit {
namespace {

// Planck's radiance at a wavelength in micrometres, but for a constant factor.
double radiance(double wavelength_um, ColourTemperature light) {
  constexpr double second_radiation_constant = 14387.769;  // um K, SI
  return std::pow(wavelength_um, -5) /
         std::expm1(second_radiation_constant / (wavelength_um * light.kelvin));
}

template <class Weight>
double seen(double from_um, double to_um, ColourTemperature light, const Weight& weight) {
  constexpr int steps = 400;  // midpoints; smooth, so within 1e-5 of the integral
  const double width = (to_um - from_um) / steps;
  double sum = 0;
  for (int i = 0; i < steps; ++i) {
    const double w = from_um + (i + 0.5) * width;
    sum += radiance(w, light) * weight(w) * width;
  }
  return sum;
}

double eye(double wavelength_um) {
  return 1.019 * std::exp(-285.4 * (wavelength_um - 0.559) * (wavelength_um - 0.559));
}

double per_lux(SensitiveBand band, ColourTemperature light) {
  return seen(band.from / um, band.to / um, light, [](double) { return 1.0; }) /
         seen(0.38, 0.78, light, eye);
}

}  // namespace

Stops gain_by_colour(SensitiveBand band, ColourTemperature light, ColourTemperature reference) {
  assert(band.to > band.from && light.kelvin > 0 && reference.kelvin > 0);
  return stops_of(per_lux(band, light) / per_lux(band, reference));
}

double metered_share(SensitiveBand band, ColourTemperature light) {
  return seen(band.from / um, band.to / um, light, eye) / seen(0.38, 0.78, light, eye);
}

IsoSpeed index_in(IsoSpeed index, SensitiveBand band, ColourTemperature light,
                  ColourTemperature reference) {
  return {index.value * factor_of(gain_by_colour(band, light, reference))};
}

Mired mired_shift(ColourTemperature from, ColourTemperature to) {
  assert(from.kelvin > 0 && to.kelvin > 0);
  return {1e6 / to.kelvin - 1e6 / from.kelvin};
}

}  // namespace backfit
