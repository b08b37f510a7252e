// SPDX-License-Identifier: MIT
// Minima under constraints, of pure numbers: least shortfall first, then least cost.
#pragma once
#include <functional>
#include <span>
#include <vector>

namespace backfit {

// What a model says at one point: its cost, and how much each constraint has to spare; negative
// where one is broken. As many constraints, in the same order, at every point.
struct Evaluation {
  double cost = 0;
  std::vector<double> spare;
  std::vector<std::size_t> angles;  // constraints that are no gaps
  double shortfall() const;         // of the constraint broken most; 0 when none is
};
// Fills the evaluation in; continuous, and smooth almost everywhere.
using Model = std::function<void(std::span<const double> x, Evaluation& out)>;

struct Ranges {
  std::vector<double> low, high;
};

struct Attempt {
  std::vector<double> x;
  double cost = 0;
  double shortfall = 0;
};

// From `start` towards a point that breaks nothing: least squares of what is short (Levenberg and
// Marquardt, differences forward), inside the bounds. Ends at one, or where it gets no nearer.
// Requires as many bounds as variables and start inside them.
Attempt nearest_feasible(const Model& model, const Ranges& bounds, std::vector<double> start);

// From `start` to a local minimum of the cost that breaks nothing: sequential quadratic programming
// (Kraft 1988, as NLopt has it: BSD licence) over the constraints that are near. Never worse than
// `start` where that breaks nothing by more than `tolerance`.
Attempt cheapest_feasible(const Model& model, const Ranges& bounds, std::vector<double> start,
                          double tolerance);

}  // namespace backfit
