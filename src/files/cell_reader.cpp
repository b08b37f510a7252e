// SPDX-License-Identifier: MIT
#include "files/cell_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backfit {
namespace {

// Half-widths taken when a survey gives none. Common practice at the bench, no source.
constexpr Length caliper_tolerance = 0.05 * mm;
constexpr Length ruler_tolerance = 0.5 * mm;
constexpr double engraved_tolerance = 0.03;  // of the value

}  // namespace

Place CellReader::place_of(const toml::source_region& region) const {
  const std::size_t line = std::max<std::size_t>(1, region.begin.line);
  const std::size_t column = std::max<std::size_t>(1, region.begin.column);
  std::size_t length = 1;
  if (region.end.line == region.begin.line && region.end.column > region.begin.column) {
    length = region.end.column - region.begin.column;
  } else if (region.end.line != region.begin.line) {
    const std::size_t width = code_points(source_->line(line));
    length = width >= column ? width - column + 1 : 1;
  }
  return {source_, line, column, length};
}
void CellReader::wrong_type(const toml::node& node, std::string_view key, std::string_view needed) {
  std::string_view found = "a value of another type";
  switch (node.type()) {
    case toml::node_type::string:
      found = "text";
      break;
    case toml::node_type::integer:
    case toml::node_type::floating_point:
      found = "a bare number";
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
      return choice_of(node, key, form, std::move(cell));
    case CellForm::Form::text:
      if (const auto* s = node.as_string()) {
        cell.text = s->get();
        if (!cell.text.empty()) return cell;
        diagnostics_.error(cell.place, fmt::format("'{}' is empty: {}", key, about.meaning));
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
  const bool allowed = about.sign == Sign::any || cell.number > 0 ||
                       (about.sign == Sign::not_negative && cell.number == 0);
  if (!allowed || !(std::abs(cell.number) < 1e9)) {
    diagnostics_.error(cell.place,
                       fmt::format("'{}' is {:g}, which is out of range", key, cell.number));
    return {};
  }
  return cell;
}

std::optional<Cell> CellReader::choice_of(const toml::node& node, std::string_view key,
                                          const CellForm& form, Cell cell) {
  const auto* s = node.as_string();
  if (s == nullptr) {
    wrong_type(node, key, "text in quotes");
    return {};
  }
  cell.text = s->get();
  if (std::ranges::find(form.choices, cell.text) != form.choices.end()) return cell;
  std::string all;
  for (const std::string_view c : form.choices)
    all += (all.empty() ? "\"" : ", \"") + std::string(c) + "\"";
  const std::string_view near = nearest_name(cell.text, form.choices);
  diagnostics_.error(
      cell.place, fmt::format("'{}' is not a choice for '{}'; known are {}", cell.text, key, all),
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
      const std::string_view line = source_->line(cell.place.line);
      const std::string written(
          line.substr(std::min(line.size(), cell.place.column - 1), cell.place.length));
      const std::string_view unit = kind.units.front().spelling;
      diagnostics_.error(
          cell.place, fmt::format("'{}' is a bare number; a {} bears its unit", written, kind.name),
          kind.units.front().before
              ? fmt::format("write \"{}{}\"", unit, written)
              : fmt::format("write \"{} {}\" if it is in {}", written, unit, unit));
    } else {
      wrong_type(node, key, fmt::format("a {} such as \"{}\"", kind.name, example));
    }
    return {};
  }
  const std::string& text = s->get();
  if (text.find_first_not_of(" \t") == std::string::npos) {
    diagnostics_.error(cell.place, fmt::format("'{}' is not filled in: {}", key, about.meaning),
                       fmt::format("measure it and write it like \"{}\"", example));
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
    diagnostics_.error(cell.place, fmt::format("'{}' takes no tolerance", key));
    return {};
  }
  if (!cell.reading.tolerance && form.takes_tolerance) assume_tolerance(path, about, cell);
  return cell;
}

void CellReader::assume_tolerance(std::string_view path, const About& about, Cell& cell) {
  if (about.tool == Tool::none) return;
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
    case Tool::none:
      break;
  }
  if (assumed_.empty()) first_assumed_ = cell.place;
  assumed_.emplace_back(path, how);
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
