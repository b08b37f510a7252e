// SPDX-License-Identifier: MIT
#include "lighttrap/exchange.hpp"

#include <Eigen/Cholesky>
#include <cassert>

namespace backfit {

Passage passage(const Exchange& x, double reflectance) {
  assert(reflectance >= 0 && reflectance <= 1);
  if (reflectance == 0 || x.pieces() == 0) return {x.direct / x.mouth, 0};
  const auto n = static_cast<Eigen::Index>(x.pieces());
  using Vector = Eigen::Map<const Eigen::VectorXd>;
  const Vector area(x.area.data(), n), entry(x.entry.data(), n), exit(x.exit.data(), n);
  Eigen::MatrixXd balance = -Eigen::Map<const Eigen::MatrixXd>(x.table().data(), n, n);
  balance.diagonal() += area / reflectance;
  // Without pivoting: all off the diagonal stay negative, and every sum is of one sign.
  const Eigen::LLT<Eigen::MatrixXd> factors(balance);
  assert(factors.info() == Eigen::Success);
  const Eigen::VectorXd brightness = factors.solve(entry);
  return {(x.direct + exit.dot(brightness)) / x.mouth, entry.dot(brightness) / x.mouth};
}

}  // namespace backfit
