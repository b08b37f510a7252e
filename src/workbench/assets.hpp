// SPDX-License-Identifier: MIT
// The page's files, kept in the program: there is no file system behind them.
#pragma once
#include <span>
#include <string_view>

namespace backfit {

struct Asset {
  std::string_view path;  // as asked for
  std::string_view type;  // of its content
  std::string_view etag;  // with its quotes
  std::string_view gzip;  // its bytes, compressed
};

std::span<const Asset> assets();

}  // namespace backfit
