// SPDX-License-Identifier: MIT
// What is wrong in an owner's file, said where it is wrong and how to put it right.
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "files/source.hpp"

namespace backfit {

enum class Severity { error, warning, note };

// A second place that a message speaks of ("first given here").
struct Remark {
  Place place;
  std::string text;
};

// One message. `help` is a statement ready to paste, empty when none is sure.
struct Diagnostic {
  Severity severity = Severity::error;
  Place place;
  std::string text;
  std::string help;
  std::vector<Remark> remarks;
};

// All messages of a run, in the order they were found.
class Diagnostics {
 public:
  void add(Diagnostic diagnostic) { list_.push_back(std::move(diagnostic)); }
  void error(Place place, std::string text, std::string help = {}) {
    add({Severity::error, std::move(place), std::move(text), std::move(help), {}});
  }
  // Sorts the messages after the first `from`, which are of one file, by their places; of more than
  // a hundred the last one says how many more there were.
  void put_in_file_order(std::size_t from);
  bool has_errors() const;
  const std::vector<Diagnostic>& list() const { return list_; }

 private:
  std::vector<Diagnostic> list_;
};

// "file:line:column: label: text", the guilty line with its stretch underlined, then one line
// for each of `trailers` ("= help: ..."). Without a place only "label: text" and trailers. Control
// characters that an owner's file puts into a text are shown as U+FFFD.
std::string rendered(std::string_view label, const Place& place, std::string_view text,
                     const std::vector<std::string>& trailers = {});
std::string rendered(const Diagnostic& diagnostic);

// The text of a file of at most 1 MiB. Adds one error and returns null when the file is missing,
// unreadable, a folder, larger, or not UTF-8. `asked_at` is the place that names the file.
std::shared_ptr<const SourceText> read_source(const std::filesystem::path& path,
                                              Diagnostics& diagnostics, const Place& asked_at = {});

}  // namespace backfit
