// SPDX-License-Identifier: MIT
#include "exposure/bulb.hpp"

#include <boost/math/special_functions/gamma.hpp>
#include <cassert>
#include <cmath>

namespace backfit {
namespace {

// Equivalent width over time to peak, e^n n^-(n+1) Gamma(n+1); falls with n.
double relative_width(double n) { return std::exp(n - (n + 1) * std::log(n) + std::lgamma(n + 1)); }

double light_until(const BulbLight& bulb, Time t) {
  if (t <= Time{}) return 0;
  return boost::math::gamma_p(bulb.shape + 1, bulb.shape * (t / bulb.time_to_peak));
}

}  // namespace

Time equivalent_width(const BulbLight& bulb) {
  assert(bulb.shape > 0);
  return relative_width(bulb.shape) * bulb.time_to_peak;
}

LuminousFlux peak_flux(const BulbLight& bulb) { return bulb.total / equivalent_width(bulb); }

LuminousFlux flux_at(const BulbLight& bulb, Time since_fired) {
  if (since_fired <= Time{}) return {};
  const double x = since_fired / bulb.time_to_peak;
  return std::exp(bulb.shape * (std::log(x) + 1 - x)) * peak_flux(bulb);
}

std::optional<BulbLight> bulb_with(LuminousEnergy total, Time time_to_peak, Time width) {
  assert(time_to_peak > Time{});
  const double wanted = width / time_to_peak;
  if (!(wanted > 0.02 && wanted < 4)) return {};
  double low = std::log(0.1), high = std::log(2e4);
  for (int i = 0; i < 80; ++i) {
    const double middle = (low + high) / 2;
    (relative_width(std::exp(middle)) > wanted ? low : high) = middle;
  }
  return BulbLight{total, time_to_peak, std::exp((low + high) / 2)};
}

double light_between(const BulbLight& bulb, Time from, Time to) {
  return light_until(bulb, to) - light_until(bulb, from);
}

Time first_light_of_x(const LeafShutter& shutter) { return -shutter.opening; }
Time first_light_of_m(Time lead) { return lead; }

double light_through(const BulbLight& bulb, const LeafShutter& shutter, double stop,
                     Time first_light) {
  constexpr int steps = 2000;
  const Time width = shutter.total / steps;
  double sum = 0;
  for (int i = 0; i < steps; ++i) {
    const Time since_first = (i + 0.5) * width;
    const Time begin = first_light + since_first - 0.5 * width;
    sum += clear_share(shutter, stop, since_first) * light_between(bulb, begin, begin + width);
  }
  return sum;
}

}  // namespace backfit
