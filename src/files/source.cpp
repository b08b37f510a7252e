// SPDX-License-Identifier: MIT
#include "files/source.hpp"

#include <algorithm>
#include <utility>

namespace backfit {

SourceText::SourceText(std::filesystem::path path, std::string text)
    : path_(std::move(path)), text_(std::move(text)), starts_{0} {
  for (std::size_t i = 0; i < text_.size(); ++i) {
    if (text_[i] == '\n') starts_.push_back(i + 1);
  }
}

std::string_view SourceText::line(std::size_t number) const {
  if (number == 0 || number > starts_.size()) return {};
  const std::size_t begin = starts_[number - 1];
  const std::size_t end = text_.find('\n', begin);
  std::string_view line = std::string_view(text_).substr(begin, end - begin);
  if (end != std::string::npos && line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

Place place_within(std::shared_ptr<const SourceText> source, std::size_t line, std::size_t column,
                   std::size_t length) {
  line = std::clamp<std::size_t>(line, 1, source->line_count());
  const std::size_t width = code_points(source->line(line));
  column = std::clamp<std::size_t>(column, 1, width + 1);
  length = std::clamp<std::size_t>(length, 1, std::max<std::size_t>(1, width + 1 - column));
  return {std::move(source), line, column, length};
}

std::string_view code_point_slice(std::string_view text, std::size_t begin, std::size_t count) {
  const auto offset = [](std::string_view part, std::size_t points) {
    std::size_t i = 0;
    while (i < part.size()) {
      if ((static_cast<unsigned char>(part[i]) & 0xC0U) != 0x80U && points-- == 0) break;
      ++i;
    }
    return i;
  };
  const std::string_view rest = text.substr(offset(text, begin));
  return rest.substr(0, offset(rest, count));
}

std::size_t code_points(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(
      text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::size_t first_invalid_utf8(std::string_view text) {
  std::size_t i = 0;
  while (i < text.size()) {
    const auto lead = static_cast<unsigned char>(text[i]);
    std::size_t extra = 0;
    unsigned code = lead;
    if (lead >= 0xF0 && lead <= 0xF4) {
      extra = 3;
      code = lead & 0x07U;
    } else if (lead >= 0xE0 && lead < 0xF0) {
      extra = 2;
      code = lead & 0x0FU;
    } else if (lead >= 0xC2 && lead < 0xE0) {
      extra = 1;
      code = lead & 0x1FU;
    } else if (lead >= 0x80) {
      return i;
    }
    if (i + extra >= text.size()) return i;
    for (std::size_t k = 1; k <= extra; ++k) {
      const auto next = static_cast<unsigned char>(text[i + k]);
      if ((next & 0xC0U) != 0x80U) return i;
      code = (code << 6U) | (next & 0x3FU);
    }
    const bool too_long = (extra == 2 && code < 0x800) || (extra == 3 && code < 0x10000);
    if (too_long || (code >= 0xD800 && code < 0xE000) || code > 0x10FFFF) return i;
    i += extra + 1;
  }
  return std::string_view::npos;
}

}  // namespace backfit
