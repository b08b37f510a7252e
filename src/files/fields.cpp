// SPDX-License-Identifier: MIT
#include "files/fields.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace backfit {

std::string written_example(const CellForm& form, const About& about, bool list) {
  std::string_view rest = about.example;
  bool quotes = true;
  switch (form.form) {
    case CellForm::Form::quantity:
      if (rest.empty()) rest = form.kind->example;
      break;
    case CellForm::Form::choice:
      rest = form.choices.front();
      break;
    case CellForm::Form::text:
      break;
    case CellForm::Form::flag:
      rest = "true";
      quotes = false;
      break;
    case CellForm::Form::number:
    case CellForm::Form::integer:
      quotes = false;
      break;
  }
  if (!list) return quotes ? fmt::format("\"{}\"", rest) : std::string(rest);
  std::string items;
  while (!rest.empty()) {
    const std::string_view item = rest.substr(0, rest.find(", "));
    items += fmt::format("{}{}{}{}", items.empty() ? "" : ", ", quotes ? "\"" : "", item,
                         quotes ? "\"" : "");
    rest.remove_prefix(std::min(rest.size(), item.size() + 2));
  }
  return "[" + items + "]";
}

std::string list_of(std::span<const std::string_view> choices, std::string_view joint) {
  std::string list;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    if (i > 0) list += i + 1 == choices.size() ? fmt::format(" {} ", joint) : ", ";
    list += fmt::format("\"{}\"", choices[i]);
  }
  return list;
}

}  // namespace backfit
