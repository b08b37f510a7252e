// SPDX-License-Identifier: MIT
#include "documents/terminal.hpp"

#include <algorithm>
#include <cstdlib>

#include "files/source.hpp"

namespace backfit {

std::string padded(const std::string& cell, int width) {
  const auto size = static_cast<int>(code_points(cell));
  const std::string space(static_cast<std::size_t>(std::max(0, std::abs(width) - size)), ' ');
  return width > 0 ? space + cell : cell + space;
}

}  // namespace backfit
