// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "quantity/notation.hpp"
#include "quantity/unit_words.hpp"

namespace backfit {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_space(char c) { return c == ' ' || c == '\t'; }

// Walks the text once; the first fault ends the walk.
class Walk {
 public:
  Walk(std::string_view text, const QuantityKind& kind, Sign sign)
      : text_(text), kind_(kind), sign_(sign) {}

  std::variant<Reading, NotationFault> run() {
    Reading reading;
    skip_space();
    if (at_ == text_.size()) return NotationFault{0, at_, "nothing is written here", {}};
    const bool before = read_leading_unit();
    const std::size_t value_begin = at_;
    double value = 0;
    if (!ok_ || !(before ? read_decimal(value) : read_number(value))) return fault_;
    const std::size_t value_end = at_;
    double unit = leading_unit_;
    if (!before && !read_unit(unit, value_begin)) return fault_;
    unit_ = unit;
    reading.value = value * unit;
    if (!std::isfinite(reading.value)) {
      fail(value_begin, value_end - value_begin,
           fmt::format("'{}' is too large a {}", slice(value_begin, value_end), kind_.name), {});
      return fault_;
    }
    if (before && !read_degree_tail(value, value_begin)) return fault_;
    if ((sign_ == Sign::positive && !(reading.value > 0)) ||
        (sign_ == Sign::not_negative && reading.value < 0)) {
      fail(value_begin, value_end - value_begin,
           fmt::format("'{}' is {}; this {} must be {}", slice(value_begin, value_end),
                       reading.value < 0 ? "negative" : "zero", kind_.name,
                       sign_ == Sign::positive ? "above zero" : "zero or more"),
           reading.value < 0 ? replaced(value_begin, value_begin + 1, "") : "");
      return fault_;
    }
    if (!read_tolerance(reading)) return fault_;
    skip_space();
    if (at_ != text_.size()) {
      fail(at_, text_.size() - at_,
           fmt::format("'{}' is left over after the {}", text_.substr(at_), kind_.name),
           std::string(trimmed(text_.substr(0, at_))));
      return fault_;
    }
    return reading;
  }

 private:
  static std::string_view trimmed(std::string_view s) {
    while (!s.empty() && is_space(s.back())) s.remove_suffix(1);
    return s;
  }
  std::string_view slice(std::size_t from, std::size_t to) const {
    return text_.substr(from, to - from);
  }
  std::string replaced(std::size_t from, std::size_t to, std::string_view by) const {
    return std::string(text_.substr(0, from)) + std::string(by) + std::string(text_.substr(to));
  }
  bool fail(std::size_t begin, std::size_t length, std::string message, std::string remedy) {
    fault_ = {begin, length, std::move(message), std::move(remedy)};
    ok_ = false;
    return false;
  }
  void skip_space() {
    while (at_ < text_.size() && is_space(text_[at_])) ++at_;
  }
  bool take(std::string_view word) {
    if (!text_.substr(at_).starts_with(word)) return false;
    at_ += word.size();
    return true;
  }

  // "f/" or "ISO": true when this kind's units stand before the number.
  bool read_leading_unit() {
    if (!kind_.units.front().before) return false;
    for (const UnitName& u : kind_.units) {
      if (take(u.spelling)) {
        leading_unit_ = u.base;
        skip_space();
        return true;
      }
    }
    const std::size_t begin = at_;
    std::string remedy;
    std::size_t number = at_;
    if (&kind_ == &kind_of<FNumber>() && (text_[at_] == 'F' || text_[at_] == 'f')) {
      ++number;
      if (number < text_.size() && text_[number] == '/') ++number;
    }
    if (number < text_.size() && is_digit(text_[number])) {
      const std::string_view first = kind_.units.front().spelling;
      remedy = std::string(first) + (first.ends_with('/') ? "" : " ") +
               std::string(text_.substr(number));
    }
    fail(begin, text_.size() - begin,
         fmt::format("'{}' is not {}: it starts with {}", text_.substr(begin),
                     with_article(kind_.name), unit_list(kind_)),
         remedy);
    return true;
  }

