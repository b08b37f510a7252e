// SPDX-License-Identifier: MIT
#include "documents/table.hpp"

#include <algorithm>
#include <cassert>

namespace backfit::paper {

namespace {

constexpr Length side = 1.5 * mm, above = 1 * mm;

TextStyle cell_style(const Column& column, bool bold) {
  TextStyle style = small_text;
  style.bold = bold;
  style.align = column.align;
  return style;
}

std::vector<std::string> heads(const Table& table) {
  std::vector<std::string> result;
  for (const Column& column : table.columns) result.push_back(column.head);
  return result;
}

Length cells_height(const Fonts& fonts, const Table& table, const std::vector<std::string>& cells,
                    bool bold) {
  assert(cells.size() == table.columns.size());
  Length highest;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Column& column = table.columns[i];
    const Length width = column.width - 2 * side;
    highest = std::max(highest, fonts.size(cells[i], cell_style(column, bold), width).height);
  }
  return highest + 2 * above;
}

Length draw_cells(Sheet& sheet, PagePoint corner, const Table& table,
                  const std::vector<std::string>& cells, bool bold) {
  const Length height = cells_height(sheet.fonts(), table, cells, bold);
  Length x = corner.x;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Column& column = table.columns[i];
    if (!cells[i].empty()) {
      sheet.text({x + side, corner.y + above}, cells[i], cell_style(column, bold),
                 column.width - 2 * side);
    }
    x += column.width;
  }
  sheet.stroke(polyline({{corner.x, corner.y + height}, {x, corner.y + height}}),
               bold ? LineStyle::border : LineStyle::dimension);
  return height;
}

}  // namespace

Length width_of(const Table& table) {
  Length width;
  for (const Column& column : table.columns) width += column.width;
  return width;
}

Length head_height(const Fonts& fonts, const Table& table) {
  return cells_height(fonts, table, heads(table), true);
}

Length row_height(const Fonts& fonts, const Table& table, std::size_t row) {
  return cells_height(fonts, table, table.rows.at(row), false);
}

Length draw_head(Sheet& sheet, PagePoint corner, const Table& table) {
  return draw_cells(sheet, corner, table, heads(table), true);
}

Length draw_row(Sheet& sheet, PagePoint corner, const Table& table, std::size_t row) {
  return draw_cells(sheet, corner, table, table.rows.at(row), false);
}

Length draw(Sheet& sheet, PagePoint corner, const Table& table) {
  Length used = draw_head(sheet, corner, table);
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    used += draw_row(sheet, {corner.x, corner.y + used}, table, row);
  }
  return used;
}

Table with_rows_within(const Fonts& fonts, Table table, Length limit) {
  assert(limit >= 10 * mm);
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    if (row_height(fonts, table, row) <= limit) continue;
    std::vector<std::string> rest(table.columns.size());
    for (std::size_t i = 0; i < rest.size(); ++i) {
      const Column& column = table.columns[i];
      const TextStyle style = cell_style(column, false);
      const Length width = column.width - 2 * side;
      std::string kept;
      for (const std::string& line : fonts.lines(table.rows[row][i], style, width)) {
        std::string longer = kept;
        if (!longer.empty()) longer += '\n';
        longer += line;
        const bool fits = fonts.size(longer, style, width).height + 2 * above <= limit;
        if (fits && rest[i].empty()) {
          kept = std::move(longer);
        } else {
          if (!rest[i].empty()) rest[i] += '\n';
          rest[i] += line;
        }
      }
      table.rows[row][i] = kept;
    }
    table.rows.insert(table.rows.begin() + static_cast<std::ptrdiff_t>(row) + 1, std::move(rest));
  }
  return table;
}

}  // namespace backfit::paper
