// SPDX-License-Identifier: MIT
#include "documents/true_size.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backfit::paper {
namespace {

constexpr Length ruler_beside = 20 * mm, ruler_below = 12 * mm;
constexpr Length edge_air = 1 * mm;  // around the drawing
constexpr Length overlap = 15 * mm;  // of neighbouring sheets
constexpr Length largest_width = content_width - ruler_beside;
constexpr Length largest_height = 218 * mm;

// One sheet's share: where it begins, from the drawing's upper left corner.
struct Tile {
  int column, row;
  Length left, top;
};

// Sheets of one size, as few as hold the drawing with overlaps.
struct Tiling {
  int columns, rows;
  Length width, height;

  explicit Tiling(const TrueSize& drawing) {
    const auto split = [](Length whole, Length largest, int& count, Length& each) {
      count = whole <= largest
                  ? 1
                  : static_cast<int>(std::ceil((whole - overlap) / (largest - overlap)));
      each = (whole + (count - 1) * overlap) / count;
    };
    split(drawing.width + 2 * edge_air, largest_width, columns, width);
    split(drawing.height + 2 * edge_air, largest_height, rows, height);
  }
  int count() const { return columns * rows; }
  // So that the rulers don't cross beside a small drawing.
  Length height_with_ruler() const { return std::max(height, 104 * mm); }
  Tile tile(int column, int row) const {
    return {column, row, column * (width - overlap), row * (height - overlap)};
  }
};

// Crosses in the middle of each overlap, in the same places of the drawing on both sheets.
void draw_overlap_marks(Sheet& sheet, PagePoint origin, const Tiling& tiling, const Tile& tile) {
  const auto mark = [&](Length x, Length y) {
    const PagePoint at{origin.x + x, origin.y + y};
    const Length arm = 5 * mm;
    sheet.stroke(polyline({{at.x - arm, at.y}, {at.x + arm, at.y}}), LineStyle::dimension);
    sheet.stroke(polyline({{at.x, at.y - arm}, {at.x, at.y + arm}}), LineStyle::dimension);
    sheet.stroke(polygon({{at.x, at.y - arm / 2},
                          {at.x + arm / 2, at.y},
                          {at.x, at.y + arm / 2},
                          {at.x - arm / 2, at.y}}),
                 LineStyle::dimension);
  };
  for (const int side : {0, 1}) {
    const bool left = side == 0;
    if (left ? tile.column > 0 : tile.column + 1 < tiling.columns) {
      const Length x = left ? overlap / 2 : tiling.width - overlap / 2;
      for (const double share : {0.3, 0.7}) mark(x, share * tiling.height);
    }
    if (left ? tile.row > 0 : tile.row + 1 < tiling.rows) {
      const Length y = left ? overlap / 2 : tiling.height - overlap / 2;
      for (const double share : {0.3, 0.7}) mark(share * tiling.width, y);
    }
  }
}

void draw_tile(Sheet& sheet, PagePoint at, const TrueSize& drawing, const Tiling& tiling,
               const Tile& tile) {
  const PagePoint opposite{at.x + tiling.width, at.y + tiling.height};
  const View view{{at.x - tile.left + edge_air - drawing.low.x,
                   at.y - tile.top + edge_air + drawing.height + drawing.low.y},
                  1};
  if (tiling.count() == 1) {
    drawing.draw(sheet, view);
    if (drawing.words) drawing.words(sheet, view);
  } else {
    Sheet inside(sheet.fonts());
    drawing.draw(inside, view);
    sheet.inset(rectangle(at, opposite), std::move(inside));
    sheet.stroke(rectangle(at, opposite), LineStyle::adjacent, Ink::grey);
    draw_overlap_marks(sheet, at, tiling, tile);
  }
  check_ruler(sheet, {at.x + 3 * mm, at.y + tiling.height_with_ruler() + 3 * mm}, Along::x);
  check_ruler(sheet, {opposite.x + 3 * mm, at.y + 1 * mm}, Along::y);
}

std::string sheet_words(const Tiling& tiling, const Tile& tile) {
  return fmt::format(
      "Sheet {} of {}: column {} of {} from the left, row {} of {} from the top. Cut along the "
      "chain lines and lay the sheets over each other so that their "
      "crosses meet.",
      tile.row * tiling.columns + tile.column + 1, tiling.count(), tile.column + 1, tiling.columns,
      tile.row + 1, tiling.rows);
}

}  // namespace

void add_true_size(Flow& flow, const TrueSize& drawing) {
  const Tiling tiling(drawing);
  for (int row = 0; row < tiling.rows; ++row) {
    for (int column = 0; column < tiling.columns; ++column) {
      const Tile tile = tiling.tile(column, row);
      flow.new_page();
      flow.heading(drawing.heading);
      flow.paragraph(
          "Print at 100 %, not fitted to the page. Measure both rulers: if one is off by 0.3 mm or "
          "more over its 100 mm, this sheet is no good.",
          small_text);
      if (tiling.count() > 1) flow.paragraph(sheet_words(tiling, tile), small_text);
      flow.block(tiling.height_with_ruler() + ruler_below,
                 [drawing, tiling, tile](Sheet& sheet, PagePoint at) {
                   draw_tile(sheet, at, drawing, tiling, tile);
                 });
    }
  }
}

}  // namespace backfit::paper