  // The logarithmic half of "ISO 400/27°": 1 + 10 log10 of the arithmetic one, to the degree.
  bool read_degree_tail(double speed, std::size_t begin) {
    if (&kind_ != &kind_of<IsoSpeed>() || !take("/")) return true;
    double degrees = 0;
    const std::size_t degrees_begin = at_;
    if (!read_decimal(degrees)) return false;
    if (!take("°")) {
      return fail(degrees_begin, at_ - degrees_begin,
                  "the logarithmic speed after '/' ends with '°'", replaced(at_, at_, "°"));
    }
    const double expected = std::round(1 + 10 * std::log10(speed));
    if (speed > 0 && degrees != expected) {
      return fail(begin, at_ - begin,
                  fmt::format("'{}' disagrees with itself: {:g} is {:g}°", slice(begin, at_), speed,
                              expected),
                  replaced(degrees_begin, at_, fmt::format("{:g}°", expected)));
    }
    return true;
  }

  bool read_decimal(double& value) {
    const char* first = text_.data() + at_;
    const char* last = text_.data() + text_.size();
    const auto [end, error] = std::from_chars(first, last, value);
    if (error != std::errc{} || !std::isfinite(value)) {
      const std::size_t length = std::max<std::size_t>(1, word_end(at_) - at_);
      const std::string_view found = text_.substr(at_, length);
      return fail(at_, found.size(),
                  error == std::errc::result_out_of_range
                      ? fmt::format("'{}' is beyond the range of numbers", found)
                      : fmt::format("'{}' is not a number; {} starts with one", found,
                                    with_article(kind_.name)),
                  {});
    }
    at_ += static_cast<std::size_t>(end - first);
    return true;
  }
  std::size_t word_end(std::size_t from) const {
    while (from < text_.size() && !is_space(text_[from])) ++from;
    return from;
  }

  // decimal | n/d | w n/d
  bool read_number(double& value) {
    const std::size_t begin = at_;
    const bool negative = take("-");
    if (!negative) take("+");
    const std::size_t digits = at_;
    if (at_ < text_.size() && (text_[at_] == '-' || text_[at_] == '+')) {
      return fail(begin, 2, "two signs stand before the number", replaced(begin, begin + 1, ""));
    }
    double first = 0;
    if (!read_decimal(first)) return false;
    if (at_ < text_.size() && text_[at_] == ',' && at_ + 1 < text_.size() &&
        is_digit(text_[at_ + 1])) {
      std::size_t end = at_ + 1;
      while (end < text_.size() && is_digit(text_[end])) ++end;
      return fail(digits, end - digits,
                  fmt::format("'{}' has a decimal comma; numbers here take a decimal point",
                              slice(digits, end)),
                  with_points(text_));
    }
    value = first;
    if (at_ < text_.size() && text_[at_] == '/' && at_ + 1 < text_.size() &&
        is_digit(text_[at_ + 1])) {
      if (!read_denominator(digits, first, value)) return false;
      const std::size_t fraction_end = at_;
      skip_space();
      if (at_ < text_.size() && is_digit(text_[at_]) && unit_end(at_) == at_) {
        const std::size_t whole = at_;
        const std::size_t end = word_end(at_);
        return fail(
            digits, end - digits,
            fmt::format("'{}' has the fraction before the whole number", slice(digits, end)),
            replaced(digits, end,
                     fmt::format("{} {}", slice(whole, end), slice(digits, fraction_end))));
      }
      at_ = fraction_end;
      if (value > 1) {
        // "125/1 s": the larger number on top and 1 below is a fraction upside down.
        const std::string_view written = slice(digits, fraction_end);
        const std::size_t slash = written.find('/');
        if (written.substr(slash + 1) == "1") {
          return fail(
              digits, written.size(),
              fmt::format("'{}' is {} whole; the fraction stands upside down", written,
                          written.substr(0, slash)),
              replaced(digits, fraction_end, fmt::format("1/{}", written.substr(0, slash))));
        }
      }
    } else {
      read_mixed_fraction(digits, first, value);
      if (!ok_) return false;
    }
    if (negative) value = -value;
    return true;
  }

