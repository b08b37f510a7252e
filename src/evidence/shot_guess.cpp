// SPDX-License-Identifier: MIT
#include "evidence/shot_guess.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <vector>

namespace backfit {
namespace {

// A first guess from the samples with the droop taken out by the corner that makes dark dark.
class Guess {
 public:
  Guess(std::span<const float> samples, double sign, std::size_t opening, std::size_t closing)
      : opening_(opening), closing_(closing), light_(samples.size()) {
    const auto n = static_cast<Eigen::Index>(samples.size());
    // Dark until a little before the opening, and from a little behind the closing on.
    const std::size_t before = opening - std::min(opening / 2, (closing - opening) + 40);
    const std::size_t room = samples.size() - closing;
    const std::size_t behind = closing + std::min(room / 2, (closing - opening) + 40);
    Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
    Eigen::Vector3d right = Eigen::Vector3d::Zero();
    std::vector<double> sums(samples.size());
    double sum = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
      const double x = sign * double{samples[i]};
      sums[i] = (sum + x / 2) / static_cast<double>(n);
      sum += x;
      if (i >= before && i < behind) continue;
      const Eigen::Vector3d row(1, static_cast<double>(i) / static_cast<double>(n), -sums[i]);
      normal += row * row.transpose();
      right += row * x;
    }
    for (Eigen::Index k = 0; k < 3; ++k) normal(k, k) *= 1 + 1e-9;
    const Eigen::Vector3d found = normal.ldlt().solve(right);
    corner_ = std::max(0.0, found[2]) / static_cast<double>(n);
    base_ = found[0];
    drift_ = found[1] / static_cast<double>(n);
    for (std::size_t i = 0; i < samples.size(); ++i) {
      light_[i] = sign * double{samples[i]} - base_ - drift_ * static_cast<double>(i) +
                  corner_ * sums[i] * static_cast<double>(n);
    }
    smooth();
  }

  std::optional<ShotModel> model(double sensor_lag) const {
    // Fully open: what a tenth of the samples between the steps exceed.
    std::vector<double> between(light_.begin() + static_cast<std::ptrdiff_t>(opening_),
                                light_.begin() + static_cast<std::ptrdiff_t>(closing_) + 1);
    std::ranges::sort(between);
    const double level = between[between.size() * 9 / 10];
    if (!(level > 0)) return std::nullopt;
    std::size_t middle = opening_;
    for (std::size_t i = opening_; i <= closing_; ++i) {
      if (light_[i] > light_[middle]) middle = i;
    }
    const auto crossing = [&](double share, int step) {
      std::size_t i = middle;
      while (i > 0 && i + 1 < light_.size() && light_[i] > share * level) {
        i = step > 0 ? i + 1 : i - 1;
      }
      return static_cast<double>(i) + 0.5;
    };
    const auto edge = [&](int step) {
      const double quarter = crossing(0.25, step), three = crossing(0.75, step);
      const double spread = std::exp2(-0.415 / usual_power) - std::exp2(-2 / usual_power);
      return BladeEdge{crossing(0.5, step), std::max(2.0, std::abs(three - quarter) / spread),
                       usual_power};
    };
    ShotModel m{edge(-1), edge(1), corner_, sensor_lag, level, base_, drift_};
    if (!(m.closing.half > m.opening.half)) return std::nullopt;
    // Edges that would meet are made short enough not to.
    const double room = m.starts_closing() - m.fully_open();
    if (room < 0) {
      const double taken = m.opening.width + m.closing.width;
      const double scale = std::max(0.1, 0.9 * (m.closing.half - m.opening.half) / taken);
      m.opening.width = std::max(least_width * 2, m.opening.width * scale);
      m.closing.width = std::max(least_width * 2, m.closing.width * scale);
    }
    return m;
  }

 private:
  void smooth() {
    const std::size_t reach = std::clamp<std::size_t>((closing_ - opening_) / 40, 1, 8);
    std::vector<double> raw = light_;
    for (std::size_t i = reach; i + reach < raw.size(); ++i) {
      double sum = 0;
      for (std::size_t k = i - reach; k <= i + reach; ++k) sum += raw[k];
      light_[i] = sum / static_cast<double>(2 * reach + 1);
    }
  }

  std::size_t opening_, closing_;
  std::vector<double> light_;
  double corner_ = 0, base_ = 0, drift_ = 0;
};

}  // namespace

std::optional<ShotModel> guessed_shot(std::span<const float> samples, const ShotPlace& place,
                                      double sign, double sensor_lag) {
  return Guess(samples, sign, place.opening, place.closing).model(sensor_lag);
}

}  // namespace backfit
