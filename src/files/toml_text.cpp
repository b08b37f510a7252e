// SPDX-License-Identifier: MIT
#include "files/toml_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "quantity/unit_words.hpp"

namespace backfit {
namespace {

constexpr int most_syntax_errors = 20;
constexpr std::size_t most_key_parts = 16;

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && (s.front() == ' ' || s.front() == '\t')) s.remove_prefix(1);
  while (!s.empty() && (s.back() == ' ' || s.back() == '\t')) s.remove_suffix(1);
  return s;
}

bool is_bare_key(std::string_view key) {
  return !key.empty() && std::ranges::all_of(key, [](unsigned char c) {
    return std::isalnum(c) != 0 || c == '_' || c == '-' || c == '.';
  });
}

// The `key` and `value` of a line "key = value # comment"; empty key for any other line.
struct KeyLine {
  std::string_view key, value;
  std::size_t value_offset = 0;  // bytes
};
KeyLine key_line(std::string_view line) {
  const std::size_t equals = line.find('=');
  if (equals == std::string_view::npos) return {};
  const std::string_view key = trimmed(line.substr(0, equals));
  if (!is_bare_key(key)) return {};
  std::size_t begin = equals + 1;
  while (begin < line.size() && (line[begin] == ' ' || line[begin] == '\t')) ++begin;
  std::string_view value = line.substr(begin);
  if (!value.starts_with('"') && !value.starts_with('\'')) value = value.substr(0, value.find('#'));
  return {key, trimmed(value), begin};
}

// The key and value of a line that lacks only its "=": 'width "73.0 mm"'.
KeyLine without_equals(std::string_view line) {
  const std::string_view text = trimmed(line);
  const std::string_view key = text.substr(0, text.find_first_of(" \t"));
  const std::string_view value = trimmed(text.substr(key.size()));
  const bool a_value = value.starts_with('"') || value.starts_with('[');
  return is_bare_key(key) && a_value ? KeyLine{key, value, 0} : KeyLine{};
}

std::string_view table_header(std::string_view line) {
  const std::string_view t = trimmed(line);
  return t.starts_with('[') ? t.substr(0, t.find('#')) : std::string_view{};
}

// "seat.screws" of "[[seat.screws]]", closed or not.
std::string_view table_name(std::string_view header) {
  while (header.starts_with('[')) header.remove_prefix(1);
  header = trimmed(header);
  while (header.ends_with(']')) header.remove_suffix(1);
  return trimmed(header);
}

class Recovery {
 public:
  Recovery(const std::shared_ptr<const SourceText>& source, Diagnostics& diagnostics)
      : source_(source), diagnostics_(diagnostics), working_(source->text()) {}

  TomlText run() {
    TomlText result;
    if (const Place deep = too_deep_key()) {
      diagnostics_.error(deep, fmt::format("this key has more than {} parts", most_key_parts));
      return result;
    }
    for (int round = 0; round < most_syntax_errors; ++round) {
      try {
        result.root = toml::parse(working_, source_->path().string());
        result.lost_keys = std::move(lost_keys_);
        return result;
      } catch (const toml::parse_error& fault) {
        if (!report_and_pass_over(fault)) break;
      }
    }
    result.lost_keys = std::move(lost_keys_);
    return result;
  }

 private:
  // The first key of more than `most_key_parts` parts: the parser nests a table for each, and its
  // stack ends somewhere. No source when there is none.
  Place too_deep_key() const {
    for (std::size_t number = 1; number <= source_->line_count(); ++number) {
      std::size_t parts = 1;
      std::size_t at = 0;
      char quote = 0;
      for (const char c : source_->line(number)) {
        ++at;
        if (quote != 0) {
          if (c == quote) quote = 0;
        } else if (c == '"' || c == '\'') {
          quote = c;
        } else if (c == '#') {
          break;
        } else if (c == '.') {
          ++parts;
        } else if (std::isalnum(static_cast<unsigned char>(c)) == 0 && c != '_' && c != '-' &&
                   c != ' ' && c != '\t') {
          parts = 1;
        }
        if (parts > most_key_parts)
          return place_within(source_, number, code_points(source_->line(number).substr(0, at)), 1);
      }
    }
    return {};
  }