  bool read_denominator(std::size_t begin, double numerator, double& value) {
    ++at_;  // the slash
    double denominator = 0;
    if (!read_decimal(denominator)) return false;
    if (!(denominator > 0)) {
      return fail(begin, at_ - begin, fmt::format("'{}' divides by zero", slice(begin, at_)), {});
    }
    value = numerator / denominator;
    return true;
  }

  // The "1/4" of "3 1/4"; leaves the text alone when no fraction follows.
  void read_mixed_fraction(std::size_t begin, double whole, double& value) {
    const std::size_t after_whole = at_;
    skip_space();
    std::size_t probe = at_;
    while (probe < text_.size() && is_digit(text_[probe])) ++probe;
    const bool fraction_follows = probe > at_ && at_ > after_whole && probe + 1 < text_.size() &&
                                  text_[probe] == '/' && is_digit(text_[probe + 1]);
    if (!fraction_follows) {
      at_ = after_whole;
      return;
    }
    const std::size_t fraction_begin = at_;
    double numerator = 0;
    double fraction = 0;
    if (!read_decimal(numerator) || !read_denominator(fraction_begin, numerator, fraction)) return;
    if (fraction >= 1) {
      const std::string_view written = slice(fraction_begin, at_);
      const std::string flipped = flipped_fraction(written);
      fail(fraction_begin, written.size(),
           fmt::format("the fraction '{}' after a whole number must be less than one", written),
           flipped.empty() ? "" : replaced(fraction_begin, at_, flipped));
      return;
    }
    if (slice(begin, after_whole).find_first_not_of("0123456789") != std::string_view::npos) {
      fail(begin, at_ - begin,
           fmt::format("'{}' mixes a decimal number and a fraction", slice(begin, at_)), {});
      return;
    }
    value = whole + fraction;
  }

  bool read_unit(double& base, std::size_t value_begin) {
    const std::size_t after_number = at_;
    skip_space();
    const std::size_t begin = at_;
    const std::size_t end = unit_end(begin);
    const std::string_view word = slice(begin, end);
    if (word.empty()) {
      const std::string_view first = kind_.units.front().spelling;
      return fail(
          value_begin, after_number - value_begin,
          fmt::format("'{}' has no unit; {} is needed, in {}", slice(value_begin, after_number),
                      with_article(kind_.name), unit_list(kind_)),
          replaced(after_number, after_number,
                   first == "x" ? std::string(first) : " " + std::string(first)));
    }
    if (const UnitName* unit = unit_named(kind_, word)) {
      base = unit->base;
      at_ = end;
      return true;
    }
    for (const QuantityKind* other : all_kinds()) {
      if (unit_named(*other, word) != nullptr) {
        return fail(begin, word.size(),
                    fmt::format("'{}' is a unit of {}; {} is needed, in {}", word, other->name,
                                with_article(kind_.name), unit_list(kind_)),
                    {});
      }
    }
    return fail(
        begin, word.size(),
        fmt::format("'{}' is not a unit of {}; known are {}", word, kind_.name, unit_list(kind_)),
        with_nearest_unit(begin, end));
  }
  std::string with_nearest_unit(std::size_t begin, std::size_t end) const {
    const std::string_view near = nearest_unit(kind_, slice(begin, end));
    return near.empty() ? "" : replaced(begin, end, near);
  }

