// SPDX-License-Identifier: MIT
#include "evidence/shutter_clicks.hpp"

#include <cmath>
#include <functional>
#include <numbers>

namespace backfit {
namespace {

constexpr Time stretch_time = 0.25 * ms, deaf_time = 2 * ms, click_to_light = 1 * ms;
constexpr double over_before = 8, over_median = 30, of_loudest = 0.02, within_stops = 2;
constexpr double clock_share = 1e-4;

// Mean square of the samples' differences, which leaves out rumble, over each stretch.
std::vector<double> loudness_of(std::span<const float> samples, std::size_t stretch) {
  std::vector<double> loudness(samples.size() / stretch);
  for (std::size_t k = 0; k < loudness.size(); ++k) {
    double sum = 0;
    for (std::size_t i = std::max<std::size_t>(1, k * stretch); i < (k + 1) * stretch; ++i) {
      const double d = double{samples[i]} - double{samples[i - 1]};
      sum += d * d;
    }
    loudness[k] = sum / static_cast<double>(stretch);
  }
  return loudness;
}

std::vector<std::size_t> clicks_in(const std::vector<double>& loudness, std::size_t deaf) {
  std::vector<std::size_t> clicks;
  if (loudness.size() < 3 * deaf) return clicks;
  std::vector<double> sorted = loudness;
  const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
  std::ranges::nth_element(sorted, middle);
  const double loudest = *std::ranges::max_element(loudness);
  const double limit = std::max(over_median * *middle, of_loudest * loudest);
  if (!(limit > 0)) return clicks;
  for (std::size_t k = deaf; k < loudness.size(); ++k) {
    if (loudness[k] < limit) continue;
    double before = 0;
    for (std::size_t i = k - deaf; i < k; ++i) before += loudness[i] / static_cast<double>(deaf);
    if (loudness[k] < over_before * before) continue;
    clicks.push_back(k);
    k += deaf - 1;
  }
  return clicks;
}

bool may_be(Time open, std::span<const Time> expected) {
  if (expected.empty()) return true;
  return std::ranges::any_of(expected,
                             [&](Time t) { return std::abs(std::log2(open / t)) <= within_stops; });
}

Estimate<Time> doubted(Time open, Time stretch) {
  const double even = std::numbers::inv_sqrt3;
  Estimate<Time> e{open, Time{}, {}};
  const auto add = [&](const char* name, Time u) { e.budget.push_back({name, 1, u.base(), 0}); };
  add("click against light", std::numbers::sqrt2 * even * click_to_light);
  add("beginning of the clicks", std::numbers::sqrt2 * even * (stretch / 2));
  add("recorder's clock", even * clock_share * open);
  double sum = 0;
  for (const Contribution& c : e.budget) sum += c.contribution * c.contribution;
  for (Contribution& c : e.budget) c.share = c.contribution * c.contribution / sum;
  e.standard_uncertainty = Time::of_base(std::sqrt(sum));
  std::ranges::sort(e.budget, std::greater{}, &Contribution::contribution);
  return e;
}

}  // namespace

ClickTrace shots_by_sound(const RecordedSignal& signal, std::span<const Time> expected) {
  ClickTrace trace;
  const auto stretch = std::max<std::size_t>(1, std::size_t(stretch_time / signal.interval + 1e-9));
  const Time step = static_cast<double>(stretch) * signal.interval;
  trace.loudness_step = step;
  const auto deaf = std::max<std::size_t>(2, std::size_t(deaf_time / step));
  const auto loudness = loudness_of(signal.samples, stretch);
  const auto clicks = clicks_in(loudness, deaf);
  std::size_t i = 0;
  while (i < clicks.size()) {
    std::size_t k = i + 1;
    while (k < clicks.size() &&
           !may_be(static_cast<double>(clicks[k] - clicks[i]) * step, expected))
      ++k;
    if (k >= clicks.size()) {
      ++trace.unpaired;
      ++i;
      continue;
    }
    ClickedShot shot;
    shot.at = static_cast<double>(clicks[i]) * step;
    shot.open = doubted(static_cast<double>(clicks[k] - clicks[i]) * step, step);
    const std::size_t end =
        std::min(loudness.size(), clicks[k] + (clicks[k] - clicks[i]) / 4 + deaf);
    double loudest = 0;
    for (std::size_t n = clicks[i]; n < end; ++n) loudest = std::max(loudest, loudness[n]);
    for (std::size_t n = clicks[i]; n < end; ++n) {
      shot.loudness.push_back(std::sqrt(loudness[n] / loudest));
    }
    trace.shots.push_back(std::move(shot));
    trace.unpaired += static_cast<int>(k - i) - 1;
    i = k + 1;
  }
  return trace;
}

}  // namespace backfit
