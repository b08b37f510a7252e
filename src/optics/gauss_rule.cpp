// SPDX-License-Identifier: MIT
#include "optics/gauss_rule.hpp"

#include <boost/math/special_functions/legendre.hpp>
#include <cassert>

namespace backfit {

std::vector<GaussPoint> gauss_rule(int points) {
  assert(points >= 1);
  const auto point = [points](double zero) {
    const double slope = boost::math::legendre_p_prime(points, zero);
    return GaussPoint{(1 + zero) / 2, 1 / ((1 - zero * zero) * slope * slope)};
  };
  const std::vector<double> zeros = boost::math::legendre_p_zeros<double>(points);  // from 0 up
  std::vector<GaussPoint> rule;
  rule.reserve(static_cast<std::size_t>(points));
  for (auto zero = zeros.rbegin(); zero != zeros.rend(); ++zero) {
    if (*zero > 0) rule.push_back(point(-*zero));
  }
  for (const double zero : zeros) rule.push_back(point(zero));
  return rule;
}

}  // namespace backfit
