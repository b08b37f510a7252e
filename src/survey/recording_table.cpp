// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>

#include "survey/recording.hpp"

namespace backfit {
namespace {

constexpr std::size_t least_rows = 64, most_rows = 50'000'000, most_columns = 65, most_faults = 20;

// How columns part and decimals are written.
struct Style {
  char separator;  // 0: there is one column
  bool comma;      // decimals take a comma
};
constexpr std::array<Style, 8> styles{{{'\t', false},
                                       {'\t', true},
                                       {';', false},
                                       {';', true},
                                       {',', false},
                                       {' ', false},
                                       {0, false},
                                       {0, true}}};

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blank = " \t\r\"";
  const std::size_t first = text.find_first_not_of(blank);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blank) - first + 1);
}

// The cells of a line; an empty one at its end, as some instruments write, is left out.
void split(std::string_view line, char separator, std::vector<std::string_view>& cells) {
  cells.clear();
  if (separator == ' ') {
    std::size_t at = 0;
    while ((at = line.find_first_not_of(' ', at)) != std::string_view::npos) {
      const std::size_t end = std::min(line.find(' ', at), line.size());
      cells.push_back(line.substr(at, end - at));
      at = end;
    }
    return;
  }
  std::size_t at = 0;
  for (;;) {
    const std::size_t end = separator == 0 ? line.npos : line.find(separator, at);
    cells.push_back(line.substr(at, end - at));
    if (end == line.npos) break;
    at = end + 1;
  }
  if (cells.size() > 1 && trimmed(cells.back()).empty()) cells.pop_back();
}

// A plain number, which may be no finite one ("nan").
std::optional<double> number_of(std::string_view cell, bool comma) {
  cell = trimmed(cell);
  if (cell.starts_with('+')) cell.remove_prefix(1);
  std::array<char, 64> copy{};
  if (cell.empty() || cell.size() > copy.size()) return {};
  for (std::size_t i = 0; i < cell.size(); ++i) {
    if (comma && cell[i] == '.') return {};
    copy[i] = comma && cell[i] == ',' ? '.' : cell[i];
  }
  double value = 0;
  const char* end = copy.data() + cell.size();
  const auto [stop, fault] = std::from_chars(copy.data(), end, value);
  if (stop != end) return {};
  if (fault == std::errc::result_out_of_range) return std::numeric_limits<double>::infinity();
  return fault == std::errc{} ? std::optional(value) : std::nullopt;
}

// Bytes that aren't UTF-8 as Latin-1.
std::string as_utf_8(std::string text) {
  if (first_invalid_utf8(text) == std::string::npos) return text;
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80) {
      out += c;
    } else {
      out += static_cast<char>(0xC0U | (byte >> 6U));
      out += static_cast<char>(0x80U | (byte & 0x3FU));
    }
  }
  return out;
}

// The unit of time that a cell of the head names: "ms", "(ms)", "Time [ms]".
std::optional<Time> unit_in(std::string_view cell) {
  cell = trimmed(cell);
  const std::size_t open = cell.find_last_of("([");
  if (open != std::string_view::npos) {
    const std::size_t close = cell.find_first_of(")]", open);
    cell = trimmed(cell.substr(open + 1, close == cell.npos ? close : close - open - 1));
  }
  static constexpr std::pair<std::string_view, Time> units[] = {
      {"s", second}, {"sec", second}, {"S", second}, {"ms", ms},       {"us", us},
      {"µs", us},    {"μs", us},      {"uS", us},    {"ns", 1e-3 * us}};
  for (const auto& [name, unit] : units) {
    if (cell == name) return unit;
  }
  return {};
}

class TableReader {
 public:
  TableReader(const std::filesystem::path& path, std::string text, std::optional<Time> step,
              Diagnostics& diagnostics)
      : path_(path), text_(as_utf_8(std::move(text))), step_(step), diagnostics_(diagnostics) {}

