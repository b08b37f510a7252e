// SPDX-License-Identifier: MIT
// A paper of several A4 pages, and its bytes as PDF, SVG or PNG.
#pragma once
#include <deque>
#include <filesystem>
#include <string>

#include "documents/sheet.hpp"

namespace backfit::paper {

// The part of the page between the running head and the running foot.
inline constexpr Length margin = 15 * mm;
inline constexpr Length content_width = page_width - 2 * margin;
inline constexpr Length content_top = 23 * mm, content_bottom = 278 * mm;

// Words that repeat on each page. The foot ends with "Page n of N".
struct RunningWords {
  std::string title;       // left of the head; also the title a viewer shows
  std::string head_right;  // right of the head
  std::string foot;        // left of the foot
};

// The same marks give the same bytes: no time, no name of a user or a machine goes in.
class Document {
 public:
  // Throws std::runtime_error as Fonts does.
  Document(const std::filesystem::path& font_folder, RunningWords words);

  // A new last page, empty but for the running words. The reference stays good.
  Sheet& add_page();
  std::size_t page_count() const { return pages_.size(); }
  const Sheet& page(std::size_t index) const { return pages_.at(index); }
  const Fonts& fonts() const { return fonts_; }

  // All pages, fonts embedded, text selectable, marked to be printed without scaling.
  // Throws std::runtime_error when the drawing library fails. Requires one page or more.
  std::string pdf() const;
  // One page, letters as outlines, in millimetres. Requires index < page_count().
  std::string svg(std::size_t index) const;
  // The part of it that is `width` by `height` from `corner` on.
  std::string svg(std::size_t index, PagePoint corner, Length width, Length height) const;
  // One page on white, `pixel` of paper for each pixel: inch / 110 looks at it at 110 dpi.
  // Requires index < page_count() and pixel >= 0.01 mm.
  std::string png(std::size_t index, Length pixel) const;

 private:
  void paint(_cairo* cairo, std::size_t index, bool tagged) const;

  Fonts fonts_;
  RunningWords words_;
  std::deque<Sheet> pages_;
};

}  // namespace backfit::paper
