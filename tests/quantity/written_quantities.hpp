// SPDX-License-Identifier: MIT
// Texts that people might write for a quantity, good and bad, the same on every run.
#pragma once
#include <random>
#include <span>
#include <string>
#include <string_view>

#include "quantity/notation.hpp"

namespace backfit {

class Writer {
 public:
  // A text for `kind`: most of it well formed, some of it not.
  std::string text(const QuantityKind& kind) {
    const std::string unit = one_of(4) ? unit_of(kind) : any_unit();
    std::string out =
        kind.units.front().before ? unit + space() + number() : number() + space() + unit;
    if (kind.units.front().before && one_in(3)) out += "/" + number() + "°";
    if (one_of(2)) out += space() + pick({"±", "+/-", "+-", ""}) + space() + number();
    if (one_in(3)) out += space() + (one_in(2) ? "%" : any_unit());
    if (one_in(12)) out.erase(random_() % out.size(), 1);
    if (one_in(12))
      out.insert(random_() % out.size(), pick({" ", ",", "/", "-", "x", "½", "−", "9"}));
    return out;
  }

 private:
  bool one_in(unsigned n) { return random_() % n == 0; }
  bool one_of(unsigned n) { return !one_in(n); }
  std::string pick(std::initializer_list<const char*> list) {
    return *(list.begin() + random_() % list.size());
  }
  std::string space() { return pick({"", " ", " ", "  "}); }
  std::string number() {
    return pick({"73",    "73.0",  "0.1",   "7.25", "3 1/4", "4 13/64", "1/125", "125/1",
                 "5/4",   "3 5/4", "1/4 3", "0",    "-5",    "+5",      "1e2",   "73,5",
                 "1e400", "3/0",   "",      "5",    "400",   "27"});
  }
  std::string unit_of(const QuantityKind& kind) {
    return std::string(kind.units[random_() % kind.units.size()].spelling);
  }
  std::string any_unit() {
    return one_in(2) ? pick({"mn", "km", "F", "foot", "\u00A0mm", "μm", "sec", "oh"})
                     : unit_of(*all_kinds()[random_() % all_kinds().size()]);
  }

  std::mt19937 random_{20};
};

inline bool reads(std::string_view text, const QuantityKind& kind, Sign sign = Sign::any) {
  return std::holds_alternative<Reading>(read_quantity(text, kind, sign));
}

}  // namespace backfit
