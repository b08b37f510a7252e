// SPDX-License-Identifier: MIT
// The bytes of an owner's file, or one error that says why there are none.
#pragma once
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include "files/diagnostic.hpp"

namespace backfit {

// The bytes of a file of at most `largest`. Adds one error and returns empty when the file is
// missing, unreadable, a folder or larger. `asked_at` is the place that names the file.
std::optional<std::string> read_bytes(const std::filesystem::path& path, std::uintmax_t largest,
                                      Diagnostics& diagnostics, const Place& asked_at = {});

// Adds the error on a file, or a text for one, of `size` where `largest` is the most.
void too_large(const std::filesystem::path& path, std::uintmax_t size, std::uintmax_t largest,
               Diagnostics& diagnostics, const Place& asked_at = {});

}  // namespace backfit
