// SPDX-License-Identifier: MIT
// Texts that stand in for files while their owner is still editing them.
#pragma once
#include <filesystem>
#include <map>
#include <memory>
#include <string>

#include "files/diagnostic.hpp"

namespace backfit {

// Texts by the path of the file that each stands in for.
class Drafts {
 public:
  void put(const std::filesystem::path& path, std::string text);
  // The text for `path`, however that is spelt; null when there is none.
  const std::string* find(const std::filesystem::path& path) const;

 private:
  std::map<std::filesystem::path, std::string> texts_;
};

// `text` as the source of the file `path`, held to the same limits as read_source() does: adds one
// error and returns null when it is larger than 1 MiB or not UTF-8.
std::shared_ptr<const SourceText> source_of(const std::filesystem::path& path, std::string text,
                                            Diagnostics& diagnostics, const Place& asked_at = {});

// The draft of the file `path`; where there is none, read_source().
std::shared_ptr<const SourceText> read_source(const std::filesystem::path& path,
                                              const Drafts& drafts, Diagnostics& diagnostics,
                                              const Place& asked_at = {});

}  // namespace backfit
