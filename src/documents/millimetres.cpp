// SPDX-License-Identifier: MIT
#include "documents/millimetres.hpp"

#include <cassert>
#include <charconv>
#include <cmath>

namespace backfit::paper {

std::string in_mm(Length value, int decimals) {
  assert(decimals >= 0 && decimals <= 6);
  char digits[400];  // the longest double has 309 digits before the point
  const auto end = std::to_chars(digits, digits + sizeof digits, std::abs(value.in(mm)),
                                 std::chars_format::fixed, decimals);
  std::string text(digits, end.ptr);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return value < 0 * mm && text != "0" ? "−" + text : text;
}

}  // namespace backfit::paper
