// SPDX-License-Identifier: MIT
#include "files/diagnostic.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>

namespace backfit {
namespace {

constexpr std::uintmax_t largest_file = 1024UL * 1024;
constexpr std::size_t widest_line = 160;  // code points shown of a guilty line

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

// First `count` code points of `text`.
std::string_view head(std::string_view text, std::size_t count) {
  std::size_t i = 0;
  while (i < text.size()) {
    if ((static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U && count-- == 0) break;
    ++i;
  }
  return text.substr(0, i);
}

std::string quoted_line(const Place& place) {
  const std::string_view line = place.source->line(place.line);
  const std::string_view shown = head(line, widest_line);
  const std::string number = std::to_string(place.line);
  std::string blank;
  for (const char c : head(line, place.column - 1)) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) blank += c == '\t' ? '\t' : ' ';
  }
  std::string out = fmt::format("{:>3} | {}\n", number, shown);
  const std::size_t width = code_points(shown);
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
                      label, text);
    if (!place.source->line(place.line).empty()) out += quoted_line(place);
  } else {
    out = fmt::format("{}: {}\n", label, text);
  }
  for (const std::string& trailer : trailers) out += fmt::format("    = {}\n", trailer);
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

std::shared_ptr<const SourceText> read_source(const std::filesystem::path& path,
                                              Diagnostics& diagnostics, const Place& asked_at) {
  std::error_code failure;
  const auto status = std::filesystem::status(path, failure);
  if (!std::filesystem::exists(status)) {
    diagnostics.error(asked_at, fmt::format("there is no file '{}'", path.string()));
    return nullptr;
  }
  if (!std::filesystem::is_regular_file(status)) {
    diagnostics.error(asked_at, fmt::format("'{}' is not a file", path.string()));
    return nullptr;
  }
  const std::uintmax_t size = std::filesystem::file_size(path, failure);
  if (!failure && size > largest_file) {
    diagnostics.error(asked_at,
                      fmt::format("'{}' holds {:.1f} MB; a file of this kind has less than 1 MB",
                                  path.string(), static_cast<double>(size) / 1e6));
    return nullptr;
  }
  std::ifstream file(path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  if (!file) {
    diagnostics.error(asked_at, fmt::format("'{}' can't be read", path.string()));
    return nullptr;
  }
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
