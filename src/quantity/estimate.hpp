// SPDX-License-Identifier: MIT
// How sure an answer is, from how sure the measurements were: the law of propagation of
// uncertainty (JCGM 100:2008) and the propagation of distributions by Monte Carlo
// (JCGM 101:2008). Inputs are independent; a measurement used twice is one input, used twice.
#pragma once
#include <cassert>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "quantity/measured.hpp"

namespace backfit {

// Shape of an input's distribution. `spread` of an Input is the half-width of a rectangular or
// triangular one and the standard deviation of a normal one.
enum class Shape { rectangular, triangular, normal };

// One input quantity of a measurement model, in base units. The type-safe face is `Inputs`.
struct Input {
  std::string name;
  double value = 0;
  double spread = 0;
  Shape shape = Shape::rectangular;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();

  // Standard deviation: spread / sqrt(3), spread / sqrt(6) or spread (JCGM 100:2008, 4.3).
  double standard_uncertainty() const;
};

// Handle to an input of type Q (a Quantity or double), given out by Inputs::add.
template <class Q>
struct InputRef {
  std::size_t index = 0;
};

// Values of all inputs at one point: the estimates, or one Monte Carlo draw.
class Draw {
 public:
  explicit Draw(std::span<const double> values) : values_(values) {}
  template <Dimension D>
  Quantity<D> operator()(InputRef<Quantity<D>> ref) const {
    return Quantity<D>::of_base(values_[ref.index]);
  }
  double operator()(InputRef<double> ref) const { return values_[ref.index]; }

 private:
  std::span<const double> values_;
};

// The list of everything measured that a set of answers depends on.
class Inputs {
 public:
  template <Dimension D>
  InputRef<Quantity<D>> add(std::string name, Measured<Quantity<D>> measured,
                            Shape shape = Shape::rectangular) {
    return {push({std::move(name), measured.value.base(), measured.half_width.base(), shape})};
  }
  InputRef<double> add(std::string name, Measured<double> measured,
                       Shape shape = Shape::rectangular) {
    return {push({std::move(name), measured.value, measured.half_width, shape})};
  }
  // A normal input with standard uncertainty and degrees of freedom (JCGM 100:2008, G.4).
  template <Dimension D>
  InputRef<Quantity<D>> add_normal(
      std::string name, Quantity<D> value, Quantity<D> standard_uncertainty,
      double degrees_of_freedom = std::numeric_limits<double>::infinity()) {
    return {push({std::move(name), value.base(), standard_uncertainty.base(), Shape::normal,
                  degrees_of_freedom})};
  }
  InputRef<double> add_normal(std::string name, double value, double standard_uncertainty,
                              double degrees_of_freedom = std::numeric_limits<double>::infinity()) {
    return {
        push({std::move(name), value, standard_uncertainty, Shape::normal, degrees_of_freedom})};
  }
  std::span<const Input> list() const { return list_; }

 private:
  std::size_t push(Input input) {
    assert(input.spread >= 0 && input.degrees_of_freedom > 0);
    list_.push_back(std::move(input));
    return list_.size() - 1;
  }
  std::vector<Input> list_;
};

// A measurement model in base units. Gives a number, perhaps an infinite one but never NaN,
// wherever the inputs may lie.
using BaseModel = std::function<double(const Draw&)>;

// One line of an uncertainty budget.
struct Contribution {
  std::string name;
  double sensitivity = 0;   // change of the answer per unit of the input, both in base units
  double contribution = 0;  // |sensitivity| times the input's standard uncertainty
  double share = 0;         // contribution^2 over combined variance, 0 to 1
};

// First-order answer, in base units of the answer. `budget` is ordered by falling contribution:
// its first line is the measurement to repeat. Exact inputs (spread 0) are not in it. The shares
// sum to 1, or are all 0 when no input matters.
struct BaseEstimate {
  double value = 0;
  double standard_uncertainty = 0;
  double effective_degrees_of_freedom = std::numeric_limits<double>::infinity();
  std::vector<Contribution> budget;
};

// Value of the model at the estimates; combined standard uncertainty sqrt(sum (c_i u_i)^2) with
// c_i by central differences over +-u_i (JCGM 100:2008, 5.1.2 and 5.1.3 note 2); effective degrees
// of freedom by Welch and Satterthwaite (G.4.1). The uncertainty is infinite, and shares nothing,
// when the model is infinite there.
BaseEstimate propagate(const Inputs& inputs, const BaseModel& model);

// The same with the second-order terms of JCGM 100:2008, 5.1.2 note added to the variance, for a
// model that bends: sum over i,j of [1/2 (d2f/didj)^2 + df/di d3f/(di dj2)] u_i^2 u_j^2.
// Derivatives by differences within +-u_i, with errors of the next order. The terms i = j hold for
// normal inputs; a rectangular input has 2/5 of the first and 3/5 of the second. Not below 0.
double second_order_uncertainty(const Inputs& inputs, const BaseModel& model);

// Quantile of Student's t: half-width of the two-sided interval of the given level, in standard
// uncertainties; the normal value for infinite degrees of freedom (JCGM 100:2008, table G.2).
// Requires 0 < level < 1 and degrees_of_freedom > 0.
double coverage_factor(double level, double degrees_of_freedom);

// Draws of a model's answer, sorted, in base units of the answer. `mean` and
// `standard_uncertainty` mean something only when every draw is finite.
struct BaseSample {
  std::vector<double> sorted;
  double mean = 0;
  double standard_uncertainty = 0;
  struct Interval {
    double low = 0, high = 0;
  };
  // Probabilistically symmetric interval of probability `level` (JCGM 101:2008, 7.7.2); from the
  // least to the greatest draw when there are too few. Requires 0 < level < 1.
  Interval symmetric(double level) const;
  // The share of draws at or below `limit`, 0 to 1.
  double probability_up_to(double limit) const;
};

// `draws` evaluations of the model at random inputs. The random numbers depend on `seed` and on
// nothing else, so the same call gives the same answer on every machine (JCGM 101:2008, 7). A
// normal input with finite degrees of freedom is drawn from the scaled t-distribution, as for a
// mean of few readings (JCGM 101:2008, 6.4.9): its spread exceeds that of propagate() by
// sqrt(nu / (nu - 2)). Requires draws >= 2.
BaseSample monte_carlo(const Inputs& inputs, const BaseModel& model, std::size_t draws,
                       std::uint64_t seed = 1);

// Share of draws, 0 to 1, for which `holds` is true; the draws are those of monte_carlo() with the
// same inputs and seed. Requires draws >= 1.
double probability(const Inputs& inputs, const std::function<bool(const Draw&)>& holds,
                   std::size_t draws, std::uint64_t seed = 1);

// Typed first-order answer.
template <class Q>
struct Estimate {
  Q value{};
  Q standard_uncertainty{};
  std::vector<Contribution> budget;
};

// propagate() for a model that returns the quantity Q.
template <class Q, class Model>
Estimate<Q> estimate(const Inputs& inputs, const Model& model) {
  const BaseEstimate e =
      propagate(inputs, [&](const Draw& at) { return static_cast<Q>(model(at)).base(); });
  return {Q::of_base(e.value), Q::of_base(e.standard_uncertainty), e.budget};
}

}  // namespace backfit