  // A unit ends at a space, a tolerance sign or a digit; "g/cm3" and "1/m" are matched whole first.
  std::size_t unit_end(std::size_t begin) const {
    std::size_t best = begin;
    for (const UnitName& u : kind_.units) {
      if (text_.substr(begin).starts_with(u.spelling))
        best = std::max(best, begin + u.spelling.size());
    }
    std::size_t end = begin;
    while (end < text_.size() && !is_space(text_[end]) && !is_digit(text_[end]) &&
           !text_.substr(end).starts_with("±") && !text_.substr(end).starts_with("+/-") &&
           !text_.substr(end).starts_with("+-")) {
      ++end;
    }
    return std::max(best, end);
  }

  bool read_tolerance(Reading& reading) {
    skip_space();
    if (at_ == text_.size()) return true;
    const std::size_t sign_begin = at_;
    const bool signed_tolerance = take("±") || take("+/-") || take("+-");
    if (!signed_tolerance && !is_digit(text_[at_])) return true;
    skip_space();
    const std::size_t begin = at_;
    if (begin == text_.size()) {
      return fail(sign_begin, begin - sign_begin, "no tolerance follows '±'",
                  std::string(trimmed(text_.substr(0, sign_begin))));
    }
    double width = 0;
    if (!read_number(width)) return false;
    const std::size_t number_end = at_;
    skip_space();
    const std::size_t unit_begin = at_;
    const std::size_t end = unit_end(unit_begin);
    const std::string_view word = slice(unit_begin, end);
    double tolerance = width * unit_;
    if (word == "%") {
      tolerance = &kind_ == &kind_of<double>() && unit_ == 0.01
                      ? width * 0.01
                      : std::abs(reading.value) * width / 100;
      at_ = end;
    } else if (!signed_tolerance) {
      return fail(sign_begin, number_end - sign_begin,
                  fmt::format("'{}' follows the {}; write ± before a tolerance",
                              slice(sign_begin, number_end), kind_.name),
                  replaced(sign_begin, sign_begin, "± "));
    } else if (!word.empty()) {
      const UnitName* unit = unit_named(kind_, word);
      if (unit == nullptr) {
        return fail(unit_begin, word.size(),
                    fmt::format("'{}' is not a unit of {}; the tolerance takes the value's unit",
                                word, kind_.name),
                    with_nearest_unit(unit_begin, end));
      }
      tolerance = width * unit->base;
      at_ = end;
    } else {
      at_ = number_end;
    }
    if (!(tolerance > 0) || !std::isfinite(tolerance)) {
      return fail(begin, number_end - begin,
                  fmt::format("the tolerance '{}' must be above zero", slice(begin, number_end)),
                  {});
    }
    if (sign_ == Sign::positive && tolerance >= reading.value) {
      return fail(begin, number_end - begin,
                  fmt::format("the tolerance '{}' is as large as the {} itself",
                              slice(begin, number_end), kind_.name),
                  {});
    }
    reading.tolerance = tolerance;
    return true;
  }

  std::string_view text_;
  const QuantityKind& kind_;
  Sign sign_;
  std::size_t at_ = 0;
  double leading_unit_ = 1;
  double unit_ = 1;
  bool ok_ = true;
  NotationFault fault_;
};

}  // namespace

std::variant<Reading, NotationFault> read_quantity(std::string_view text, const QuantityKind& kind,
                                                   Sign sign) {
  auto result = Walk(text, kind, sign).run();
  auto* fault = std::get_if<NotationFault>(&result);
  if (fault == nullptr) return result;
  const auto reads = [&](std::string_view remedy) {
    return std::holds_alternative<Reading>(Walk(remedy, kind, sign).run());
  };
  if (PlainSigns plain = with_plain_signs(text); plain.length > 0 && reads(plain.text)) {
    return NotationFault{plain.begin, plain.length,
                         fmt::format("'{}' is written '{}' here",
                                     text.substr(plain.begin, plain.length), plain.plain),
                         std::move(plain.text)};
  }
  // A text with two faults gets no remedy: half a remedy is none.
  if (!reads(fault->remedy)) fault->remedy.clear();
  return result;
}

}  // namespace backfit
