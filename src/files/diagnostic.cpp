// SPDX-License-Identifier: MIT
#include "files/diagnostic.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "files/drafts.hpp"
#include "files/raw_file.hpp"

namespace backfit {
namespace {

constexpr std::uintmax_t largest_file = 1024UL * 1024;
constexpr std::size_t widest_line = 160;    // code points shown of a guilty line
constexpr std::size_t most_messages = 100;  // of one file

std::string_view label_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    case Severity::note:
      break;
  }
  return "note";
}

// `text` with a mark in the place of each control character, which could move a terminal's cursor
// or clear its screen. Tabs stay.
std::string shown(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    const bool two_bytes = c == 0xC2 && i + 1 < text.size() &&
                           static_cast<unsigned char>(text[i + 1]) < 0xA0;  // U+0080 to U+009F
    if ((c < 0x20 && c != '\t') || c == 0x7F || two_bytes) {
      out += "\uFFFD";
      i += two_bytes ? 1 : 0;
    } else {
      out += text[i];
    }
  }
  return out;
}

std::string quoted_line(const Place& place) {
  const std::string_view line = place.source->line(place.line);
  const std::string_view visible = code_point_slice(line, 0, widest_line);
  const std::string number = std::to_string(place.line);
  std::string blank;
  for (const char c : code_point_slice(line, 0, place.column - 1)) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) blank += c == '\t' ? '\t' : ' ';
  }
  std::string out = fmt::format("{:>3} | {}\n", number, shown(visible));
  const std::size_t width = code_points(visible);
  if (place.column <= width + 1) {
    const std::size_t room = std::max<std::size_t>(1, width + 1 - place.column);
    out +=
        fmt::format("{:>3} | {}^{}\n", "", blank,
                    std::string(std::min(std::max<std::size_t>(place.length, 1), room) - 1, '~'));
  }
  return out;
}

}  // namespace

bool Diagnostics::has_errors() const {
  return std::ranges::any_of(list_,
                             [](const Diagnostic& d) { return d.severity == Severity::error; });
}

std::string rendered(std::string_view label, const Place& place, std::string_view text,
                     const std::vector<std::string>& trailers) {
  std::string out;
  if (place) {
    out = fmt::format("{}:{}:{}: {}: {}\n", place.source->path().string(), place.line, place.column,
                      label, shown(text));
    if (!place.source->line(place.line).empty()) out += quoted_line(place);
  } else {
    out = fmt::format("{}: {}\n", label, shown(text));
  }
  for (const std::string& trailer : trailers) out += fmt::format("    = {}\n", shown(trailer));
  return out;
}

std::string rendered(const Diagnostic& diagnostic) {
  std::vector<std::string> trailers;
  if (!diagnostic.help.empty()) trailers.push_back("help: " + diagnostic.help);
  std::string out =
      rendered(label_of(diagnostic.severity), diagnostic.place, diagnostic.text, trailers);
  for (const Remark& remark : diagnostic.remarks)
    out += rendered("note", remark.place, remark.text);
  return out;
}

void Diagnostics::put_in_file_order(std::size_t from) {
  std::stable_sort(list_.begin() + static_cast<std::ptrdiff_t>(from), list_.end(),
                   [](const Diagnostic& a, const Diagnostic& b) {
                     return std::pair(a.place.line, a.place.column) <
                            std::pair(b.place.line, b.place.column);
                   });
  const std::size_t last = from + most_messages;
  if (list_.size() <= last) return;
  const std::size_t unsaid = list_.size() - last;
  const Place first_unsaid = list_[last].place;
  list_.erase(list_.begin() + static_cast<std::ptrdiff_t>(last), list_.end());
  error(first_unsaid, fmt::format("from here on this file has {} more mistakes", unsaid));
}

std::shared_ptr<const SourceText> read_source(const std::filesystem::path& path,
                                              Diagnostics& diagnostics, const Place& asked_at) {
  std::optional<std::string> bytes = read_bytes(path, largest_file, diagnostics, asked_at);
  if (!bytes) return nullptr;
  return source_of(path, std::move(*bytes), diagnostics, asked_at);
}

std::shared_ptr<const SourceText> source_of(const std::filesystem::path& path, std::string text,
                                            Diagnostics& diagnostics, const Place& asked_at) {
  if (text.size() > largest_file) {
    too_large(path, text.size(), largest_file, diagnostics, asked_at);
    return nullptr;
  }
  if (text.starts_with("\uFEFF")) text.erase(0, 3);  // a byte order mark is no text
  const std::size_t bad = first_invalid_utf8(text);
  if (bad != std::string::npos) {
    const auto before = std::string_view(text).substr(0, bad);
    const std::size_t line_start = before.rfind('\n') + 1;
    const auto byte = static_cast<unsigned char>(text[bad]);
    Place place{nullptr, static_cast<std::size_t>(std::ranges::count(before, '\n')) + 1,
                code_points(before.substr(line_start)) + 1, 1};
    // Only what can be shown: the text up to the guilty byte.
    std::string valid(before);
    const std::size_t rest = text.find('\n', bad);
    valid += "?";
    if (rest != std::string::npos && bad + 1 < rest) {
      const std::string tail = text.substr(bad + 1, rest - bad - 1);
      if (first_invalid_utf8(tail) == std::string::npos) valid += tail;
    }
    place.source = std::make_shared<const SourceText>(path, valid);
    diagnostics.error(place, fmt::format("byte 0x{:02X} is not UTF-8 text", byte),
                      "save the file as UTF-8");
    return nullptr;
  }
  return std::make_shared<const SourceText>(path, std::move(text));
}

}  // namespace backfit
