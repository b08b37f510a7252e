// SPDX-License-Identifier: MIT
#include "files/dial.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>
#include <utility>

#include "quantity/notation.hpp"

namespace backfit {
namespace {

constexpr int most_decimals = 6;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// A decimal number at the start of `text`: its length in bytes and its decimals; length 0 for none.
struct Decimal {
  std::size_t length = 0;
  int decimals = 0;
};
Decimal decimal_in(std::string_view text) {
  std::size_t i = !text.empty() && text.front() == '-' ? 1 : 0;
  const std::size_t whole = i;
  while (i < text.size() && is_digit(text[i])) ++i;
  if (i == whole) return {};
  Decimal found{i, 0};
  if (i + 1 < text.size() && text[i] == '.' && is_digit(text[i + 1])) {
    std::size_t k = i + 1;
    while (k < text.size() && is_digit(text[k])) ++k;
    found = {k, static_cast<int>(k - i - 1)};
  }
  return found;
}

// Bytes of the spelling that stands before the number, as in "f/9"; 0 when none does.
std::size_t spelling_before(std::string_view text, const QuantityKind& kind) {
  std::size_t longest = 0;
  for (const UnitName& unit : kind.units) {
    if (unit.before && text.starts_with(unit.spelling))
      longest = std::max(longest, unit.spelling.size());
  }
  while (longest > 0 && longest < text.size() && text[longest] == ' ') ++longest;
  return longest;
}

// What stands behind the number up to the tolerance, without blanks round it.
std::string unit_behind(std::string_view text) {
  text = text.substr(0, std::min({text.find("±"), text.find("+/-"), text.find("+-"), text.find('"'),
                                  text.find('\'')}));
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  return std::string(text);
}

// Is the number part of something longer: a fraction, a number and a fraction, "7.6(4)"?
bool goes_on(std::string_view behind) {
  if (behind.empty()) return false;
  if (behind.front() == '/' || behind.front() == '(' || behind.front() == ',') return true;
  while (behind.starts_with(' ')) behind.remove_prefix(1);
  return !behind.empty() && is_digit(behind.front());
}

void set_range(Dial& dial, const ReadValue& value) {
  const bool stop = value.kind == &kind_of<FNumber>();
  dial.decimals = std::max(dial.decimals, stop ? 1 : 0);
  const double unit_of_last = std::pow(10.0, -dial.decimals);
  dial.step = stop ? 0.5 : unit_of_last;
  // Whole steps to both sides: a control that counts them from its least value meets this one.
  const double even = std::max(20.0, std::round(std::abs(dial.value) / 4 / dial.step));
  const double below = stop ? std::floor(0.75 * dial.value / dial.step) : even;
  const double above = stop ? std::floor(3 * dial.value / dial.step) : even;
  const auto as_written = [unit_of_last](double x) {
    return std::round(x / unit_of_last) * unit_of_last;
  };
  dial.least = as_written(dial.value - below * dial.step);
  dial.most = as_written(dial.value + above * dial.step);
  if (value.sign == Sign::positive) dial.least = std::max(dial.least, dial.step);
  if (value.sign == Sign::not_negative) dial.least = std::max(dial.least, 0.0);
}

}  // namespace

std::optional<Dial> dial_of(const ReadValue& value) {
  if (value.kind == nullptr || !value.place) return {};
  const std::string_view line = value.place.source->line(value.place.line);
  const std::string_view written =
      code_point_slice(line, value.place.column - 1, value.place.length);
  if (written.size() < 3 || written.front() != written.back() ||
      (written.front() != '"' && written.front() != '\''))
    return {};
  std::size_t begin = 1;
  while (begin < written.size() && written[begin] == ' ') ++begin;
  const std::size_t before = spelling_before(written.substr(begin), *value.kind);
  const std::string spelling(written.substr(begin, before));
  begin += before;
  const Decimal number = decimal_in(written.substr(begin));
  if (number.length == 0 || number.decimals > most_decimals) return {};
  const std::string_view behind = written.substr(begin + number.length);
  if (goes_on(behind)) return {};

  Dial dial{value.key, value.meaning, before > 0 ? spelling : unit_behind(behind), value.place};
  dial.number.column += code_points(written.substr(0, begin));
  dial.number.length = number.length;
  dial.decimals = number.decimals;
  const std::string_view digits = written.substr(begin, number.length);
  std::from_chars(digits.data(), digits.data() + digits.size(), dial.value);
  set_range(dial, value);
  return dial;
}

std::string turned(const Dial& dial, double value) {
  const SourceText& source = *dial.number.source;
  const std::string_view line = source.line(dial.number.line);
  const std::string_view before = code_point_slice(line, 0, dial.number.column - 1);
  const auto at = static_cast<std::size_t>(line.data() - source.text().data()) + before.size();
  std::string text = source.text();
  text.replace(at, dial.number.length,
               fixed(std::clamp(value, dial.least, dial.most), dial.decimals));
  return text;
}

}  // namespace backfit
