// SPDX-License-Identifier: MIT
#include "parts/screws.hpp"

#include <cmath>

#include "quantity/notation.hpp"

namespace backfit {

std::optional<Length> screw_on_sale(Length most) {
  std::optional<Length> longest;
  for (const double length : {4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0}) {
    if (length * mm <= most) longest = length * mm;
  }
  return longest;
}

std::string screw_name(Length thread, Length length) {
  const double size = thread / mm;
  const bool whole = std::abs(size - std::round(size)) < 0.05;
  return "M" + fixed(size, whole ? 0 : 1) + " × " + fixed(length / mm, 0);
}

}  // namespace backfit
