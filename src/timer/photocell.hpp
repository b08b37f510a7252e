// SPDX-License-Identifier: MIT
// A photocell's resistance by the light on it, and what that makes of a shutter timed by it.
#pragma once
#include <optional>
#include <span>

#include "quantity/light.hpp"
#include "quantity/measured.hpp"

namespace backfit {

// One reading with an ohmmeter and a lux meter.
struct CellReading {
  Measured<Illuminance> light;
  Measured<Resistance> resistance;
};

// log R falls by `slope` for each of log E: R = at_ten_lux (E / 10 lx)^-slope.
struct PhotocellLaw {
  Resistance at_ten_lux;
  double slope = 1;
  double slope_u = 0;  // standard uncertainty, from those of the readings
  Resistance at(Illuminance light) const;
};

// The straight line through the readings in logarithms, each weighed alike. Empty with fewer than
// two lights, and where the resistance doesn't fall with the light. Requires all above zero.
std::optional<PhotocellLaw> photocell_law(std::span<const CellReading> readings);

// What the automatic gives too much when the light falls by `stops`: a time in proportion to the
// cell's resistance grows by only slope of a stop for each, (slope - 1) stops.
Stops automatic_error(const PhotocellLaw& law, Stops stops);

}  // namespace backfit
