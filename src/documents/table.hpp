// SPDX-License-Identifier: MIT
// A table of words and numbers with a bold head and thin rules.
#pragma once
#include <string>
#include <vector>

#include "documents/sheet.hpp"

namespace backfit::paper {

struct Column {
  std::string head;
  Length width;               // with 1.5 mm of air on either side of the words
  Align align = Align::left;  // right for numbers
};

// Requires each row to have a cell for each column; columns wider than 4 mm.
struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
};

Length width_of(const Table& table);

// The head, or one row with a thin rule below it: height of the highest wrapped cell with 1 mm
// of air above and below. draw_ returns the height used, which height_of gives beforehand.
Length head_height(const Fonts& fonts, const Table& table);
Length row_height(const Fonts& fonts, const Table& table, std::size_t row);
Length draw_head(Sheet& sheet, PagePoint corner, const Table& table);
Length draw_row(Sheet& sheet, PagePoint corner, const Table& table, std::size_t row);

// The whole table with its upper left corner at `corner`. Returns the height used.
Length draw(Sheet& sheet, PagePoint corner, const Table& table);

// `table` with each row that is higher than `limit` cut into several rows of less. Flow uses it
// for rows that no page could hold. Requires limit >= 10 mm.
Table with_rows_within(const Fonts& fonts, Table table, Length limit);

}  // namespace backfit::paper
