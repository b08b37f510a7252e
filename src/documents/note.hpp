// SPDX-License-Identifier: MIT
// Signs that rank a message, and boxed notes that a reader must not miss.
#pragma once
#include <string>

#include "documents/sheet.hpp"

namespace backfit::paper {

// Told apart by shape and letter, not by colour: a filled square with a bar, a triangle with
// "!", a circle with "i".
enum class Sign { blocker, warning, note };

inline constexpr Length sign_size = 4 * mm;  // width and height at most

void draw(Sheet& sheet, PagePoint centre, Sign sign);

// A box with the sign, a bold title and text that wraps. Both give the height, for
// `width` > 30 mm.
struct BoxedNote {
  Sign sign = Sign::warning;
  std::string title, text;
};
Length height_of(const Fonts& fonts, const BoxedNote& note, Length width);
Length draw(Sheet& sheet, PagePoint corner, const BoxedNote& note, Length width);

}  // namespace backfit::paper