  // Adds the error; false when the text after the guilty line can't be trusted.
  bool report_and_pass_over(const toml::parse_error& fault) {
    const std::size_t number = std::max<std::size_t>(1, fault.source().begin.line);
    const std::string_view line = source_->line(number);
    const std::string_view what = fault.description();
    if (what.find("end-of-file") != std::string_view::npos) {
      if (const Place opener = open_long_text(); opener) {
        diagnostics_.error(opener, "this text over several lines is not closed",
                           "close it with the same three quotes");
        return blank(opener.line);
      }
    }
    if (what.find("array") != std::string_view::npos) {
      if (const std::size_t opener = open_list_before(number); opener != 0) {
        report_open_list(opener);
        return blank(opener);
      }
    }
    const Place at = place_within(source_, number, fault.source().begin.column, 1);
    const KeyLine entry = key_line(line);
    const bool header = !table_header(line).empty();
    if (what.find("cannot redefine") != std::string_view::npos) {
      report_repeated(number, header ? table_header(line) : entry.key, header);
    } else if (header) {
      const std::string_view name = table_name(table_header(line));
      const bool list = table_header(line).starts_with("[[");
      diagnostics_.error(at, "this heading is not closed with a bracket",
                         !is_bare_key(name) ? ""
                         : list             ? fmt::format("write [[{}]]", name)
                                            : fmt::format("write [{}]", name));
    } else if (!entry.key.empty()) {
      report_value(number, entry, what, at);
    } else if (const KeyLine lacking = without_equals(line); !lacking.key.empty()) {
      diagnostics_.error(at, fmt::format("an equals sign is missing after '{}'", lacking.key),
                         fmt::format("write {} = {}", lacking.key, lacking.value));
      lost_keys_.emplace(lacking.key);
    } else {
      not_toml(at, what);
    }
    if (header) {
      pass_over_table(number);
      return true;
    }
    if (entry.key.empty()) {
      // A line without "=" can be passed over; the tail of an open bracket can't.
      if (what.find("array") != std::string_view::npos ||
          what.find("inline") != std::string_view::npos) {
        return false;
      }
    } else {
      if (what.find("array") != std::string_view::npos && !entry.value.starts_with('['))
        return false;
      lost_keys_.insert(std::string(entry.key));
    }
    return blank(number);
  }

  // Where the working copy opens a text in three quotes and never closes it; no source if nowhere.
  Place open_long_text() const {
    std::string_view open;
    std::size_t opened_at = 0;
    for (std::size_t i = 0; i + 3 <= working_.size(); ++i) {
      const std::string_view three = std::string_view(working_).substr(i, 3);
      if (open.empty() ? three != "\"\"\"" && three != "\'\'\'" : three != open) continue;
      open = open.empty() ? three : std::string_view{};
      opened_at = i;
      i += 2;
    }
    if (open.empty()) return {};
    const std::string_view before = std::string_view(working_).substr(0, opened_at);
    const auto lines = static_cast<std::size_t>(std::ranges::count(before, '\n'));
    return {source_, lines + 1, code_points(before.substr(before.rfind('\n') + 1)) + 1, 3};
  }

  void not_toml(const Place& at, std::string_view what) {
    if (what.find("expected '='") != std::string_view::npos) {
      const std::string_view line = source_->line(at.line);
      const std::size_t indent = std::min(line.find_first_not_of(" \t"), line.size());
      diagnostics_.error(place_within(source_, at.line, indent + 1, code_points(trimmed(line))),
                         "this line is no heading, no key with its value and no remark",
                         "start it with # if it is a remark");
      return;
    }
    std::string text(what);
    if (const std::size_t colon = text.find(": "); colon != std::string::npos)
      text.erase(0, colon + 2);
    diagnostics_.error(at, "this is not TOML: " + text);
  }

