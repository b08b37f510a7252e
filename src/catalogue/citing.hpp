// SPDX-License-Identifier: MIT
// How every file of shipped data is read: numbers with their sources, records with their ids.
#pragma once
#include <algorithm>
#include <filesystem>
#include <string_view>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "files/reader.hpp"

namespace backfit {

template <>
std::span<const std::pair<std::string_view, Standing>> choices_of<Standing>();

template <class T>
void describe(Fields& f, Cited<T>& c) {
  f.value("value", c.value, {"the number"});
  f.value("source", c.source, {"id of its source"});
  f.value("status", c.status, {"how it came here"});
}

// One data file, read by `description`; true when no error was added.
inline bool read_data_file(const std::filesystem::path& path, const Description& description,
                           Diagnostics& diagnostics) {
  const auto source = read_source(path, diagnostics);
  return source != nullptr && read_by(source, description, diagnostics);
}

// The entry of `list` with this id, or null.
template <class T>
const T* with_id(const std::vector<T>& list, std::string_view id) {
  const auto it = std::ranges::find_if(list, [&](const T& t) { return t.id.value == id; });
  return it == list.end() ? nullptr : &*it;
}

}  // namespace backfit
