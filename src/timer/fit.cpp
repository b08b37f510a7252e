// SPDX-License-Identifier: MIT
#include "timer/fit.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <cassert>
#include <cmath>

namespace backfit {
namespace {

constexpr double unusual = 0.05;  // common practice

// A fact about the line y = a + b x: y = a * one + b * x, to within u.
struct Fact {
  double one = 1, x_ohm = 0, y_s = 0, u_s = 1;
};

// The line by weighted least squares, in s and ohm.
struct Line {
  double fixed_s = 0, per_ohm = 0;
  double var_fixed = 0, var_per_ohm = 0, covariance = 0;
  double chi_square = 0;
  double at(const Fact& f) const { return fixed_s * f.one + per_ohm * f.x_ohm; }
};

std::optional<Line> line_through(const std::vector<Fact>& facts) {
  double s11 = 0, s1x = 0, sxx = 0;
  for (const Fact& f : facts) {
    const double w = 1 / (f.u_s * f.u_s);
    s11 += w * f.one * f.one;
    s1x += w * f.one * f.x_ohm;
    sxx += w * f.x_ohm * f.x_ohm;
  }
  const double determinant = s11 * sxx - s1x * s1x;
  if (!(determinant > 1e-12 * s11 * sxx)) return {};
  Line line{0, 0, sxx / determinant, s11 / determinant, -s1x / determinant, 0};
  // Two rounds: what the first leaves over by rounding, the second puts right.
  for (int round = 0; round < 2; ++round) {
    double r1 = 0, rx = 0;
    for (const Fact& f : facts) {
      const double left = (f.y_s - line.at(f)) / (f.u_s * f.u_s);
      r1 += left * f.one;
      rx += left * f.x_ohm;
    }
    line.fixed_s += line.var_fixed * r1 + line.covariance * rx;
    line.per_ohm += line.covariance * r1 + line.var_per_ohm * rx;
  }
  for (const Fact& f : facts) line.chi_square += std::pow((f.y_s - line.at(f)) / f.u_s, 2);
  return line;
}

double relative_u(const auto& measured) { return measured.standard_uncertainty() / measured.value; }

// Mean of a trial's times weighted by their uncertainties, and its own, in s.
struct Mean {
  double value_s = 0, u_s = 0;
};
Mean mean_of(const Trial& trial) {
  double sum = 0, weights = 0;
  for (const Measured<Time>& t : trial.times) {
    const double w = std::pow(t.standard_uncertainty() / second, -2);
    sum += w * (t.value / second);
    weights += w;
  }
  return {sum / weights, 1 / std::sqrt(weights)};
}

// What is known of C ln(1/(1-k)), with the uncertainties of both.
std::optional<Fact> known_per_ohm(const TimerKnowledge& known) {
  if (!known.capacitance || !known.threshold) return {};
  const double k = known.threshold->value;
  const Capacitance value = time_per_ohm(known.capacitance->value, k);
  const double by_threshold = known.threshold->standard_uncertainty() / ((1 - k) * -std::log1p(-k));
  const double relative = std::hypot(relative_u(*known.capacitance), by_threshold);
  // In s per ohm; an exactly known one still needs a weight.
  const double per_ohm = value / (second / ohm);
  return Fact{0, 1, per_ohm, std::max(relative, 1e-9) * per_ohm};
}

LackOfFit lack_of(const Line& line, std::size_t facts, double repeat_spread, int repeats) {
  LackOfFit lack{line.chi_square, static_cast<int>(facts) - 2, 1};
  const auto freedom = double(lack.degrees_of_freedom);
  lack.probability =
      repeat_spread > 1
          ? cdf(complement(boost::math::fisher_f(freedom, repeats), line.chi_square / freedom))
          : cdf(complement(boost::math::chi_squared(freedom), line.chi_square));
  return lack;
}

void judge_repeats(std::span<const Trial> trials, TimerFit& fit) {
  double squares = 0;
  for (const Trial& trial : trials) {
    const double mean = mean_of(trial).value_s;
    fit.repeats += static_cast<int>(trial.times.size()) - 1;
    for (const Measured<Time>& t : trial.times) {
      squares += std::pow((t.value / second - mean) / (t.standard_uncertainty() / second), 2);
    }
  }
  if (fit.repeats > 0) fit.repeat_spread = std::sqrt(squares / fit.repeats);
}

}  // namespace

std::optional<TimerFit> fitted(std::span<const Trial> trials, const TimerKnowledge& known) {
  TimerFit fit;
  fit.known = known;
  fit.by_circuit_alone = trials.empty();
  if (known.threshold) {
    fit.law.threshold = known.threshold->value;
    if (known.leakage) fit.law.leakage = known.leakage->value;
  }
  judge_repeats(trials, fit);
  const double widening = std::max(1.0, fit.repeat_spread);

  std::vector<Fact> facts;
  std::vector<double> time_u;  // of each trial's mean, without the resistor's part
  for (const Trial& trial : trials) {
    const auto counts = counting_resistance(fit.law, trial.resistor.value);
    if (!counts) return {};
    const Mean mean = mean_of(trial);
    time_u.push_back(widening * mean.u_s);
    facts.push_back({1, *counts / ohm, mean.value_s, time_u.back()});
  }
  const std::size_t tried = facts.size();
  if (known.fixed) {
    facts.push_back({1, 0, known.fixed->value / second,
                     std::max(known.fixed->standard_uncertainty() / second, 1e-12)});
  }
  if (const auto fact = known_per_ohm(known)) facts.push_back(*fact);

  std::optional<Line> line = line_through(facts);
  if (!line) return {};
  // The weight of a resistor's own uncertainty depends on the slope, which settles at once.
  for (int round = 0; round < 3; ++round) {
    for (std::size_t i = 0; i < tried; ++i) {
      const double resistor_u = trials[i].resistor.standard_uncertainty() / ohm;
      facts[i].u_s = std::hypot(time_u[i], line->per_ohm * resistor_u);
    }
    line = line_through(facts);
    if (!line) return {};
  }
  if (!(line->per_ohm > 0)) return {};

  if (fit.repeat_spread > 1) fit.degrees_of_freedom = fit.repeats;
  double scale = 1;
  if (facts.size() > 2) {
    fit.lack_of_fit = lack_of(*line, facts.size(), fit.repeat_spread, fit.repeats);
    if (fit.lack_of_fit->probability < unusual) {
      fit.widened = true;
      fit.degrees_of_freedom = fit.lack_of_fit->degrees_of_freedom;
      scale = std::sqrt(line->chi_square / fit.lack_of_fit->degrees_of_freedom);
    }
  }
  fit.law.fixed = line->fixed_s * second;
  fit.law.per_ohm = line->per_ohm * (second / ohm);
  fit.fixed_u = scale * std::sqrt(line->var_fixed) * second;
  fit.per_ohm_u = scale * std::sqrt(line->var_per_ohm) * (second / ohm);
  fit.correlation = line->covariance / std::sqrt(line->var_fixed * line->var_per_ohm);
  for (std::size_t i = 0; i < tried; ++i) {
    fit.residuals.push_back({trials[i].resistor.value, facts[i].y_s * second,
                             line->at(facts[i]) * second, facts[i].u_s * second});
  }
  return fit;
}

Time law_uncertainty(const TimerFit& fit, Resistance resistor) {
  const auto counts = counting_resistance(fit.law, resistor);
  assert(counts);
  const Time slope = fit.per_ohm_u * *counts;
  const double a = fit.fixed_u / second, b = slope / second;
  return std::sqrt(std::max(0.0, a * a + b * b + 2 * fit.correlation * a * b)) * second;
}

TimerLaw TimerInputs::law(const Draw& at) const {
  TimerLaw drawn;
  drawn.threshold = at(threshold);
  drawn.per_ohm = by_circuit_alone ? time_per_ohm(at(per_ohm), drawn.threshold) : at(per_ohm);
  drawn.fixed = at(pivot_time) - drawn.per_ohm * pivot;
  if (leakage) drawn.leakage = at(*leakage);
  return drawn;
}

TimerInputs inputs_of(const TimerFit& fit) {
  TimerInputs in;
  in.by_circuit_alone = fit.by_circuit_alone;
  Measured<double> threshold = exactly(fit.law.threshold);
  if (fit.known.threshold && (fit.by_circuit_alone || fit.law.leakage)) {
    threshold = *fit.known.threshold;
  }
  in.threshold = in.all.add("threshold", threshold);
  if (fit.law.leakage) in.leakage = in.all.add("leakage", *fit.known.leakage);
  if (fit.by_circuit_alone) {
    in.pivot_time = in.all.add("fixed time", *fit.known.fixed);
    in.per_ohm = in.all.add("capacitance", *fit.known.capacitance);
    return in;
  }
  // There fixed + per_ohm x and per_ohm vary independently.
  in.pivot = -fit.correlation * (fit.fixed_u / fit.per_ohm_u);
  const double left = std::sqrt(std::max(0.0, 1 - fit.correlation * fit.correlation));
  in.pivot_time =
      in.all.add_normal("time at the trials", fit.law.fixed + fit.law.per_ohm * in.pivot,
                        left * fit.fixed_u, fit.degrees_of_freedom);
  in.per_ohm =
      in.all.add_normal("time per ohm", fit.law.per_ohm, fit.per_ohm_u, fit.degrees_of_freedom);
  return in;
}

std::optional<TrialAdvice> best_next_trial(const TimerFit& fit, std::span<const Time> wanted,
                                           std::span<const Resistance> candidates,
                                           double per_time) {
  assert(per_time > 0);
  // Variances and covariance of fixed and per_ohm, in s and ohm.
  const double var_a = std::pow(fit.fixed_u / second, 2);
  const double var_b = std::pow(fit.per_ohm_u / (second / ohm), 2);
  const double cov = fit.correlation * std::sqrt(var_a * var_b);
  const auto doubt = [&](double a2, double b2, double ab) {
    double worst = 0;
    for (const Time t : wanted) {
      const double x = (t - fit.law.fixed) / fit.law.per_ohm / ohm;
      const double variance = std::max(0.0, a2 + 2 * x * ab + x * x * b2);
      worst = std::max(worst, std::sqrt(variance) / (t / second) / std::log(2));
    }
    return Stops{worst};
  };
  std::optional<TrialAdvice> best;
  for (const Resistance r : candidates) {
    const auto counts = counting_resistance(fit.law, r);
    const auto time = open_time(fit.law, r);
    if (!counts || !time || !(*time > Time{})) continue;
    const double x = *counts / ohm;
    // One more fact on the line, by its gain on what is known.
    const double ga = var_a + x * cov, gb = cov + x * var_b;
    const double noise = std::pow(per_time * (*time / second), 2);
    const double whole = ga + x * gb + noise;
    const Stops after =
        doubt(var_a - ga * ga / whole, var_b - gb * gb / whole, cov - ga * gb / whole);
    if (!best || after < best->after) best = {r, *time, doubt(var_a, var_b, cov), after};
  }
  return best;
}

}  // namespace backfit
