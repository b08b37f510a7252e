// SPDX-License-Identifier: MIT
#include "transport/fit.hpp"

#include <nlopt.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <memory>
#include <utility>

namespace backfit {
namespace {

constexpr double difference = 1e-6;

// Model and slopes at one point, kept until another is asked for.
class Sloped {
 public:
  Sloped(const Model& model, const Ranges& bounds) : model_(model), bounds_(bounds) {}

  const Evaluation& at(std::span<const double> x) {
    if (!std::ranges::equal(x, x_)) {
      x_.assign(x.begin(), x.end());
      model_(x_, here_);
      sloped_ = false;
    }
    return here_;
  }
  // d spare[i] / d x[j] at [j][i]; the last of each is the cost's.
  const std::vector<std::vector<double>>& slopes_at(std::span<const double> x) {
    at(x);
    if (sloped_) return slopes_;
    slopes_.resize(x_.size());
    std::vector<double> moved = x_;
    for (std::size_t j = 0; j < x_.size(); ++j) {
      const double step = x_[j] + difference > bounds_.high[j] ? -difference : difference;
      moved[j] = x_[j] + step;
      model_(moved, there_);
      moved[j] = x_[j];
      std::vector<double>& column = slopes_[j];
      column.resize(here_.spare.size() + 1);
      for (std::size_t i = 0; i < here_.spare.size(); ++i) {
        column[i] = (there_.spare[i] - here_.spare[i]) / step;
      }
      column.back() = (there_.cost - here_.cost) / step;
    }
    sloped_ = true;
    return slopes_;
  }

 private:
  const Model& model_;
  const Ranges& bounds_;
  std::vector<double> x_;
  Evaluation here_, there_;
  std::vector<std::vector<double>> slopes_;
  bool sloped_ = false;
};

double squares_short(const Evaluation& e) {
  double sum = 0;
  for (const double s : e.spare) sum += s < 0 ? s * s : 0;
  return sum;
}

// Solves a x = b in place of b for a symmetric positive definite matrix (Cholesky); false if not.
bool solved(std::vector<std::vector<double>>& a, std::vector<double>& b) {
  const std::size_t n = b.size();
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t k = 0; k < j; ++k) a[j][j] -= a[j][k] * a[j][k];
    if (!(a[j][j] > 0)) return false;
    a[j][j] = std::sqrt(a[j][j]);
    for (std::size_t i = j + 1; i < n; ++i) {
      for (std::size_t k = 0; k < j; ++k) a[i][j] -= a[i][k] * a[j][k];
      a[i][j] /= a[j][j];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) b[i] -= a[i][k] * b[k];
    b[i] /= a[i][i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) b[i] -= a[k][i] * b[k];
    b[i] /= a[i][i];
  }
  return true;
}

// What SLSQP is asked: the cost under those constraints that may bind.
struct Question {
  Sloped* model;
  std::vector<std::size_t> near;
};

double cost_of(unsigned n, const double* x, double* slope, void* data) {
  Question& q = *static_cast<Question*>(data);
  const std::span<const double> at(x, n);
  if (slope != nullptr) {
    const auto& slopes = q.model->slopes_at(at);
    for (std::size_t j = 0; j < n; ++j) slope[j] = slopes[j].back();
  }
  return q.model->at(at).cost;
}

void broken_of(unsigned m, double* result, unsigned n, const double* x, double* slope, void* data) {
  Question& q = *static_cast<Question*>(data);
  const std::span<const double> at(x, n);
  if (slope != nullptr) {
    const auto& slopes = q.model->slopes_at(at);
    for (std::size_t i = 0; i < m; ++i) {
      for (std::size_t j = 0; j < n; ++j) slope[i * n + j] = -slopes[j][q.near[i]];
    }
  }
  const Evaluation& e = q.model->at(at);
  for (std::size_t i = 0; i < m; ++i) result[i] = -e.spare[q.near[i]];
}

}  // namespace

double Evaluation::shortfall() const {
  double worst = 0;
  for (const double s : spare) worst = std::max(worst, -s);
  return worst;
}

