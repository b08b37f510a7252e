// SPDX-License-Identifier: MIT
#include "exposure/correction.hpp"

#include <cassert>
#include <cmath>
#include <utility>

namespace backfit {

CorrectedTime corrected_time(Time metered, Stops metered_uncertainty,
                             std::vector<Correction> factors, const TimeLaw& law, Stops law_doubt) {
  assert(metered > Time{});
  CorrectedTime answer{metered, {}, {}, std::move(factors), {}, {}};
  double variance = metered_uncertainty.value * metered_uncertainty.value;
  for (const Correction& step : answer.steps) {
    answer.total = answer.total + step.stops;
    variance += step.standard_uncertainty.value * step.standard_uncertainty.value;
  }
  answer.calculated = metered * factor_of(answer.total);
  answer.time = law(answer.calculated);
  assert(answer.time >= answer.calculated * (1 - 1e-12));
  const Stops failure = stops_of(answer.time / answer.calculated);
  if (failure.value > 1e-9) {
    constexpr double step = 1.0 / 64;
    const double stretch = (std::log2(law(answer.calculated * std::exp2(step)) /
                                      law(answer.calculated * std::exp2(-step)))) /
                           (2 * step);
    variance = variance * stretch * stretch + law_doubt.value * law_doubt.value;
    answer.steps.push_back({"reciprocity", failure, law_doubt});
    answer.total = answer.total + failure;
  }
  answer.standard_uncertainty = {std::sqrt(variance)};
  return answer;
}

}  // namespace backfit
