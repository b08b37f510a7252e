// SPDX-License-Identifier: MIT
#include "exposure/reciprocity.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace backfit {
namespace {

double log_of(Time t) { return std::log(t / second); }

LawTime by(const PowerLaw& law, Time t) {
  return {law.scale * std::pow(t / second, law.exponent) * second};
}

LawTime by(const AddedLaw& law, Time t) {
  return {t + law.coefficient * std::pow(t / second, law.exponent) * second};
}

LawTime by(const TableLaw& law, Time t) {
  assert(!law.points.empty());
  const auto& p = law.points;
  const bool past = t > p.back().first;
  if (p.size() == 1) return {t / p[0].first * p[0].second, past};
  // The segment that holds t; the first or the last one beyond the ends.
  std::size_t next = 1;
  while (next + 1 < p.size() && t > p[next].first) ++next;
  const double x0 = log_of(p[next - 1].first), x1 = log_of(p[next].first);
  const double y0 = log_of(p[next - 1].second), y1 = log_of(p[next].second);
  return {std::exp(y0 + (y1 - y0) * (log_of(t) - x0) / (x1 - x0)) * second, past};
}

}  // namespace

LawTime corrected_by(const ReciprocityLaw& law, Time calculated) {
  assert(calculated > Time{});
  LawTime answer = std::visit([&](const auto& l) { return by(l, calculated); }, law);
  answer.time = std::max(answer.time, calculated);
  return answer;
}

double exponent_through(Time calculated, Time corrected) {
  assert(calculated > second && corrected > second);
  return log_of(corrected) / log_of(calculated);
}

double coefficient_through(Time calculated, Time corrected, double exponent) {
  return (corrected - calculated) / second / std::pow(calculated / second, exponent);
}

PowerLaw fitted_power_law(std::span<const std::pair<Time, Time>> points) {
  assert(points.size() >= 2);
  const double n = static_cast<double>(points.size());
  double x_mean = 0, y_mean = 0;
  for (const auto& [t, corrected] : points) {
    x_mean += log_of(t) / n;
    y_mean += log_of(corrected) / n;
  }
  double xx = 0, xy = 0;
  for (const auto& [t, corrected] : points) {
    xx += (log_of(t) - x_mean) * (log_of(t) - x_mean);
    xy += (log_of(t) - x_mean) * (log_of(corrected) - y_mean);
  }
  assert(xx > 0);
  const double exponent = xy / xx;
  return {exponent, std::exp(y_mean - exponent * x_mean)};
}

}  // namespace backfit
