// SPDX-License-Identifier: MIT
// Gathers triangles into a mesh on shared corners. For the readers of this room.
#pragma once
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <unordered_map>

#include "solid/mesh.hpp"

namespace backfit {

// Far more than any printed part has; a damaged file may promise anything.
inline constexpr std::size_t most_triangles = std::size_t{1} << 26U;

class MeshBuilder {
 public:
  using Corner = std::array<float, 3>;

  static bool is_finite(const Corner& c) {
    return std::isfinite(c[0]) && std::isfinite(c[1]) && std::isfinite(c[2]);
  }

  // Corners of equal coordinates become one; a triangle with two like corners is left out.
  void add(const Corner& a, const Corner& b, const Corner& c) {
    const std::array<std::uint32_t, 3> t{number(a), number(b), number(c)};
    if (t[0] != t[1] && t[1] != t[2] && t[2] != t[0]) mesh_.triangles.push_back(t);
  }
  std::size_t triangles() const { return mesh_.triangles.size(); }
  Mesh mesh() && { return std::move(mesh_); }

 private:
  struct Hash {
    std::size_t operator()(const Corner& c) const {
      std::uint64_t h = 0;
      for (const float x : c) {
        h = (h ^ std::bit_cast<std::uint32_t>(x)) * 0x9e3779b97f4a7c15;
        h ^= h >> 29U;
      }
      return h;
    }
  };
  std::uint32_t number(Corner c) {
    for (float& x : c) x += 0.0F;  // -0 becomes 0
    const auto [at, is_new] =
        numbers_.try_emplace(c, static_cast<std::uint32_t>(mesh_.points_mm.size()));
    if (is_new) mesh_.points_mm.push_back(c);
    return at->second;
  }

  Mesh mesh_;
  std::unordered_map<Corner, std::uint32_t, Hash> numbers_;
};

}  // namespace backfit
