// SPDX-License-Identifier: MIT
// Quantities as the trade writes them: "114.3 mm ± 0.2", "3 1/4 in", "1/125 s", "f/8.8", "47 kΩ
// 5%".
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>

#include "quantity/measured.hpp"
#include "quantity/quantity.hpp"

namespace backfit {

// One spelling of a unit and how many base units it is. `before` marks a spelling that stands
// before its number, as "f/" and "ISO" do.
struct UnitName {
  std::string_view spelling;
  double base = 1;
  bool before = false;
};

// One kind of quantity: what a message calls it, the spellings it may bear (the first is the one
// offered), and a well-formed example.
struct QuantityKind {
  std::string_view name;
  std::span<const UnitName> units;
  std::string_view example;
};

// The kind for each type that files may hold: Length, Time, Angle, Resistance, Capacitance,
// Voltage, Current, Dioptre, MassDensity, Illuminance, FNumber, IsoSpeed, and double for a pure
// factor ("2.2x", "5 %").
template <class Q>
const QuantityKind& kind_of();

std::span<const QuantityKind* const> all_kinds();

enum class Sign { positive, not_negative, any };

// A quantity's text as read, in base units of its kind. `tolerance` is the half-width after "±"
// (or the per cent after the value), empty when none was written.
struct Reading {
  double value = 0;
  std::optional<double> tolerance;
};

// What is wrong in a quantity's text: the guilty bytes, one sentence with what was found and what
// is needed, and the whole text put right when that can be told (else empty).
struct NotationFault {
  std::size_t begin = 0, length = 0;
  std::string message;
  std::string remedy;
};

// Reads `text` as a quantity of `kind`: [sign] number unit [± number [unit | %]], where a number
// is a decimal, a fraction or a whole number and a fraction. A fault for anything else, for a
// value that `sign` forbids and for a tolerance that isn't positive or exceeds a positive value.
std::variant<Reading, NotationFault> read_quantity(std::string_view text, const QuantityKind& kind,
                                                   Sign sign);

// Regular expression (ECMA-262, as JSON Schema uses) that well-formed texts of `kind` match.
std::string notation_pattern(const QuantityKind& kind);

// The member of `names` that `word` most likely means: at most two edits away (one for short
// words), empty when none is near.
std::string_view nearest_name(std::string_view word, std::span<const std::string_view> names);

// Half-width of a 95 % interval in standard uncertainties: the normal value 1.96
// (JCGM 100:2008, table G.1).
inline constexpr double coverage_95 = 1.959963984540054;

// `value` with `decimals` digits after the point and no negative zero.
std::string fixed(double value, int decimals);
// "8.63 mm"; "1.14 m" from one metre on.
std::string text(Length value, int decimals = 2);
// "690 mm", "1.14 m", "infinity": a distance to a subject, to the millimetre below one metre.
std::string distance_text(Length distance);
// "8.63 mm ± 0.27": value and the half-width of its 95 % interval, both rounded so that the
// half-width keeps two figures.
std::string text_with_u(Length value, Length standard_uncertainty);
// The same in millimetres without the unit: "8.63 ± 0.27".
std::string mm_with_u(Length value, Length standard_uncertainty);
// "97 %"; "over 99.9 %" and "under 0.1 %" at the ends, since draws can't tell more.
std::string odds_text(double probability);
// "f/8.8".
std::string text(FNumber number);

}  // namespace backfit
