// SPDX-License-Identifier: MIT
#include "timer/photocell.hpp"

#include <cmath>

namespace backfit {

Resistance PhotocellLaw::at(Illuminance light) const {
  return at_ten_lux * std::pow(light / (10 * lux), -slope);
}

std::optional<PhotocellLaw> photocell_law(std::span<const CellReading> readings) {
  const auto x_of = [](const CellReading& r) { return std::log(r.light.value / (10 * lux)); };
  const auto y_of = [](const CellReading& r) { return std::log(r.resistance.value / ohm); };
  double x_mean = 0, y_mean = 0;
  for (const CellReading& r : readings) {
    x_mean += x_of(r);
    y_mean += y_of(r);
  }
  const auto n = static_cast<double>(readings.size());
  if (readings.size() < 2) return {};
  x_mean /= n;
  y_mean /= n;
  double spread = 0, along = 0;
  for (const CellReading& r : readings) {
    spread += (x_of(r) - x_mean) * (x_of(r) - x_mean);
    along += (x_of(r) - x_mean) * (y_of(r) - y_mean);
  }
  if (!(spread > 1e-12) || !(along < 0)) return {};
  PhotocellLaw law;
  law.slope = -along / spread;
  law.at_ten_lux = std::exp(y_mean + law.slope * x_mean) * ohm;
  double variance = 0;
  for (const CellReading& r : readings) {
    const double weight = (x_of(r) - x_mean) / spread;
    const double u = std::hypot(r.resistance.standard_uncertainty() / r.resistance.value,
                                law.slope * (r.light.standard_uncertainty() / r.light.value));
    variance += weight * weight * u * u;
  }
  law.slope_u = std::sqrt(variance);
  return law;
}

Stops automatic_error(const PhotocellLaw& law, Stops stops) {
  return {(law.slope - 1) * stops.value};
}

}  // namespace backfit