  std::optional<Recording> read() {
    if (!find_table() || !read_rows()) return {};
    Recording r;
    r.format =
        fmt::format("table of {} column{}", columns_.size(), columns_.size() == 1 ? "" : "s");
    if (columns_.size() == 1) {
      if (!step_) {
        fault(first_row_, 1, 1, "the table has one column, and no times",
              "add --step with the time between two rows, such as --step \"10 us\"");
        return {};
      }
      r.interval = *step_;
    } else {
      if (step_) {
        fault(first_row_, 1, 1, "the table has times of its own", "leave out --step");
        return {};
      }
      const auto interval = even_interval();
      if (!interval) return {};
      r.interval = *interval;
    }
    const std::size_t from = columns_.size() == 1 ? 0 : 1;
    double smallest = std::numeric_limits<double>::infinity();
    for (std::size_t c = from; c < columns_.size(); ++c) {
      const std::vector<double>& column = columns_[c];
      for (std::size_t i = 1; i < column.size(); ++i) {
        const double d = std::abs(column[i] - column[i - 1]);
        if (d > 0) smallest = std::min(smallest, d);
      }
      r.channels.emplace_back(column.begin(), column.end());
      const bool named = c < names_.size() && !names_[c].empty();
      r.names.push_back(named ? names_[c] : fmt::format("column {}", c + 1));
    }
    if (std::isfinite(smallest)) r.resolution = smallest;
    return r;
  }

 private:
  Place place(std::size_t line, std::size_t column, std::size_t length) {
    if (!source_) source_ = std::make_shared<const SourceText>(path_, text_);
    return place_within(source_, line, column, length);
  }
  void fault(std::size_t line, std::size_t column, std::size_t length, std::string what,
             std::string help = {}) {
    diagnostics_.error(place(line, column, length), std::move(what), std::move(help));
    ++faults_;
  }
  void fault_at(std::size_t line, std::string_view all, std::string_view cell, std::string what) {
    const std::string_view told = trimmed(cell);
    const auto offset =
        static_cast<std::size_t>((told.empty() ? cell.data() : told.data()) - all.data());
    fault(line, code_points(all.substr(0, offset)) + 1, std::max<std::size_t>(1, code_points(told)),
          std::move(what));
  }

  // The next line from `at` on; moves `at` behind it.
  std::string_view line_at(std::size_t& at) const {
    const std::size_t end = std::min(text_.find_first_of("\r\n", at), text_.size());
    const std::string_view line = std::string_view(text_).substr(at, end - at);
    at = text_.compare(end, 2, "\r\n") == 0 ? end + 2 : end + 1;
    return line;
  }

  // Head, style and first row of numbers. Two rows in a row must be numbers of one style.
  bool find_table() {
    if (text_.starts_with("\xC3\xBF\xC3\xBE") || text_.starts_with("\xC3\xBE\xC3\xBF") ||
        text_.find('\0') != std::string::npos) {
      diagnostics_.error({},
                         fmt::format("'{}' is neither a sound file nor UTF-8 text", path_.string()),
                         "record as WAV, or save the table as CSV text");
      return false;
    }
    if (text_.starts_with("\uFEFF")) text_.erase(0, 3);
    std::size_t at = 0;
    std::vector<std::string_view> cells, next;
    std::string_view before_units, head;
    for (std::size_t line = 1; at < text_.size(); ++line) {
      const std::size_t begin = at;
      const std::string_view row = line_at(at);
      std::size_t peek = at;
      const std::string_view following = at < text_.size() ? line_at(peek) : std::string_view{};
      for (const Style& style : styles) {
        split(row, style.separator, cells);
        const auto numbers = [&](const std::vector<std::string_view>& list) {
          return std::ranges::all_of(list, [&](std::string_view cell) {
            return number_of(cell, style.comma).has_value();
          });
        };
        if ((style.separator != 0) != (cells.size() > 1) || !numbers(cells)) continue;
        split(following, style.separator, next);
        if (next.size() != cells.size() || !numbers(next)) continue;
        style_ = style;
        first_row_ = line;
        begin_ = begin;
        columns_.resize(cells.size());
        if (cells.size() > most_columns) {
          fault(line, 1, 1,
                fmt::format("{} columns; {} at most are taken", cells.size(), most_columns));
          return false;
        }
        read_head(before_units, head);
        return true;
      }
      if (!trimmed(row).empty()) {
        before_units = head;
        head = row;
      }
    }
    diagnostics_.error(place(1, 1, 1), "there is no table of numbers in this file",
                       "write two columns, time and value, parted by commas, semicolons or tabs");
    return false;
  }

