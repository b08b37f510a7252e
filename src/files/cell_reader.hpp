// SPDX-License-Identifier: MIT
// One TOML value turned into a cell: its type, its quantity, its tolerance, each fault at its
// place.
#pragma once
#include <toml++/toml.h>

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "files/diagnostic.hpp"
#include "files/fields.hpp"

namespace backfit {

class CellReader {
 public:
  CellReader(std::shared_ptr<const SourceText> source, Diagnostics& diagnostics)
      : source_(std::move(source)), diagnostics_(diagnostics) {}

  // Where a node stands; a stretch over several lines counts to the end of its first.
  Place place_of(const toml::source_region& region) const;
  Place place_of(const toml::node& node) const { return place_of(node.source()); }

  // The value under `key` in `form`; empty exactly when an error was added. `path` is the key
  // with its tables, for the note on tolerances.
  std::optional<Cell> cell_of(const toml::node& node, std::string_view key, std::string_view path,
                              const CellForm& form, const About& about);

  // Adds the error that `key` is of one type and `needed` is wanted.
  void wrong_type(const toml::node& node, std::string_view key, std::string_view needed);

  // One note that lists every tolerance taken by default; none if there is none.
  void note_assumed_tolerances();

 private:
  std::optional<Cell> number_of(const toml::node& node, std::string_view key, const CellForm& form,
                                const About& about, Cell cell);
  std::optional<Cell> choice_of(const toml::node& node, std::string_view key, const CellForm& form,
                                const About& about, Cell cell);
  std::optional<Cell> quantity_of(const toml::node& node, std::string_view key,
                                  std::string_view path, const CellForm& form, const About& about,
                                  Cell cell);
  bool within_a_workshop(const Cell& cell, const About& about);
  void not_filled_in(const Place& place, std::string_view key, const About& about,
                     std::string help);
  // False, with an error added, when the default is as large as a value that must be positive.
  bool assume_tolerance(std::string_view path, const About& about, Cell& cell);

  std::shared_ptr<const SourceText> source_;
  Diagnostics& diagnostics_;
  std::vector<std::pair<std::string, std::string>> assumed_;
  Place first_assumed_;
};

}  // namespace backfit