Attempt nearest_feasible(const Model& model, const Ranges& bounds, std::vector<double> start) {
  assert(bounds.low.size() == start.size() && bounds.high.size() == start.size());
  Sloped sloped(model, bounds);
  const std::size_t n = start.size();
  std::vector<double> x = std::move(start);
  double sum = squares_short(sloped.at(x));
  double damping = 1e-2;
  for (int step = 0; step < 60 && sum > 1e-12 && damping < 1e8; ++step) {
    const auto& slopes = sloped.slopes_at(x);
    const std::vector<double> spare = sloped.at(x).spare;
    std::vector<std::vector<double>> normal(n, std::vector<double>(n));
    std::vector<double> pull(n);
    for (std::size_t i = 0; i < spare.size(); ++i) {
      if (spare[i] >= 0) continue;
      for (std::size_t j = 0; j < n; ++j) {
        pull[j] -= slopes[j][i] * spare[i];
        for (std::size_t k = 0; k <= j; ++k) normal[j][k] += slopes[j][i] * slopes[k][i];
      }
    }
    for (std::size_t j = 0; j < n; ++j) normal[j][j] += damping * (normal[j][j] + 1e-3);
    if (!solved(normal, pull)) {
      damping *= 10;
      continue;
    }
    std::vector<double> next = x;
    for (std::size_t j = 0; j < n; ++j) {
      next[j] = std::clamp(x[j] + pull[j], bounds.low[j], bounds.high[j]);
    }
    Evaluation there;
    model(next, there);
    const double better = squares_short(there);
    if (better < sum) {
      const bool slow = better > 0.999 * sum;
      x = next;
      sum = better;
      damping = std::max(damping / 5, 1e-7);
      if (slow) break;
    } else {
      damping *= 6;
    }
  }
  const Evaluation& e = sloped.at(x);
  return {x, e.cost, e.shortfall()};
}

Attempt cheapest_feasible(const Model& model, const Ranges& bounds, std::vector<double> start,
                          double tolerance) {
  constexpr double near_enough = 6;  // mm: what may bind before the next round looks again
  Sloped sloped(model, bounds);
  const Evaluation first = sloped.at(start);
  Attempt best{start, first.cost, first.shortfall()};
  const auto better = [&](const Attempt& t) {
    const bool good = t.shortfall <= tolerance;
    const bool had = best.shortfall <= tolerance;
    if (good != had) return good;
    return good ? t.cost < best.cost : t.shortfall < best.shortfall;
  };
  std::vector<double> x = start;
  for (int round = 0; round < 3; ++round) {
    Question question{&sloped, {}};
    const Evaluation here = sloped.at(x);
    for (std::size_t i = 0; i < here.spare.size(); ++i) {
      if (here.spare[i] < near_enough) question.near.push_back(i);
    }
    const auto n = static_cast<unsigned>(x.size());
    const std::unique_ptr<nlopt_opt_s, void (*)(nlopt_opt)> solver(nlopt_create(NLOPT_LD_SLSQP, n),
                                                                   nlopt_destroy);
    nlopt_set_lower_bounds(solver.get(), bounds.low.data());
    nlopt_set_upper_bounds(solver.get(), bounds.high.data());
    nlopt_set_min_objective(solver.get(), cost_of, &question);
    const std::vector<double> allowed(question.near.size(), tolerance / 4);
    nlopt_add_inequality_mconstraint(solver.get(), static_cast<unsigned>(question.near.size()),
                                     broken_of, &question, allowed.data());
    nlopt_set_ftol_rel(solver.get(), 1e-7);
    nlopt_set_xtol_rel(solver.get(), 1e-8);
    nlopt_set_maxeval(solver.get(), 120);
    double cost = 0;
    std::vector<double> found = x;
    nlopt_optimize(solver.get(), found.data(), &cost);
    for (std::size_t j = 0; j < found.size(); ++j) {
      if (!std::isfinite(found[j])) found[j] = x[j];
      found[j] = std::clamp(found[j], bounds.low[j], bounds.high[j]);
    }
    const Evaluation there = sloped.at(found);
    const Attempt trial{found, there.cost, there.shortfall()};
    if (better(trial)) best = trial;
    if (trial.shortfall <= tolerance || found == x) break;
    x = found;
  }
  return best;
}

}  // namespace backfit