  // Names and units from the last two lines before the numbers.
  void read_head(std::string_view before, std::string_view last) {
    std::vector<std::string_view> cells;
    for (const std::string_view line : {before, last}) {
      split(line, style_.separator, cells);
      if (cells.size() != columns_.size()) continue;
      const auto unit = unit_in(cells.front());
      if (unit) unit_ = *unit;
      // A line of units alone leaves the names above it.
      const std::string_view first = trimmed(cells.front());
      const bool only_units = first.starts_with('(') || first.starts_with('[') || first.size() <= 3;
      if (unit && only_units && !names_.empty()) continue;
      names_.clear();
      for (const std::string_view cell : cells) names_.emplace_back(trimmed(cell));
    }
  }

  bool read_rows() {
    std::size_t at = begin_;
    std::vector<std::string_view> cells;
    for (std::size_t line = first_row_; at < text_.size(); ++line) {
      const std::string_view row = line_at(at);
      if (trimmed(row).empty()) continue;
      if (columns_.front().size() >= most_rows) {
        fault(line, 1, 1, fmt::format("more than {} million rows", most_rows / 1'000'000));
        return false;
      }
      split(row, style_.separator, cells);
      if (cells.size() != columns_.size()) {
        fault(line, 1, code_points(row),
              fmt::format("{} cell{} in this row; the table has {} columns", cells.size(),
                          cells.size() == 1 ? "" : "s", columns_.size()));
      } else {
        for (std::size_t c = 0; c < cells.size(); ++c) read_cell(line, row, cells[c], c);
      }
      rows_.push_back(static_cast<std::uint32_t>(line));
      if (faults_ >= most_faults) return false;
    }
    if (faults_ > 0) return false;
    if (columns_.front().size() < least_rows) {
      fault(first_row_, 1, 1,
            fmt::format("{} rows of numbers; a shot needs {} or more", columns_.front().size(),
                        least_rows));
      return false;
    }
    return true;
  }

  void read_cell(std::size_t line, std::string_view row, std::string_view cell,
                 std::size_t column) {
    const auto number = number_of(cell, style_.comma);
    if (number && std::abs(*number) <= 1e12) {
      columns_[column].push_back(*number);
    } else if (number) {
      fault_at(line, row, cell,
               fmt::format("'{}' is no finite number, or too large a one", trimmed(cell)));
    } else if (trimmed(cell).empty()) {
      fault_at(line, row, cell, "a number is missing here");
    } else {
      fault_at(line, row, cell, fmt::format("'{}' is not a number", trimmed(cell)));
    }
  }

  // The even step of the times. Rounded ones may lie 0.75 step off, or 1e-5 of the time.
  std::optional<Time> even_interval() {
    const std::vector<double>& t = columns_.front();
    const double step = (t.back() - t.front()) / static_cast<double>(t.size() - 1);
    if (!(step > 0)) {
      fault(rows_.back(), 1, 1, "the times of the first column don't rise",
            "the first column must be the time");
      return {};
    }
    for (std::size_t i = 0; i < t.size(); ++i) {
      const double even = t.front() + step * static_cast<double>(i);
      if (std::abs(t[i] - even) <= std::max(0.75 * step, 1e-5 * std::abs(t[i]))) continue;
      fault(rows_[i], 1, 1,
            fmt::format("the times don't rise evenly: {:g} here, {:g} by the mean step of {:g}",
                        t[i], even, step),
            "export the recording with even steps, and no rows left out");
      return {};
    }
    return step * unit_;
  }

  std::filesystem::path path_;
  std::string text_;
  std::optional<Time> step_;
  Diagnostics& diagnostics_;
  std::shared_ptr<const SourceText> source_;
  Style style_{};
  std::size_t first_row_ = 1, begin_ = 0, faults_ = 0;
  Time unit_ = second;
  std::vector<std::string> names_;
  std::vector<std::vector<double>> columns_;
  std::vector<std::uint32_t> rows_;
};

}  // namespace

std::optional<Recording> recording_in_text(const std::filesystem::path& path, std::string text,
                                           std::optional<Time> step, Diagnostics& diagnostics) {
  return TableReader(path, std::move(text), step, diagnostics).read();
}

}  // namespace backfit
