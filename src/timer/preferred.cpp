// SPDX-License-Identifier: MIT
#include "timer/preferred.hpp"

#include <cassert>
#include <cmath>

namespace backfit {
namespace {

// The rule's number in E24 becomes the standard's.
int as_in_e24(int by_rule) {
  switch (by_rule) {
    case 26:
    case 29:
    case 32:
    case 35:
    case 38:
    case 42:
    case 46:
      return by_rule + 1;
    case 83:
      return 82;
    default:
      return by_rule;
  }
}

}  // namespace

std::vector<int> preferred_numbers(Series series) {
  const int count = static_cast<int>(series);
  const double first = count <= 24 ? 10 : 100;
  std::vector<int> numbers;
  for (int i = 0; i < count; ++i) {
    const int by_rule = static_cast<int>(std::lround(first * std::pow(10, double(i) / count)));
    numbers.push_back(count <= 24 ? as_in_e24(by_rule) : by_rule);
  }
  return numbers;
}

std::vector<Resistance> preferred_resistors(Series series, Resistance least, Resistance most) {
  assert(least > Resistance{} && least <= most);
  const std::vector<int> numbers = preferred_numbers(series);
  std::vector<Resistance> list;
  const int lowest = static_cast<int>(std::floor(std::log10(least / ohm)));
  for (int decade = lowest; std::pow(10, decade) * ohm <= most; ++decade) {
    for (const int number : numbers) {
      // Whole numbers and one power of ten: 4.7 kΩ is the double nearest to 4700.
      const int power = decade - (number >= 100 ? 2 : 1);
      const double scale = std::pow(10, std::abs(power));
      const Resistance value = (power < 0 ? number / scale : number * scale) * ohm;
      if (value >= least && value <= most) list.push_back(value);
    }
  }
  return list;
}

}  // namespace backfit
