// SPDX-License-Identifier: MIT
#include "documents/note.hpp"

#include <algorithm>
#include <cassert>

namespace backfit::paper {

namespace {

constexpr Length padding = 2 * mm, gutter = 9 * mm;

Length text_width(Length width) {
  assert(width > 30 * mm);
  return width - gutter - padding;
}

}  // namespace

void draw(Sheet& sheet, PagePoint centre, Sign sign) {
  const Length r = sign_size / 2, x = centre.x, y = centre.y;
  TextStyle letter = strong_text;
  letter.align = Align::centre;
  switch (sign) {
    case Sign::blocker:
      sheet.fill(rectangle({x - r, y - r}, {x + r, y + r}, 0.5 * mm), Ink::accent);
      sheet.fill(rectangle({x - 0.6 * r, y - 0.2 * r}, {x + 0.6 * r, y + 0.2 * r}), Ink::white);
      break;
    case Sign::warning:
      letter.size = 7.5 * point;
      sheet.stroke(polygon({{x, y - 0.9 * r}, {x + r, y + 0.8 * r}, {x - r, y + 0.8 * r}}),
                   LineStyle::border, Ink::accent);
      sheet.label({x, y + 0.65 * r}, "!", letter);
      break;
    case Sign::note:
      letter.size = 7.5 * point;
      sheet.stroke(circle(centre, 0.9 * r), LineStyle::border);
      sheet.label({x, y + 0.36 * letter.size}, "i", letter);
      break;
  }
}

Length height_of(const Fonts& fonts, const BoxedNote& note, Length width) {
  const Length inner = fonts.size(note.title, strong_text, text_width(width)).height +
                       fonts.size(note.text, body_text, text_width(width)).height + 0.5 * mm;
  return std::max(inner, sign_size) + 2 * padding;
}

Length draw(Sheet& sheet, PagePoint corner, const BoxedNote& note, Length width) {
  const Length height = height_of(sheet.fonts(), note, width);
  const PagePoint opposite{corner.x + width, corner.y + height};
  sheet.fill(rectangle(corner, opposite), Ink::black, 0.05);
  sheet.stroke(rectangle(corner, opposite), LineStyle::border);
  draw(sheet, PagePoint{corner.x + gutter / 2, corner.y + padding + sign_size / 2}, note.sign);
  const Length x = corner.x + gutter;
  Length y = corner.y + padding;
  y += sheet.text({x, y}, note.title, strong_text, text_width(width)) + 0.5 * mm;
  sheet.text({x, y}, note.text, body_text, text_width(width));
  return height;
}

}  // namespace backfit::paper
