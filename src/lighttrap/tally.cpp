// SPDX-License-Identifier: MIT
#include "lighttrap/tally.hpp"

#include <cmath>

#include "quantity/notation.hpp"

namespace backfit {

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
    const double centre = m + cube_sum / (6 * square_sum * n);
    r.interval = {centre - coverage_95 * r.standard_error, centre + coverage_95 * r.standard_error};
  }
  return r;
}

}  // namespace backfit
