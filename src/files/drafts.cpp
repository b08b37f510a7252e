// SPDX-License-Identifier: MIT
#include "files/drafts.hpp"

#include <utility>

namespace backfit {
namespace {

std::filesystem::path plain(const std::filesystem::path& path) {
  return std::filesystem::absolute(path).lexically_normal();
}

}  // namespace

void Drafts::put(const std::filesystem::path& path, std::string text) {
  texts_[plain(path)] = std::move(text);
}

const std::string* Drafts::find(const std::filesystem::path& path) const {
  if (texts_.empty()) return nullptr;
  const auto it = texts_.find(plain(path));
  return it == texts_.end() ? nullptr : &it->second;
}

std::shared_ptr<const SourceText> read_source(const std::filesystem::path& path,
                                              const Drafts& drafts, Diagnostics& diagnostics,
                                              const Place& asked_at) {
  const std::string* draft = drafts.find(path);
  return draft == nullptr ? read_source(path, diagnostics, asked_at)
                          : source_of(path, *draft, diagnostics, asked_at);
}

}  // namespace backfit
