// SPDX-License-Identifier: MIT
// A small description of a file of its own, and what reading a text by it says.
#pragma once
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "files/reader.hpp"

namespace backfit {

enum class Finish { dull, bright };
template <>
inline std::span<const std::pair<std::string_view, Finish>> choices_of<Finish>() {
  static constexpr std::pair<std::string_view, Finish> list[] = {{"dull", Finish::dull},
                                                                 {"bright", Finish::bright}};
  return list;
}

struct Hole {
  Place place;
  Stated<Measured<Length>> x;
};

struct Bracket {
  Stated<std::string> name;
  std::optional<Stated<Finish>> finish;
  std::optional<Stated<Measured<Length>>> caliper, ruler, engraved, bare;
  std::optional<Stated<int>> count;
  std::optional<Stated<bool>> left;
  std::vector<Stated<Time>> times;
  std::vector<Hole> holes;
  std::vector<std::pair<std::string, Hole>> spares;
};

inline void describe(Fields& f, Hole& h) {
  f.value("x", h.x, {"right of the middle", "1.0 mm ± 0.1", Tool::caliper, Sign::any});
}

inline void describe(Fields& f, Bracket& b) {
  f.value("name", b.name, {"what it is", "left bracket"});
  f.value("finish", b.finish, {"how it shines"});
  f.value("caliper", b.caliper, {"a width", {}, Tool::caliper});
  f.value("ruler", b.ruler, {"a height", {}, Tool::ruler});
  f.value("engraved", b.engraved, {"a mark", {}, Tool::engraved});
  f.value("bare", b.bare, {"a depth"});
  f.value("count", b.count, {"how many", "2"});
  f.value("left", b.left, {"whether it is the left one"});
  f.values("times", b.times, {"times", "1 s, 2 s"}, false);
  f.records("holes", b.holes, {"A hole"}, false);
  f.named_records("spare", b.spares, {"Spare holes"});
}

// What `text` reads as, with all its messages.
struct ReadBracket {
  explicit ReadBracket(const std::string& text)
      : source(std::make_shared<const SourceText>("b.toml", text)),
        bracket(read_record<Bracket>(source, diagnostics)) {}
  // The only message, as a person sees it.
  std::string message() const {
    return diagnostics.list().size() == 1 ? rendered(diagnostics.list().front())
                                          : std::to_string(diagnostics.list().size()) + " messages";
  }
  std::shared_ptr<const SourceText> source;
  Diagnostics diagnostics;
  std::optional<Bracket> bracket;
};

}  // namespace backfit
