// SPDX-License-Identifier: MIT
#include "timer/speeds.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace backfit {
namespace {

// Whole numbers of the fractions, each half a power of two further on.
constexpr std::array fractions{1, 2, 4, 8, 15, 30, 60, 125, 250, 500, 1000};

}  // namespace

Time meant_by(Time marked) {
  double meant = 1;
  for (const int fraction : fractions) {
    if (std::abs(marked * double(fraction) / second - 1) < 1e-9) return meant * second;
    meant /= 2;
  }
  return marked;
}

std::vector<Time> usual_speeds() {
  std::vector<Time> list;
  for (std::size_t i = fractions.size() - 1; i-- > 0;)
    list.push_back(second / double(fractions[i]));
  list.push_back(2 * second);
  list.push_back(4 * second);
  return list;
}

std::string speed_text(Time marked) {
  const double of_a_second = second / marked;
  const double whole = std::round(of_a_second);
  if (whole >= 2 && std::abs(of_a_second - whole) < 1e-6 * whole) {
    return fmt::format("1/{:g} s", whole);
  }
  if (marked < 0.1 * second) return fmt::format("{:.3g} ms", marked / ms);
  return fmt::format("{:.3g} s", marked / second);
}

}  // namespace backfit
