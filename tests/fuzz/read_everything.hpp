// SPDX-License-Identifier: MIT
// Any bytes through every reader of owners' text, with the laws that hold whatever they say.
#pragma once
#include <cstdlib>
#include <iostream>
#include <memory>
#include <string>
#include <string_view>
#include <variant>

#include "files/reader.hpp"
#include "quantity/notation.hpp"
#include "survey/camera.hpp"
#include "survey/plan.hpp"
#include "survey/recording.hpp"

namespace backfit {

inline void demand(bool holds, std::string_view law, std::string_view text) {
  if (holds) return;
  std::cerr << "broken: " << law << "\nin: " << text << "\n";
  std::abort();
}

// Law: the stretch that a fault points at lies in the text, and the remedy it offers is read.
inline void read_as_quantities(std::string_view text) {
  for (const QuantityKind* kind : all_kinds()) {
    for (const Sign sign : {Sign::positive, Sign::not_negative, Sign::any}) {
      const auto result = read_quantity(text, *kind, sign);
      const auto* fault = std::get_if<NotationFault>(&result);
      if (fault == nullptr) continue;
      demand(fault->begin <= text.size() && fault->length <= text.size() - fault->begin,
             "a fault lies in its text", text);
      demand(!fault->message.empty(), "a fault has a message", text);
      if (fault->remedy.empty()) continue;
      const auto remedied = read_quantity(fault->remedy, *kind, sign);
      demand(std::holds_alternative<Reading>(remedied), "a remedy is read", text);
    }
  }
}

// Law: every message points into the file and can be shown; a record comes without errors only.
template <class R>
void read_as(const std::shared_ptr<const SourceText>& source) {
  Diagnostics diagnostics;
  const auto record = read_record<R>(source, diagnostics);
  demand(record.has_value() != diagnostics.has_errors(), "a record or errors", source->text());
  for (const Diagnostic& d : diagnostics.list()) {
    demand(d.place.source == source, "a message has a place", source->text());
    demand(d.place.line >= 1 && d.place.line <= source->line_count(), "a place is on a line",
           source->text());
    const std::size_t width = code_points(source->line(d.place.line));
    demand(
        d.place.column >= 1 && d.place.length >= 1 && d.place.column + d.place.length <= width + 2,
        "a place is in its line", source->text());
    demand(first_invalid_utf8(rendered(d)) == std::string_view::npos, "a message is UTF-8",
           source->text());
  }
}

// Law: a table is read or complained of, and complaints can be shown.
inline void read_as_table(const std::string& text) {
  for (const auto step : {std::optional<Time>{}, std::optional(10 * us)}) {
    Diagnostics diagnostics;
    const auto recording = recording_in_text("any.csv", text, step, diagnostics);
    demand(recording.has_value() != diagnostics.has_errors(), "a recording or errors", text);
    for (const Diagnostic& d : diagnostics.list()) {
      demand(first_invalid_utf8(rendered(d)) == std::string_view::npos, "a message is UTF-8", text);
    }
    if (!recording) continue;
    demand(recording->interval > Time{} && !recording->channels.empty(), "a recording has samples",
           text);
  }
}

inline void read_everything(const std::string& text) {
  read_as_table(text);
  if (first_invalid_utf8(text) != std::string_view::npos) return;  // the reader is not asked
  const auto source = std::make_shared<const SourceText>("any.toml", text);
  read_as<Camera>(source);
  read_as<Plan>(source);
  // A short text may itself be a quantity; of a long one, the first few values in quotes.
  if (text.size() <= 64) read_as_quantities(text);
  std::size_t at = 0;
  for (int value = 0; value < 6; ++value) {
    const std::size_t open = text.find('"', at);
    const std::size_t close = open == std::string::npos ? open : text.find('"', open + 1);
    if (close == std::string::npos) return;
    if (close - open <= 64) read_as_quantities(text.substr(open + 1, close - open - 1));
    at = close + 1;
  }
}

}  // namespace backfit
