// SPDX-License-Identifier: MIT
#include "optics/gauss_rule.hpp"

#include <algorithm>
#include <boost/math/special_functions/legendre.hpp>
#include <cassert>

namespace backfit {

std::vector<GaussPoint> gauss_rule(int points) {
  assert(points >= 1);
  const auto point = [points](double zero) {
    const double slope = boost::math::legendre_p_prime(points, zero);
    return GaussPoint{(1 + zero) / 2, 1 / ((1 - zero * zero) * slope * slope)};
  };
  std::vector<GaussPoint> rule;
  rule.reserve(static_cast<std::size_t>(points));
  for (const double zero : boost::math::legendre_p_zeros<double>(points)) {  // from 0 up
    if (zero > 0) rule.push_back(point(-zero));
    rule.push_back(point(zero));
  }
  std::ranges::sort(rule, {}, &GaussPoint::place);
  return rule;
}

}  // namespace backfit
