// SPDX-License-Identifier: MIT
#include "solid/stl.hpp"

#include <bit>
#include <cmath>

namespace backfit {
namespace {

void append_u32(std::string& bytes, std::uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8) {
    bytes.push_back(static_cast<char>(value >> shift & 0xffU));
  }
}

void append_vector(std::string& bytes, const std::array<float, 3>& vector) {
  for (const float coordinate : vector) {
    append_u32(bytes, std::bit_cast<std::uint32_t>(coordinate));
  }
}

// The unit normal by the right-hand rule; zero for a triangle too thin to have one.
std::array<float, 3> normal_of(const std::array<float, 3>& a, const std::array<float, 3>& b,
                               const std::array<float, 3>& c) {
  const auto side = [&a](const std::array<float, 3>& p, std::size_t i) {
    return static_cast<double>(p[i]) - static_cast<double>(a[i]);
  };
  std::array<double, 3> n{};
  for (std::size_t i = 0; i < 3; ++i) {
    const std::size_t j = (i + 1) % 3;
    const std::size_t k = (i + 2) % 3;
    n[i] = side(b, j) * side(c, k) - side(b, k) * side(c, j);
  }
  const double length = std::hypot(n[0], n[1], n[2]);
  if (!(length > 0)) {
    return {};
  }
  return {static_cast<float>(n[0] / length), static_cast<float>(n[1] / length),
          static_cast<float>(n[2] / length)};
}

}  // namespace

std::string stl_file(const Mesh& mesh, std::string_view part_name) {
  // A header that begins with "solid" would pass for the text form of the format.
  std::string bytes = "binary STL, mm: " + std::string(part_name);
  bytes.resize(80, ' ');
  append_u32(bytes, static_cast<std::uint32_t>(mesh.triangles.size()));
  for (const auto& [a, b, c] : mesh.triangles) {
    append_vector(bytes, normal_of(mesh.points_mm[a], mesh.points_mm[b], mesh.points_mm[c]));
    append_vector(bytes, mesh.points_mm[a]);
    append_vector(bytes, mesh.points_mm[b]);
    append_vector(bytes, mesh.points_mm[c]);
    bytes.append(2, '\0');  // the attribute count that the format asks for
  }
  return bytes;
}

}  // namespace backfit
