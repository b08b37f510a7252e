// SPDX-License-Identifier: MIT
// Names of the owner's files looked up in the shipped lists.
#pragma once
#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "files/diagnostic.hpp"
#include "files/fields.hpp"

namespace backfit {

// The entry that `stated` names, or null with an error that offers the nearest id; null without
// one for a name that was not read.
template <class T>
const T* looked_up(const std::vector<T>& list, const Stated<std::string>& stated,
                   std::string_view what, std::string_view command, Diagnostics& diagnostics) {
  if (!stated.place) return nullptr;
  const auto it = std::ranges::find_if(list, [&](const T& t) { return t.id.value == *stated; });
  if (it != list.end()) return &*it;
  std::vector<std::string_view> ids;
  ids.reserve(list.size());
  for (const T& t : list) ids.push_back(t.id.value);
  const std::string_view near = nearest_name(*stated, ids);
  diagnostics.error(
      stated.place, fmt::format("the catalogue has no {} '{}'", what, *stated),
      near.empty() ? fmt::format("`{}` lists them", command) : fmt::format("write \"{}\"", near));
  return nullptr;
}

}  // namespace backfit
