// SPDX-License-Identifier: MIT
// A file to fill in, from the same description that reads it.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "files/reader.hpp"

namespace backfit {

// One line of a form: a heading (a table) or a key.
struct FormLine {
  bool heading = false;
  bool list = false;  // the table or value may be repeated
  bool required = true;
  std::string path;  // "gate", "seat.screws"; for a key, its table's path
  std::string key;   // empty for a heading
  std::string meaning;
  std::string example;  // as it would be written, quotes included
  std::string blank;    // the same, not filled in
};

// Every table and key of `description`, in file order.
std::vector<FormLine> form_lines(const Description& description);

// The form as a commented TOML file: required keys stand ready and empty, which the reader
// reports as not filled in; optional ones are commented out.
std::string blank_form(std::string_view schema_file, std::string_view heading,
                       const std::vector<FormLine>& lines);

}  // namespace backfit
