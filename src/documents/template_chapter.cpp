// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/drawing.hpp"

namespace backfit::paper {
namespace {

constexpr Length ruler_beside = 20 * mm, ruler_below = 12 * mm;
constexpr Length edge_air = 1 * mm;  // around the plate's outline
constexpr Length overlap = 15 * mm;  // of neighbouring sheets
constexpr Length largest_width = content_width - ruler_beside;
constexpr Length largest_height = 218 * mm;

// One sheet's share of the template: where it begins, from the template's upper left corner.
struct Tile {
  int column, row;
  Length left, top;
};

// Sheets of one size, as few as hold the plate with overlaps.
struct Tiling {
  int columns, rows;
  Length width, height;

  explicit Tiling(const BackPlate& plate) {
    const auto split = [](Length whole, Length largest, int& count, Length& each) {
      count = whole <= largest
                  ? 1
                  : static_cast<int>(std::ceil((whole - overlap) / (largest - overlap)));
      each = (whole + (count - 1) * overlap) / count;
    };
    split(plate.width + 2 * edge_air, largest_width, columns, width);
    split(plate.height + 2 * edge_air, largest_height, rows, height);
  }
  int count() const { return columns * rows; }
  Tile tile(int column, int row) const {
    return {column, row, column * (width - overlap), row * (height - overlap)};
  }
};

void draw_holes(Sheet& sheet, const View& view, const BackPlate::CountersunkHoles& holes,
                LineStyle head) {
  for (const PlatePoint& p : holes.places) {
    const PagePoint at = view({p.x, p.y});
    sheet.stroke(circle(at, holes.hole_diameter / 2), LineStyle::border);
    sheet.stroke(circle(at, holes.head_diameter / 2), head);
    centre_cross(sheet, at, holes.head_diameter / 2);
  }
}

void draw_plate(Sheet& sheet, const View& view, const BackPlate& p) {
  const auto box = [&](PlatePoint centre, Length width, Length height, Length radius,
                       LineStyle style) {
    sheet.stroke(rectangle(view({centre.x - width / 2, centre.y + height / 2}),
                           view({centre.x + width / 2, centre.y - height / 2}), radius),
                 style);
  };
  const BackPlate::Tongue& t = p.tongue;
  box({}, p.width, p.height, p.corner_radius, LineStyle::border);
  box({}, p.window_width, p.window_height, 0 * mm, LineStyle::border);
  box({}, t.inner_width, t.inner_height, t.inner_corner_radius, LineStyle::hidden);
  box({}, t.inner_width + 2 * t.wall, t.inner_height + 2 * t.wall,
      t.inner_corner_radius > 0 * mm ? t.inner_corner_radius + t.wall : t.wall, LineStyle::hidden);
  box(p.rib_groove.centre, p.rib_groove.size_x, p.rib_groove.size_y, 0 * mm, LineStyle::border);
  draw_holes(sheet, view, p.screws, LineStyle::dimension);
  draw_holes(sheet, view, p.fence, LineStyle::hidden);
  centre_cross(sheet, view(PartPoint{}), 8 * mm);
}

void draw_words(Sheet& sheet, const View& view, const BackPlate& p) {
  const Length width = p.window_width - 6 * mm;
  if (width < 30 * mm || p.window_height < 60 * mm) return;
  TextStyle style = small_text;
  style.align = Align::centre;
  const PagePoint at = view({0 * mm, p.window_height / 2});
  sheet.stroke(polyline({{at.x, at.y + 15 * mm}, {at.x, at.y + 7 * mm}}), LineStyle::border);
  sheet.fill(polygon({{at.x, at.y + 4 * mm},
                      {at.x - 1.2 * mm, at.y + 7.5 * mm},
                      {at.x + 1.2 * mm, at.y + 7.5 * mm}}),
             Ink::black);
  sheet.text({at.x - width / 2, at.y + 16 * mm},
             "up\nseen from behind\ndashed: tongue and heads on the front face", style, width);
}

// Crosses in the middle of each overlap, in the same places of the plate on both sheets.
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

void draw_tile(Sheet& sheet, PagePoint at, const BackPlate& plate, const Tiling& tiling,
               const Tile& tile) {
  const PagePoint opposite{at.x + tiling.width, at.y + tiling.height};
  const View view{{at.x - tile.left + edge_air + plate.width / 2,
                   at.y - tile.top + edge_air + plate.height / 2},
                  1};
  if (tiling.count() == 1) {
    draw_plate(sheet, view, plate);
    draw_words(sheet, view, plate);
  } else {
    Sheet inside(sheet.fonts());
    draw_plate(inside, view, plate);
    sheet.inset(rectangle(at, opposite), std::move(inside));
    sheet.stroke(rectangle(at, opposite), LineStyle::adjacent, Ink::grey);
    draw_overlap_marks(sheet, at, tiling, tile);
  }
  check_ruler(sheet, {at.x + 3 * mm, opposite.y + 3 * mm}, Along::x);
  check_ruler(sheet, {opposite.x + 3 * mm, at.y + 1 * mm}, Along::y);
}

std::string sheet_words(const Tiling& tiling, const Tile& tile) {
  return fmt::format(
      "Sheet {} of {}: column {} of {} from the left, row {} of {} from the top, seen from behind, "
      "up is up. Cut along the chain lines and lay the sheets over each other so that their "
      "crosses meet.",
      tile.row * tiling.columns + tile.column + 1, tiling.count(), tile.column + 1, tiling.columns,
      tile.row + 1, tiling.rows);
}

}  // namespace

void add_template(Flow& flow, const Report& report) {
  const BackPlate& plate = *report.assembly.plate;
  const Tiling tiling(plate);
  for (int row = 0; row < tiling.rows; ++row) {
    for (int column = 0; column < tiling.columns; ++column) {
      const Tile tile = tiling.tile(column, row);
      flow.new_page();
      flow.heading("Template, 1:1, seen from behind");
      flow.paragraph(
          "Print at 100 %, not fitted to the page. Measure both rulers: if one is off by 0.3 mm or "
          "more over its 100 mm, this sheet is no good.",
          small_text);
      if (tiling.count() > 1) flow.paragraph(sheet_words(tiling, tile), small_text);
      flow.block(tiling.height + ruler_below, [&plate, tiling, tile](Sheet& sheet, PagePoint at) {
        draw_tile(sheet, at, plate, tiling, tile);
      });
    }
  }
}

}  // namespace backfit::paper
