// SPDX-License-Identifier: MIT
// What an owner meant by a word or sign that a quantity may not bear.
#pragma once
#include <string>
#include <string_view>

#include "quantity/notation.hpp"

namespace backfit {

// "a length", "an f-number".
std::string with_article(std::string_view noun);

// The unit of `kind` spelt `word`, or null.
const UnitName* unit_named(const QuantityKind& kind, std::string_view word);

// "mm, cm, m": the spellings of a kind's units.
std::string unit_list(const QuantityKind& kind);

// The spelling nearest to the misspelt unit `word`. Empty when none is near, and for "km" or "F",
// which differ from a known unit by a prefix: the nearest would be a thousand times off.
std::string_view nearest_unit(const QuantityKind& kind, std::string_view word);

// `text` with its decimal commas made points.
std::string with_points(std::string_view text);

// "3/4" of "4/3", when that makes it a fraction of a rule: halves to sixty-fourths. Else empty.
std::string flipped_fraction(std::string_view fraction);

// `text` with each sign that only looks right (a typographic minus, "¼", a no-break space) made
// the one that is read, and where the first of them stands, in bytes; length 0 without any.
struct PlainSigns {
  std::string text;
  std::size_t begin = 0, length = 0;
  std::string_view plain;  // what the first one is written as
};
PlainSigns with_plain_signs(std::string_view text);

}  // namespace backfit
