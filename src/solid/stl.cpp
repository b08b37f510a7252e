// SPDX-License-Identifier: MIT
#include "solid/stl.hpp"

#include <bit>
#include <cmath>

namespace backfit {
namespace {

// Little-endian, whatever the machine's own order.
void put_u32(char* at, std::uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8) *at++ = static_cast<char>(value >> shift & 0xffU);
}

void put_vector(char* at, const std::array<float, 3>& vector) {
  for (const float coordinate : vector) {
    put_u32(at, std::bit_cast<std::uint32_t>(coordinate));
    at += 4;
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
  constexpr std::size_t head = 80, count = 4, record = 50;
  bytes.resize(head, ' ');
  bytes.resize(head + count + record * mesh.triangles.size(), '\0');
  put_u32(&bytes[head], static_cast<std::uint32_t>(mesh.triangles.size()));
  char* at = bytes.data() + head + count;
  for (const auto& [a, b, c] : mesh.triangles) {
    put_vector(at, normal_of(mesh.points_mm[a], mesh.points_mm[b], mesh.points_mm[c]));
    put_vector(at + 12, mesh.points_mm[a]);
    put_vector(at + 24, mesh.points_mm[b]);
    put_vector(at + 36, mesh.points_mm[c]);
    at += record;  // its last two bytes, 0, are the attribute count that the format asks for
  }
  return bytes;
}

}  // namespace backfit