  // What is wrong with the value of a line "key = value".
  void report_value(std::size_t number, const KeyLine& entry, std::string_view what,
                    const Place& at) {
    const std::string_view line = source_->line(number);
    const Place value =
        place_within(source_, number, code_points(line.substr(0, entry.value_offset)) + 1,
                     code_points(entry.value));
    const std::string_view text = entry.value;
    if (text.empty()) {
      diagnostics_.error(value, fmt::format("'{}' has no value", entry.key));
    } else if (text.find_first_not_of("+-0123456789,") == std::string_view::npos &&
               text.find(',') != std::string_view::npos) {
      diagnostics_.error(
          value, fmt::format("'{}' has a decimal comma; numbers here take a decimal point", text),
          fmt::format("write {} = {}, or in quotes with its unit", entry.key, with_points(text)));
    } else if (reads_like_bare_text(text)) {
      diagnostics_.error(value, fmt::format("'{}' needs quotes: a value with a unit is text", text),
                         fmt::format("write {} = \"{}\"", entry.key, with_points(text)));
    } else if (text.starts_with('"') && std::ranges::count(text, '"') == 1) {
      diagnostics_.error(
          value, "this text is not closed with a quote",
          fmt::format("write {} = {}\"", entry.key, trimmed(text.substr(0, text.find('#')))));
    } else {
      not_toml(at, what);
    }
  }

  // The nearest earlier line that opens a list and does not close it; 0 if none.
  std::size_t open_list_before(std::size_t number) const {
    for (std::size_t n = number; n-- > 1;) {
      const std::string_view value = key_line(source_->line(n)).value;
      if (value.starts_with('[') && value.find(']') == std::string_view::npos) return n;
      if (!value.empty()) return 0;
    }
    return 0;
  }

  void report_open_list(std::size_t number) {
    const std::string_view line = source_->line(number);
    const KeyLine entry = key_line(line);
    diagnostics_.error({source_, number, code_points(line.substr(0, entry.value_offset)) + 1,
                        code_points(entry.value)},
                       "this list is not closed with a bracket",
                       fmt::format("write {} = {}]", entry.key, entry.value));
    lost_keys_.insert(std::string(entry.key));
  }

  static bool reads_like_bare_text(std::string_view value) {
    const char c = value.front();
    if (c == '"' || c == '\'' || c == '[' || c == '{') return false;
    return value != "true" && value != "false";
  }

  void report_repeated(std::size_t number, std::string_view name, bool header) {
    const std::string_view line = source_->line(number);
    const auto column = [](std::string_view text, std::string_view part) {
      return code_points(text.substr(0, static_cast<std::size_t>(part.data() - text.data()))) + 1;
    };
    Diagnostic d;
    d.place = {source_, number, name.empty() ? 1 : column(line, name), code_points(name)};
    d.text = fmt::format("{} '{}' is given twice", header ? "the table" : "the key", trimmed(name));
    d.help = header ? "put its keys under the first heading" : "delete one of the two lines";
    for (std::size_t n = number; n-- > 1;) {
      const std::string_view earlier = source_->line(n);
      const std::string_view head = table_header(earlier);
      if (header ? trimmed(head) == trimmed(name) : key_line(earlier).key == name) {
        const std::string_view part = header ? head : key_line(earlier).key;
        d.remarks.push_back(
            {{source_, n, column(earlier, part), code_points(part)}, "first given here"});
        break;
      }
      if (!header && !head.empty()) break;
    }
    diagnostics_.add(std::move(d));
  }

  void pass_over_table(std::size_t number) {
    const std::string_view name = table_name(table_header(source_->line(number)));
    lost_keys_.emplace(name.substr(name.rfind('.') + 1));
    blank(number);
    for (std::size_t n = number + 1; n <= source_->line_count(); ++n) {
      const std::string_view line = source_->line(n);
      if (!table_header(line).empty()) break;
      if (const KeyLine entry = key_line(line); !entry.key.empty())
        lost_keys_.insert(std::string(entry.key));
      blank(n);
    }
  }

  // Empties line `number` of the working copy; false when it was empty already. The line keeps
  // its length, so that every other byte keeps its place.
  bool blank(std::size_t number) {
    const std::string_view line = source_->line(number);
    const auto begin = working_.begin() + (line.data() - source_->text().data());
    const auto end = begin + static_cast<std::ptrdiff_t>(line.size());
    if (std::all_of(begin, end, [](char c) { return c == ' '; })) return false;
    std::fill(begin, end, ' ');
    return true;
  }

  std::shared_ptr<const SourceText> source_;
  Diagnostics& diagnostics_;
  std::string working_;
  std::set<std::string> lost_keys_;
};

}  // namespace

TomlText parse_toml(const std::shared_ptr<const SourceText>& source, Diagnostics& diagnostics) {
  return Recovery(source, diagnostics).run();
}

}  // namespace backfit
