// SPDX-License-Identifier: MIT
// How much longer a film needs when the light is weak: its failure of reciprocity, by an exponent,
// by an added term, or by its maker's table.
#pragma once
#include <span>
#include <utility>
#include <variant>
#include <vector>

#include "quantity/light.hpp"

namespace backfit {

// t_c = scale t_m^exponent with both times in seconds. Makers print scale 1; a fit to a test may
// have another.
struct PowerLaw {
  double exponent = 1;
  double scale = 1;
};
// t_c = t_m + coefficient t_m^exponent with both times in seconds. The exponent 1.62 is that of
// test-of-five-films in data/sources.toml (READ).
struct AddedLaw {
  double coefficient = 0;
  double exponent = 1.62;
};
// Pairs of (calculated, corrected) time, in rising order. Between them a straight line in the
// logarithms of both; past the last the last line goes on, and an answer there says so.
struct TableLaw {
  std::vector<std::pair<Time, Time>> points;
};
using ReciprocityLaw = std::variant<PowerLaw, AddedLaw, TableLaw>;

struct LawTime {
  Time time;
  bool past_table = false;  // longer than anything that the table was made from
};

// The time that the film needs where `calculated` was worked out. Never less than `calculated`: a
// power of a time below 1 s, and a table's line below its first point, would shorten it, which no
// film asks for. Requires calculated > 0, and a table of at least one point.
LawTime corrected_by(const ReciprocityLaw& law, Time calculated);

// The exponent of a power law of scale 1 through one point of a maker's: ln t_c / ln t_m, times in
// seconds. Requires both > 1 s.
double exponent_through(Time calculated, Time corrected);

// The coefficient of an added law through one point: (t_c - t_m) / t_m^exponent, times in seconds.
double coefficient_through(Time calculated, Time corrected, double exponent = 1.62);

// The power law of least squares of log t_c over log t_m. Requires two different times.
PowerLaw fitted_power_law(std::span<const std::pair<Time, Time>> points);

}  // namespace backfit
