// SPDX-License-Identifier: MIT
#include "survey/speed_entry.hpp"

#include <algorithm>
#include <cmath>

#include "files/reader.hpp"

namespace backfit {
namespace {

constexpr std::string_view blanks = " \t\r";

bool same(Time a, Time b) { return std::abs(a / b - 1) < 1e-6; }

const MeasuredSpeed* speed_of(const Camera& camera, Time marked) {
  const auto found = std::ranges::find_if(
      camera.shutter.measured, [&](const MeasuredSpeed& m) { return same(*m.marked, marked); });
  return found == camera.shutter.measured.end() ? nullptr : &*found;
}

// The bytes of `text` that a place covers.
struct Stretch {
  std::size_t begin = 0, length = 0;
};
Stretch bytes_of(const SourceText& source, const Place& place) {
  const std::string_view line = source.line(place.line);
  const std::string_view before = code_point_slice(line, 0, place.column - 1);
  const std::string_view at = code_point_slice(line, place.column - 1, place.length);
  const auto begin = static_cast<std::size_t>(line.data() - source.text().data());
  return {begin + before.size(), at.size()};
}

// "shutter.measured" of a line "[[ shutter . measured ]] # words"; empty of any other line.
std::string header_of(std::string_view line) {
  const std::size_t open = line.find_first_not_of(blanks);
  if (open == line.npos || line[open] != '[') return {};
  std::string name;
  for (const char c : line.substr(open)) {
    if (c == '#') break;
    if (c != '[' && c != ']' && blanks.find(c) == blanks.npos) name += c;
  }
  return name;
}

bool says_something(std::string_view line) {
  const std::size_t first = line.find_first_not_of(blanks);
  return first != line.npos && line[first] != '#';
}

// The last line that says something of the last table `name`; 0 without such a table.
std::size_t last_line_of(const SourceText& source, std::string_view name) {
  std::size_t last = 0;
  bool inside = false;
  for (std::size_t n = 1; n <= source.line_count(); ++n) {
    const std::string header = header_of(source.line(n));
    if (!header.empty()) inside = header == name;
    if (inside && says_something(source.line(n))) last = n;
  }
  return last;
}

// `text` with `entry` as a table of its own behind line `line`.
std::string with_table_behind(const SourceText& source, std::size_t line, const SpeedEntry& entry) {
  const std::string end = source.text().find("\r\n") == std::string::npos ? "\n" : "\r\n";
  std::string text = source.text();
  const std::string_view row = source.line(line);
  const auto at = static_cast<std::size_t>(row.data() - source.text().data()) + row.size();
  std::string table = end + end + "[[shutter.measured]]" + end;
  table += "marked = \"" + entry.marked_text + "\"" + end;
  table += "effective = \"" + entry.effective_text + "\"";
  if (at == text.size()) table += end;
  return text.insert(at, table);
}

// Does `text` read as the same camera, with this speed and no other change of its speeds?
bool reads_back(const SourceText& source, const std::string& text, const Camera& before,
                Time marked, bool added) {
  Diagnostics diagnostics;
  const auto camera =
      read_record<Camera>(std::make_shared<const SourceText>(source.path(), text), diagnostics);
  if (!camera) return false;
  const auto& was = before.shutter.measured;
  const auto& is = camera->shutter.measured;
  if (is.size() != was.size() + (added ? 1 : 0)) return false;
  for (const MeasuredSpeed& m : was) {
    const MeasuredSpeed* now = speed_of(*camera, *m.marked);
    if (now == nullptr) return false;
    if (!same(*m.marked, marked) && !same(now->effective->value, m.effective->value)) return false;
  }
  return speed_of(*camera, marked) != nullptr && *camera->name == *before.name &&
         camera->shutter.marked_speeds.size() == before.shutter.marked_speeds.size();
}

}  // namespace

std::optional<std::string> with_speed(const std::shared_ptr<const SourceText>& source,
                                      const Camera& camera, const SpeedEntry& entry,
                                      std::string& why) {
  const std::string quoted = "\"" + entry.effective_text + "\"";
  if (const MeasuredSpeed* old = speed_of(camera, entry.marked)) {
    const Stretch value = bytes_of(*source, old->effective.place);
    std::string text = source->text();
    text.replace(value.begin, value.length, quoted);
    if (reads_back(*source, text, camera, entry.marked, false)) return text;
    why = "the text of the speed " + entry.marked_text +
          " that is there can't be replaced: write it on one line";
    return std::nullopt;
  }
  std::vector<std::string> candidates;
  for (const std::string_view table : {"shutter.measured", "shutter"}) {
    if (const std::size_t line = last_line_of(*source, table); line > 0) {
      candidates.push_back(with_table_behind(*source, line, entry));
    }
  }
  if (!camera.shutter.measured.empty()) {  // perhaps a list of tables in braces
    const Stretch last = bytes_of(*source, camera.shutter.measured.back().place);
    std::string text = source->text();
    text.insert(last.begin + last.length,
                ", { marked = \"" + entry.marked_text + "\", effective = " + quoted + " }");
    candidates.push_back(std::move(text));
  }
  for (std::string& text : candidates) {
    if (reads_back(*source, text, camera, entry.marked, true)) return std::move(text);
  }
  why = "the file has no table [shutter] that a measured speed could be added to";
  return std::nullopt;
}

}  // namespace backfit
