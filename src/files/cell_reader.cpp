// SPDX-License-Identifier: MIT
#include "files/cell_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "quantity/unit_words.hpp"

namespace backfit {
namespace {

// Half-widths taken when a survey gives none. Common practice at the bench, no source.
constexpr Length caliper_tolerance = 0.05 * mm;
constexpr Length ruler_tolerance = 0.5 * mm;
constexpr double engraved_tolerance = 0.03;  // of the value, as the next
constexpr double multimeter_tolerance = 0.01;
constexpr double recording_tolerance = 0.03;
constexpr double part_tolerance = 0.2;
constexpr Length smallest_length = 0.005 * mm;
constexpr Length largest_length = 100 * metre;

// The text of a quantity up to its tolerance.
std::string_view without_tolerance(std::string_view text) {
  text = text.substr(0, std::min({text.find("±"), text.find("+/-"), text.find("+-")}));
  while (text.ends_with(' ') || text.ends_with('\t')) text.remove_suffix(1);
  return text;
}

}  // namespace

Place CellReader::place_of(const toml::source_region& region) const {
  const bool one_line = region.end.line == region.begin.line;
  const std::size_t to_the_end = source_->text().size();
  return place_within(
      source_, region.begin.line, region.begin.column,
      one_line ? region.end.column - std::min(region.begin.column, region.end.column) : to_the_end);
}

void CellReader::wrong_type(const toml::node& node, std::string_view key, std::string_view needed) {
  std::string_view found = "a value of another type";
  switch (node.type()) {
    case toml::node_type::string:
      found = "text";
      break;
    case toml::node_type::integer:
      found = "a bare number";
      break;
    case toml::node_type::floating_point:
      found = "a number with decimals";
      break;
    case toml::node_type::boolean:
      found = "true or false";
      break;
    case toml::node_type::array:
      found = "a list";
      break;
    case toml::node_type::table:
      found = "a table";
      break;
    case toml::node_type::date:
    case toml::node_type::time:
    case toml::node_type::date_time:
      found = "a date or time of day";
      break;
    case toml::node_type::none:
      break;
  }
  diagnostics_.error(place_of(node), fmt::format("'{}' is {}; {} is needed", key, found, needed));
}

std::optional<Cell> CellReader::cell_of(const toml::node& node, std::string_view key,
                                        std::string_view path, const CellForm& form,
                                        const About& about) {
  Cell cell;
  cell.place = place_of(node);
  switch (form.form) {
    case CellForm::Form::quantity:
      return quantity_of(node, key, path, form, about, std::move(cell));
    case CellForm::Form::choice:
      return choice_of(node, key, form, about, std::move(cell));
    case CellForm::Form::text:
      if (const auto* s = node.as_string()) {
        cell.text = s->get();
        if (cell.text.find_first_not_of(" \t") != std::string::npos) return cell;
        not_filled_in(cell.place, key, about,
                      fmt::format("write it like {}", written_example(form, about, false)));
      } else {
        wrong_type(node, key, "text in quotes");
      }
      return {};
    case CellForm::Form::flag:
      if (const auto* b = node.as_boolean()) {
        cell.flag = b->get();
        return cell;
      }
      wrong_type(node, key, "true or false");
      return {};
    case CellForm::Form::integer:
    case CellForm::Form::number:
      return number_of(node, key, form, about, std::move(cell));
  }
  return {};
}

std::optional<Cell> CellReader::number_of(const toml::node& node, std::string_view key,
                                          const CellForm& form, const About& about, Cell cell) {
  if (const auto* i = node.as_integer()) {
    cell.number = static_cast<double>(i->get());
  } else if (const auto* f = node.as_floating_point();
             f != nullptr && form.form == CellForm::Form::number) {
    cell.number = f->get();
  } else {
    wrong_type(node, key, form.form == CellForm::Form::integer ? "a whole number" : "a number");
    return {};
  }
  const double limit = 1e9;
  const bool allowed = about.sign == Sign::any || cell.number > 0 ||
                       (about.sign == Sign::not_negative && cell.number == 0);
  if (!allowed || !(std::abs(cell.number) < limit)) {
    const std::string_view needed = allowed || cell.number > 0     ? "below a thousand million"
                                    : about.sign == Sign::positive ? "above zero"
                                                                   : "zero or more";
    diagnostics_.error(cell.place,
                       fmt::format("'{}' is {:g}; it must be {}", key, cell.number, needed));
    return {};
  }
  return cell;
}

std::optional<Cell> CellReader::choice_of(const toml::node& node, std::string_view key,
                                          const CellForm& form, const About& about, Cell cell) {
  const auto* s = node.as_string();
  if (s == nullptr) {
    wrong_type(node, key, list_of(form.choices, "or"));
    return {};
  }
  cell.text = s->get();
  if (cell.text.empty()) {
    not_filled_in(cell.place, key, about, "write " + list_of(form.choices, "or"));
    return {};
  }
  if (std::ranges::find(form.choices, cell.text) != form.choices.end()) return cell;
  const std::string_view near = nearest_name(cell.text, form.choices);
  diagnostics_.error(cell.place,
                     fmt::format("'{}' is not a choice for '{}'; {} is needed", cell.text, key,
                                 list_of(form.choices, "or")),
                     near.empty() ? "" : fmt::format("write {} = \"{}\"", key, near));
  return {};
}

std::optional<Cell> CellReader::quantity_of(const toml::node& node, std::string_view key,
                                            std::string_view path, const CellForm& form,
                                            const About& about, Cell cell) {
  const QuantityKind& kind = *form.kind;
  const std::string_view example = about.example.empty() ? kind.example : about.example;
  const auto* s = node.as_string();
  if (s == nullptr) {
    if (node.is_number()) {
      const std::string_view written = code_point_slice(source_->line(cell.place.line),
                                                        cell.place.column - 1, cell.place.length);
      const std::string_view unit = kind.units.front().spelling;
      diagnostics_.error(
          cell.place,
          fmt::format("'{}' is a bare number; {} bears its unit", written, with_article(kind.name)),
          kind.units.front().before
              ? fmt::format("write \"{}{}\"", unit, written)
              : fmt::format("write \"{} {}\" if it is in {}", written, unit, unit));
    } else {
      wrong_type(node, key, fmt::format("{} such as \"{}\"", with_article(kind.name), example));
    }
    return {};
  }
  const std::string& text = s->get();
  if (text.find_first_not_of(" \t") == std::string::npos) {
    not_filled_in(cell.place, key, about,
                  fmt::format("{}write it like \"{}\"",
                              about.tool == Tool::none ? "" : "measure it and ", example));
    return {};
  }
  const auto result = read_quantity(text, kind, about.sign);
  if (const auto* fault = std::get_if<NotationFault>(&result)) {
    Place place = cell.place;
    // The column inside the string is known only for a plain one-line string without escapes.
    if (place.length == code_points(text) + 2) {
      place.column += 1 + code_points(text.substr(0, fault->begin));
      place.length =
          std::max<std::size_t>(1, code_points(text.substr(fault->begin, fault->length)));
    }
    diagnostics_.error(place, fault->message,
                       fault->remedy.empty() ? fmt::format("it is written like \"{}\"", example)
                                             : fmt::format("write \"{}\"", fault->remedy));
    return {};
  }
  cell.reading = std::get<Reading>(result);
  if (cell.reading.tolerance && !form.takes_tolerance) {
    diagnostics_.error(cell.place, fmt::format("'{}' takes no tolerance", key),
                       fmt::format("write \"{}\"", without_tolerance(text)));
    return {};
  }
  if (&kind == &kind_of<Length>() && !within_a_workshop(cell, about)) return {};
  if (!cell.reading.tolerance && form.takes_tolerance && !assume_tolerance(path, about, cell))
    return {};
  return cell;
}

// Studies hold for lengths that a camera, a workshop or a focus scale can have. A slip of the unit
// is caught here.
bool CellReader::within_a_workshop(const Cell& cell, const About& about) {
  const Length value = abs(cell.reading.value * mm);
  const Length width = cell.reading.tolerance.value_or(0) * mm;
  if (value <= largest_length && width <= largest_length &&
      (about.sign != Sign::positive || value >= smallest_length))
    return true;
  diagnostics_.error(cell.place,
                     fmt::format("a length of {:g} mm is out of range; {:g} mm to {:g} m are taken",
                                 cell.reading.value, smallest_length / mm, largest_length / metre));
  return false;
}

void CellReader::not_filled_in(const Place& place, std::string_view key, const About& about,
                               std::string help) {
  diagnostics_.error(place, fmt::format("'{}' is not filled in: {}", key, about.meaning),
                     std::move(help));
}

bool CellReader::assume_tolerance(std::string_view path, const About& about, Cell& cell) {
  if (about.tool == Tool::none) return true;
  std::string how;
  switch (about.tool) {
    case Tool::caliper:
      cell.reading.tolerance = caliper_tolerance.base();
      how = "± 0.05 mm (caliper)";
      break;
    case Tool::ruler:
      cell.reading.tolerance = ruler_tolerance.base();
      how = "± 0.5 mm (ruler)";
      break;
    case Tool::engraved:
      cell.reading.tolerance = engraved_tolerance * std::abs(cell.reading.value);
      how = "± 3 % (engraved)";
      break;
    case Tool::multimeter:
      cell.reading.tolerance = multimeter_tolerance * std::abs(cell.reading.value);
      how = "± 1 % (multimeter)";
      break;
    case Tool::recording:
      cell.reading.tolerance = recording_tolerance * std::abs(cell.reading.value);
      how = "± 3 % (timed from a recording)";
      break;
    case Tool::part_marking:
      cell.reading.tolerance = part_tolerance * std::abs(cell.reading.value);
      how = "± 20 % (marking on a part)";
      break;
    case Tool::none:
      break;
  }
  if (about.sign == Sign::positive && *cell.reading.tolerance >= cell.reading.value) {
    diagnostics_.error(cell.place,
                       fmt::format("no ± is written here, and the usual {} is as large as the "
                                   "value itself",
                                   how),
                       "write after it the ± that you are sure of");
    return false;
  }
  if (assumed_.empty()) first_assumed_ = cell.place;
  assumed_.emplace_back(path, how);
  return true;
}

void CellReader::note_assumed_tolerances() {
  if (assumed_.empty()) return;
  std::string list;
  for (const auto& [name, tolerance] : assumed_) {
    list.append(list.empty() ? "" : ", ").append(name).append(" ").append(tolerance);
  }
  diagnostics_.add({Severity::note,
                    first_assumed_,
                    fmt::format("no ± is written here{}; taken: {}",
                                assumed_.size() > 1 ? " and elsewhere" : "", list),
                    {},
                    {}});
}

}  // namespace backfit
