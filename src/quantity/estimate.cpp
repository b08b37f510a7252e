// SPDX-License-Identifier: MIT
#include "quantity/estimate.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numbers>

#include "quantity/random.hpp"

namespace backfit {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// The model at the estimates with some inputs moved by multiples of their standard uncertainty.
class Probe {
 public:
  Probe(const Inputs& inputs, const BaseModel& model) : model_(model) {
    for (const Input& input : inputs.list()) {
      estimates_.push_back(input.value);
      uncertainties_.push_back(input.standard_uncertainty());
    }
    values_ = estimates_;
  }
  std::size_t size() const { return estimates_.size(); }
  double uncertainty(std::size_t i) const { return uncertainties_[i]; }
  double centre() { return evaluate(); }
  double at(std::size_t i, double steps) {
    move(i, steps);
    const double answer = evaluate();
    move(i, 0);
    return answer;
  }
  double at(std::size_t i, double steps_i, std::size_t j, double steps_j) {
    move(i, steps_i);
    const double answer = at(j, steps_j);
    move(i, 0);
    return answer;
  }

 private:
  void move(std::size_t i, double steps) { values_[i] = estimates_[i] + steps * uncertainties_[i]; }
  double evaluate() const {
    const double answer = model_(Draw(values_));
    assert(!std::isnan(answer));
    return answer;
  }
  const BaseModel& model_;
  std::vector<double> estimates_, uncertainties_, values_;
};

double drawn(const Input& input, Random& random) {
  switch (input.shape) {
    case Shape::rectangular:
      return input.value + input.spread * (2 * random.unit() - 1);
    case Shape::triangular: {
      const double first = random.unit();
      return input.value + input.spread * (first - random.unit());
    }
    case Shape::normal:
      return input.value + input.spread * random.student(input.degrees_of_freedom);
  }
  assert(false);
  return input.value;
}

// Calls visit(draw) for each of `draws` random draws of the inputs.
template <class Visit>
void for_each_draw(const Inputs& inputs, std::size_t draws, std::uint64_t seed,
                   const Visit& visit) {
  const std::span<const Input> list = inputs.list();
  Random random(seed);
  std::vector<double> values(list.size());
  for (std::size_t k = 0; k < draws; ++k) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      values[i] = drawn(list[i], random);
    }
    visit(Draw(values));
  }
}

}  // namespace

double Input::standard_uncertainty() const {
  switch (shape) {
    case Shape::rectangular:
      return spread * std::numbers::inv_sqrt3;
    case Shape::triangular:
      return spread / std::sqrt(6.0);
    case Shape::normal:
      return spread;
  }
  assert(false);
  return spread;
}

BaseEstimate propagate(const Inputs& inputs, const BaseModel& model) {
  Probe probe(inputs, model);
  BaseEstimate result;
  result.value = probe.centre();
  double variance = 0, reliability = 0;  // reliability: sum of contribution^4 over freedom
  for (std::size_t i = 0; i < probe.size(); ++i) {
    const double u = probe.uncertainty(i);
    if (u == 0) continue;
    const Input& input = inputs.list()[i];
    double change = (probe.at(i, 1) - probe.at(i, -1)) / 2;
    if (!std::isfinite(change)) change = infinity;
    result.budget.push_back({input.name, change / u, std::abs(change), 0});
    variance += change * change;
    reliability += std::pow(change, 4) / input.degrees_of_freedom;
  }
  result.standard_uncertainty = std::sqrt(variance);
  if (variance > 0 && std::isfinite(variance)) {
    result.effective_degrees_of_freedom = variance * variance / reliability;
    for (Contribution& line : result.budget) {
      line.share = line.contribution * line.contribution / variance;
    }
  }
  std::stable_sort(
      result.budget.begin(), result.budget.end(),
      [](const Contribution& a, const Contribution& b) { return a.contribution > b.contribution; });
  return result;
}

