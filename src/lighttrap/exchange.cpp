// SPDX-License-Identifier: MIT
#include "lighttrap/exchange.hpp"

#include <Eigen/Cholesky>
#include <cassert>

namespace backfit {

namespace {

using Vector = Eigen::Map<const Eigen::VectorXd>;

Vector vector_of(const std::vector<double>& values) {
  return {values.data(), static_cast<Eigen::Index>(values.size())};
}

Eigen::VectorXd brightness(const Exchange& x, double reflectance, const std::vector<double>& lit) {
  const auto n = static_cast<Eigen::Index>(x.pieces());
  Eigen::MatrixXd balance = -Eigen::Map<const Eigen::MatrixXd>(x.table().data(), n, n);
  balance.diagonal() += vector_of(x.area) / reflectance;
  // Without pivoting: all off the diagonal stay negative, and every sum is of one sign.
  const Eigen::LLT<Eigen::MatrixXd> factors(balance);
  assert(factors.info() == Eigen::Success);
  return factors.solve(vector_of(lit));
}

}  // namespace

Passage passage(const Exchange& x, double reflectance) {
  assert(reflectance >= 0 && reflectance <= 1);
  if (reflectance == 0 || x.pieces() == 0) return {x.direct / x.mouth, 0};
  const Eigen::VectorXd b = brightness(x, reflectance, x.entry);
  return {(x.direct + vector_of(x.exit).dot(b)) / x.mouth, vector_of(x.entry).dot(b) / x.mouth};
}

std::vector<double> brightness_from_inside(const Exchange& x, double reflectance) {
  assert(reflectance > 0 && reflectance <= 1);
  const Eigen::VectorXd b = brightness(x, reflectance, x.exit);
  return {b.begin(), b.end()};
}

}  // namespace backfit
