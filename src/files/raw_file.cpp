// SPDX-License-Identifier: MIT
#include "files/raw_file.hpp"

#include <fmt/format.h>

#include <fstream>
#include <iterator>

namespace backfit {

void too_large(const std::filesystem::path& path, std::uintmax_t size, std::uintmax_t largest,
               Diagnostics& diagnostics, const Place& asked_at) {
  diagnostics.error(asked_at,
                    fmt::format("'{}' holds {:.1f} MB; a file of this kind has less than {} MB",
                                path.string(), static_cast<double>(size) / 1e6, largest >> 20U));
}

std::optional<std::string> read_bytes(const std::filesystem::path& path, std::uintmax_t largest,
                                      Diagnostics& diagnostics, const Place& asked_at) {
  std::error_code failure;
  const auto status = std::filesystem::status(path, failure);
  if (!std::filesystem::exists(status)) {
    diagnostics.error(asked_at, fmt::format("there is no file '{}'", path.string()));
    return {};
  }
  if (!std::filesystem::is_regular_file(status)) {
    const bool folder = std::filesystem::is_directory(status);
    diagnostics.error(asked_at, fmt::format("'{}' is {}", path.string(),
                                            folder ? "a folder; a file is needed"
                                                   : "not a file that can be read"));
    return {};
  }
  const std::uintmax_t size = std::filesystem::file_size(path, failure);
  if (!failure && size > largest) {
    too_large(path, size, largest, diagnostics, asked_at);
    return {};
  }
  std::ifstream file(path, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  if (!file) {
    diagnostics.error(asked_at, fmt::format("'{}' can't be read", path.string()));
    return {};
  }
  return bytes;
}

}  // namespace backfit