double second_order_uncertainty(const Inputs& inputs, const BaseModel& model) {
  // Every derivative is multiplied by the uncertainties of its variables, so no step divides.
  Probe probe(inputs, model);
  const std::size_t n = probe.size();
  const double centre = probe.centre();
  std::vector<double> plus(n), minus(n), slope(n);
  double variance = 0;
  for (std::size_t i = 0; i < n; ++i) {
    plus[i] = probe.at(i, 1);
    minus[i] = probe.at(i, -1);
    const double wide = plus[i] - minus[i];
    const double narrow = probe.at(i, 0.5) - probe.at(i, -0.5);
    slope[i] = (8 * narrow - wide) / 6;
    const double bend = plus[i] - 2 * centre + minus[i];
    const double third = 4 * (wide - 2 * narrow);
    variance += slope[i] * slope[i] + bend * bend / 2 + slope[i] * third;
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      const double both_up = probe.at(i, 1, j, 1), both_down = probe.at(i, -1, j, -1);
      const double i_up = probe.at(i, 1, j, -1), j_up = probe.at(i, -1, j, 1);
      const double twist = (both_up - i_up - j_up + both_down) / 4;
      const double ijj = (both_up + i_up - j_up - both_down) / 2 - (plus[i] - minus[i]);
      const double jii = (both_up + j_up - i_up - both_down) / 2 - (plus[j] - minus[j]);
      variance += twist * twist + slope[i] * ijj + slope[j] * jii;
    }
  }
  return std::isfinite(variance) ? std::sqrt(std::max(variance, 0.0)) : infinity;
}

double coverage_factor(double level, double degrees_of_freedom) {
  assert(level > 0 && level < 1 && degrees_of_freedom > 0);
  const double upper_tail = (1 - level) / 2;
  if (std::isinf(degrees_of_freedom)) {
    return quantile(complement(boost::math::normal(), upper_tail));
  }
  return quantile(complement(boost::math::students_t(degrees_of_freedom), upper_tail));
}

BaseSample::Interval BaseSample::symmetric(double level) const {
  assert(level > 0 && level < 1 && !sorted.empty());
  const std::size_t count = sorted.size();
  const auto inside = static_cast<std::size_t>(std::llround(level * static_cast<double>(count)));
  if (inside >= count) return {sorted.front(), sorted.back()};
  const std::size_t first = (count - inside + 1) / 2;  // counted from 1
  return {sorted[first - 1], sorted[first + inside - 1]};
}

double BaseSample::probability_up_to(double limit) const {
  assert(!sorted.empty());
  const auto above = std::upper_bound(sorted.begin(), sorted.end(), limit);
  return static_cast<double>(above - sorted.begin()) / static_cast<double>(sorted.size());
}

BaseSample monte_carlo(const Inputs& inputs, const BaseModel& model, std::size_t draws,
                       std::uint64_t seed) {
  assert(draws >= 2);
  BaseSample sample;
  sample.sorted.reserve(draws);
  for_each_draw(inputs, draws, seed, [&](const Draw& draw) {
    sample.sorted.push_back(model(draw));
    assert(!std::isnan(sample.sorted.back()));
  });
  std::sort(sample.sorted.begin(), sample.sorted.end());

  double sum = 0;
  for (const double answer : sample.sorted) {
    sum += answer;
  }
  sample.mean = sum / static_cast<double>(draws);
  double squares = 0;
  for (const double answer : sample.sorted) {
    squares += (answer - sample.mean) * (answer - sample.mean);
  }
  sample.standard_uncertainty = std::sqrt(squares / static_cast<double>(draws - 1));
  return sample;
}

double probability(const Inputs& inputs, const std::function<bool(const Draw&)>& holds,
                   std::size_t draws, std::uint64_t seed) {
  assert(draws >= 1);
  std::size_t held = 0;
  for_each_draw(inputs, draws, seed, [&](const Draw& draw) { held += holds(draw) ? 1 : 0; });
  return static_cast<double>(held) / static_cast<double>(draws);
}

}  // namespace backfit
