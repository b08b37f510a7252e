// SPDX-License-Identifier: MIT
#include "workbench/open_file.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <string_view>

#include "files/diagnostic.hpp"
#include "files/folder.hpp"

#include <fstream>
#include <iterator>

namespace backfit {
namespace {

namespace fs = std::filesystem;
constexpr std::string_view byte_order_mark = "\uFEFF";

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

// FNV-1a, 64 bits: against slips, not forgery.
std::string stamp_of(std::string_view bytes) {
  std::uint64_t hash = 0xcbf29ce484222325;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3;
  return fmt::format("{:016x}-{}", hash, bytes.size());
}

std::string with_line_feeds(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
    plain += text[i];
  }
  return plain;
}

std::string with_carriage_returns(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n') out += '\r';
    out += c;
  }
  return out;
}

}  // namespace

FileState OpenFile::on_disk() const {
  Diagnostics unsaid;
  const auto source = read_source(path_, unsaid);
  if (source == nullptr) return {};
  return {with_line_feeds(source->text()), stamp_of(bytes_of(path_))};
}

std::optional<std::string> OpenFile::save(const std::string& text, const std::string& seen) const {
  const std::string old = bytes_of(path_);
  std::error_code failure;
  const bool there = fs::exists(path_, failure);
  if ((there ? stamp_of(old) : std::string()) != seen) return {};
  // As the file has them; in a mixture the first line decides.
  const std::size_t first_end = old.find('\n');
  const bool returns =
      first_end != std::string::npos && first_end > 0 && old[first_end - 1] == '\r';
  std::string bytes = returns ? with_carriage_returns(text) : text;
  if (old.starts_with(byte_order_mark)) bytes.insert(0, byte_order_mark);
  const fs::path target = there ? fs::canonical(path_, failure) : path_;
  const fs::file_status status = fs::status(target, failure);
  replace_file(target, bytes);
  if (there) fs::permissions(target, status.permissions(), failure);
  return stamp_of(bytes);
}

}  // namespace backfit
