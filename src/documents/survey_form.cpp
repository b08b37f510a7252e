// SPDX-License-Identifier: MIT
#include "documents/survey_form.hpp"

#include <algorithm>

#include "documents/flow.hpp"
#include "documents/survey_sketch.hpp"

namespace backfit {
namespace {

using paper::Column;
using paper::Table;

constexpr SketchLetter letters[] = {
    {"gate", "width", "A"},
    {"gate", "height", "B"},
    {"gate", "before_film", "C"},
    {"seat", "behind_film", "D"},
    {"seat", "width", "E"},
    {"seat", "height", "F"},
    {"seat", "corner_radius", "G"},
    {"seat.groove", "inner_width", "H"},
    {"seat.groove", "inner_height", "J"},
    {"seat.groove", "width", "K"},
    {"seat.groove", "depth", "L"},
    {"seat.screws", "x", "M"},
    {"seat.screws", "y", "N"},
    {"lens", "exit_pupil_before_film", "P"},
    {"openings", "before_film", "Q"},
    {"focusing", "travel_forward", "T"},
    {"focusing", "room_behind_infinity", "U"},
};

// What stands in quotation marks in an example, as it would be written.
std::vector<std::string> quoted(const std::string& example) {
  std::vector<std::string> result;
  for (std::size_t open = example.find('"'); open != std::string::npos;) {
    const std::size_t close = example.find('"', open + 1);
    if (close == std::string::npos) break;
    result.push_back(example.substr(open + 1, close - open - 1));
    open = example.find('"', close + 1);
  }
  return result;
}

// An example as it is said rather than written in the file.
std::string unquoted(std::string example) {
  std::erase_if(example, [](char c) { return c == '"' || c == '[' || c == ']'; });
  return example;
}

// A box to tick before each choice; neither parts from the other at the end of a line.
std::string boxes(const std::vector<std::string>& choices) {
  constexpr std::string_view firm_space = "\u00a0";
  std::string result;
  for (const std::string& choice : choices) {
    if (!result.empty()) result += "   ";
    result += "☐";
    result += firm_space;
    for (const char c : choice) result += c == ' ' ? std::string(firm_space) : std::string(1, c);
  }
  return result;
}

// A key with a few words to choose from: its example names them all.
bool is_choice(const FormLine& line) { return !line.list && quoted(line.example).size() > 1; }

// Inside a group that may be missing as a whole, each key says nothing of that.
std::string what(const FormLine& line, bool group_required) {
  return line.meaning + "\n" + line.key + (group_required && !line.required ? " (optional)" : "");
}

// The table of one group: its heading, then columns to write in, four for what may be repeated.
Table table_of(const FormLine& heading) {
  const std::string title = heading.meaning + (heading.required ? "" : " (if there is one)");
  Table table{{{title, 84 * mm}, {"", 7 * mm}}, {}};
  if (heading.list) {
    for (const char* number : {"1", "2", "3", "4"}) table.columns.push_back({number, 22.25 * mm});
  } else {
    table.columns.push_back({"like", 33 * mm});
    table.columns.push_back({"value and ±", 56 * mm});
  }
  return table;
}

void add_row(Table& table, const FormLine& line, bool group_required) {
  std::vector<std::string> row{what(line, group_required), sketch_letter(line.path, line.key)};
  if (table.columns.size() > 4) {
    row.resize(table.columns.size());
  } else if (is_choice(line)) {
    row.emplace_back("tick one");
    row.push_back(boxes(quoted(line.example)));
  } else {
    row.push_back(unquoted(line.example));
    row.emplace_back();
  }
  table.rows.push_back(std::move(row));
}

void add_instructions(paper::Flow& flow) {
  flow.title("Survey of a camera");
  flow.paragraph(
      "Widths and heights with a caliper, seen from behind the camera. Depths from the original "
      "film "
      "plane, the rails that the film rested on. Each value with its unit; behind ± what you are "
      "sure of: read three times, and write the spread if it is larger. Letters: see the sketches. "
      "Below each question: its key in the camera file.");
  flow.boxed({paper::Sign::warning, "Before you open the camera",
              "A flash or shutter capacitor can hold a dangerous charge for weeks with the battery "
              "out. Leave its discharge to somebody qualified. Old cells and foam seals may be "
              "harmful: gloves, and local rules for disposal."});
  flow.block(paper::survey_sketch_height, [](paper::Sheet& sheet, paper::PagePoint corner) {
    draw_survey_sketch(sheet, corner);
  });
}

}  // namespace

std::vector<SketchLetter> sketch_letters() { return {std::begin(letters), std::end(letters)}; }

std::string sketch_letter(std::string_view path, std::string_view key) {
  for (const SketchLetter& l : letters) {
    if (l.path == path && l.key == key) return std::string(l.letter);
  }
  return {};
}

std::string survey_form(const std::vector<FormLine>& lines,
                        const std::filesystem::path& font_folder) {
  paper::Document document(font_folder, {"Survey of a camera", "camera: ____________________",
                                         "Write each value with its unit and ±"});
  paper::Flow flow(document);
  add_instructions(flow);
  FormLine heading;
  heading.meaning = "The camera";
  heading.required = true;
  Table table = table_of(heading);
  const auto place = [&] {
    if (!table.rows.empty()) flow.together([&] { flow.table(table); });
  };
  for (const FormLine& line : lines) {
    if (line.heading) {
      place();
      heading = line;
      table = table_of(heading);
    } else {
      add_row(table, line, heading.required);
    }
  }
  place();
  flow.finish();
  return document.pdf();
}

}  // namespace backfit
