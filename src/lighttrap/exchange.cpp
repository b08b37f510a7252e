// SPDX-License-Identifier: MIT
#include "lighttrap/exchange.hpp"

#include <Eigen/Cholesky>
#include <cassert>
#include <utility>

namespace backfit {

namespace {

using Vector = Eigen::Map<const Eigen::VectorXd>;

Vector vector_of(const std::vector<double>& values) {
  return {values.data(), static_cast<Eigen::Index>(values.size())};
}

}  // namespace

struct Balance::Factors {
  Eigen::LLT<Eigen::MatrixXd> balance;
};

Balance::Balance(const Exchange& x, const std::vector<double>& reflectances) {
  assert(reflectances.size() == x.pieces());
  const auto n = static_cast<Eigen::Index>(x.pieces());
  Eigen::MatrixXd balance = -Eigen::Map<const Eigen::MatrixXd>(x.table().data(), n, n);
  balance.diagonal().array() += vector_of(x.area).array() / vector_of(reflectances).array();
  // Without pivoting: all off the diagonal stay negative, and every sum is of one sign.
  auto factors = std::make_unique<Factors>(Factors{Eigen::LLT<Eigen::MatrixXd>(balance)});
  assert(factors->balance.info() == Eigen::Success);
  factors_ = std::move(factors);
}
Balance::~Balance() = default;
Balance::Balance(Balance&&) noexcept = default;
Balance& Balance::operator=(Balance&&) noexcept = default;

std::vector<double> Balance::brightness(const std::vector<double>& lit) const {
  const Eigen::VectorXd b = factors_->balance.solve(vector_of(lit));
  return {b.begin(), b.end()};
}

Passage passage(const Exchange& x, double reflectance) {
  assert(reflectance >= 0 && reflectance <= 1);
  if (reflectance == 0 || x.pieces() == 0) return {x.direct / x.mouth, 0};
  const Balance balance(x, std::vector<double>(x.pieces(), reflectance));
  const std::vector<double> lit = balance.brightness(x.entry);
  const Vector b = vector_of(lit);
  return {(x.direct + vector_of(x.exit).dot(b)) / x.mouth, vector_of(x.entry).dot(b) / x.mouth};
}

std::vector<double> brightness_from_inside(const Exchange& x, double reflectance) {
  assert(reflectance > 0 && reflectance <= 1);
  return Balance(x, std::vector<double>(x.pieces(), reflectance)).brightness(x.exit);
}

}  // namespace backfit
