// SPDX-License-Identifier: MIT
// What the desk's questions share: what was asked, and answers put together from parts.
#pragma once
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "conversion/assembly.hpp"
#include "files/drafts.hpp"
#include "workbench/desk.hpp"

namespace backfit {

// NOLINTNEXTLINE(bugprone-exception-escape): moving a JSON value throws nothing
struct Desk::Asked {
  nlohmann::ordered_json body;
  std::string conversion, camera;  // the texts
  Drafts drafts;

  // Options of a question; what is left out, or is something else, is the second.
  bool flag(const char* name, bool otherwise) const {
    return body.contains(name) && body[name].is_boolean() ? body[name].get<bool>() : otherwise;
  }
  double number(const char* name, double otherwise) const {
    return body.contains(name) && body[name].is_number() ? body[name].get<double>() : otherwise;
  }
  std::string text(const char* name) const {
    return body.contains(name) && body[name].is_string() ? body[name].get<std::string>()
                                                         : std::string();
  }
};

// An answer whose parts are JSON already.
class AnswerParts {
 public:
  void put(std::string_view name, std::string_view json) {
    text_ += fmt::format(",\n\"{}\": {}", name, json.empty() ? "null" : json);
  }
  std::string whole() const { return "{\"schema\": \"backfit.workbench/1\"" + text_ + "}\n"; }

 private:
  std::string text_;
};

inline std::string refused(std::string_view code, std::string_view text) {
  return nlohmann::ordered_json{{"error", code}, {"text", text}}.dump() + "\n";
}

// What is to be measured first, and the letter for it in the survey's sketches.
nlohmann::ordered_json measure_first(const std::vector<MissingMeasurement>& missing);

}  // namespace backfit
