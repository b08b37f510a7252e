// SPDX-License-Identifier: MIT
// The tags of an XML text one after another: as much of the standard as part files use.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace backfit {

class XmlReader {
 public:
  struct Tag {
    std::string_view name;
    bool opens = false, closes = false;                                     // <a>, </a>; both: <a/>
    std::vector<std::pair<std::string_view, std::string_view>> attributes;  // as written

    // An attribute as written; empty if there is none.
    std::optional<std::string_view> attribute(std::string_view wanted) const;
  };

  // Requires `text` to outlive the reader and its tags.
  explicit XmlReader(std::string_view text) : text_(text) {}

  // The next tag; words between tags, comments and instructions are skipped. Empty at the end, and
  // at a fault, which fault() then tells. The tag is good until the next call.
  const Tag* next();
  const std::string& fault() const { return fault_; }
  std::size_t line() const;  // on which the last tag begins

 private:
  const Tag* wrong(std::string what);

  std::string_view text_;
  std::size_t at_ = 0, start_ = 0;
  Tag tag_;
  std::string fault_;
};

// Text as an element or an attribute holds it; control characters, which XML can't hold, become
// spaces.
std::string escaped(std::string_view text);

// An attribute's text with its entities put in, as UTF-8.
std::string unescaped(std::string_view written);

}  // namespace backfit
