// SPDX-License-Identifier: MIT
// How sure a mean of random histories is when few of them carry all: an interval, or the word that
// there is none yet.
#pragma once
#include <cstddef>
#include <optional>

namespace backfit {

// The mean of all histories' scores, and the marks that tell whether its error can be believed.
struct TallyResult {
  std::size_t histories = 0;
  double mean = 0, standard_error = 0;
  double effective_histories = 0;   // (sum x)^2 / sum x^2: as many equal scores would be as sure
  double largest_share = 0;         // of the sum, from one history
  double variance_of_variance = 0;  // relative: sum d^4 / (sum d^2)^2 - 1/n, d = x - mean
  struct Interval {
    double low = 0, high = 0;
  };
  // 95 %, not even about the mean: scores are skew, and runs that miss the large ones have a low
  // mean and a small spread together. Willink's interval (skew-mean-interval in data/sources.toml):
  // with a = skewness / (3 sqrt n) an end is mean - standard error ((1 + 3 a (t - a/2))^(1/3) - 1)
  // / a, t one of Student's quantiles, here with 2 / variance of variance degrees of freedom
  // (Satterthwaite's rule); the skewness counts as at least 3 sd/mean, the least of a logarithmic
  // normal's: samples understate it. Empty: not converged, more histories are needed before any
  // error means something: a standard error above a tenth, one history with over a twentieth of the
  // sum, or a variance of variance over a tenth (common practice of transport codes).
  std::optional<Interval> interval;
};

// Scores added one by one; tallies joined in one order give one sum, whoever counted them.
class Tally {
 public:
  void add(double score) {
    const double square = score * score;
    ++count_;
    sum_ += score;
    squares_ += square;
    cubes_ += square * score;
    fourths_ += square * square;
    if (score > largest_) largest_ = score;
  }
  // Histories that scored nothing.
  void add_dark(std::size_t histories) { count_ += histories; }
  void add(const Tally& other);
  TallyResult result() const;

 private:
  std::size_t count_ = 0;
  double sum_ = 0, squares_ = 0, cubes_ = 0, fourths_ = 0, largest_ = 0;
};

}  // namespace backfit
