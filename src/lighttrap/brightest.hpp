// SPDX-License-Identifier: MIT
// What brings most light. For the walks of this room.
#pragma once
#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>
#include <vector>

namespace backfit::ray {

// Of what brings light, by how much, the brightest first, at most so many.
template <class What>
std::vector<std::pair<double, What>> brightest(const std::map<What, double>& lights,
                                               std::size_t most) {
  std::vector<std::pair<double, What>> all;
  all.reserve(lights.size());
  for (const auto& [what, light] : lights) all.emplace_back(light, what);
  std::sort(all.rbegin(), all.rend());
  if (all.size() > most) all.resize(most);
  return all;
}

}  // namespace backfit::ray
