// SPDX-License-Identifier: MIT
// The steps from a meter's reading to the time that the shutter must stay open, in their order:
// every factor of light first (filter, extension, attachment), the film's failure of reciprocity
// last, since it depends on how long the exposure has become by then.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "quantity/light.hpp"

namespace backfit {

// One named step: stops to give more (or less, negative), and how sure they are.
struct Correction {
  std::string name;
  Stops stops;
  Stops standard_uncertainty;
};

// A film's law: the time that a calculated time must become.
using TimeLaw = std::function<Time(Time)>;

struct CorrectedTime {
  Time metered;                   // what the meter asked for
  Time calculated;                // with every factor, before the film's law
  Time time;                      // what the shutter must give
  std::vector<Correction> steps;  // the factors in order, then "reciprocity" when it is not 0
  Stops total;                    // sum of the steps
  Stops standard_uncertainty;     // of the exposure wanted, in stops of `time`
};

// `metered`, uncertain by `metered_uncertainty`, times 2^stops of each factor, then through `law`.
// Uncertainties add as squares; the law stretches them by d log t_c / d log t_m, and `law_doubt`
// (stops) joins them when the law changed the time. Requires metered > 0; law(t) >= t.
// Source of the order: order-of-exposure-factors in data/sources.toml (READ).
CorrectedTime corrected_time(Time metered, Stops metered_uncertainty,
                             std::vector<Correction> factors, const TimeLaw& law,
                             Stops law_doubt = {});

}  // namespace backfit
