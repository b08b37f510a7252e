// SPDX-License-Identifier: MIT
#include "lighttrap/tally.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Student's 97.5 % quantile by its expansion about the normal's (Abramowitz and Stegun 26.7.5, two
// terms): 0.1 % off at 10 degrees of freedom.
double student_97_5(double degrees_of_freedom) {
  const double z = coverage_95, square = z * z, one = 1 / degrees_of_freedom;
  return z * (1 + one * ((square + 1) / 4 + one * ((5 * square + 16) * square + 3) / 96));
}

// The T that T + a T^2 + a^2 T^3 / 3 + a / 2 takes to `normal`. Requires a > 0.
double skewed(double normal, double a) { return (std::cbrt(1 + 3 * a * (normal - a / 2)) - 1) / a; }

}  // namespace

void Tally::add(const Tally& other) {
  count_ += other.count_;
  sum_ += other.sum_;
  squares_ += other.squares_;
  cubes_ += other.cubes_;
  fourths_ += other.fourths_;
  if (other.largest_ > largest_) largest_ = other.largest_;
}

TallyResult Tally::result() const {
  TallyResult r;
  r.histories = count_;
  if (count_ == 0 || sum_ == 0) return r;
  const auto n = static_cast<double>(count_);
  r.mean = sum_ / n;
  // Central moments; scores are not negative and mostly nothing, so the differences are harmless.
  const double m = r.mean;
  const double square_sum = squares_ - n * m * m;
  const double cube_sum = cubes_ - 3 * m * squares_ + 2 * n * m * m * m;
  const double fourth_sum =
      fourths_ - 4 * m * cubes_ + 6 * m * m * squares_ - 3 * n * m * m * m * m;
  r.effective_histories = sum_ * sum_ / squares_;
  r.largest_share = largest_ / sum_;
  if (!(square_sum > 1e-12 * squares_)) {  // all alike
    r.interval = {m, m};
    return r;
  }
  r.standard_error = std::sqrt(square_sum / n / (n - 1));
  r.variance_of_variance = fourth_sum / (square_sum * square_sum) - 1 / n;
  if (r.standard_error <= 0.1 * m && r.largest_share <= 0.05 && r.variance_of_variance <= 0.1) {
    const double spread = std::sqrt(square_sum / n);
    const double skewness = std::max(cube_sum / n / (spread * spread * spread), 3 * spread / m);
    const double a = skewness / (3 * std::sqrt(n));
    const double t = student_97_5(2 / std::max(0.0, r.variance_of_variance));
    r.interval = {m - r.standard_error * skewed(t, a), m - r.standard_error * skewed(-t, a)};
  }
  return r;
}

}  // namespace backfit
