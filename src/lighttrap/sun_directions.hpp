// SPDX-License-Identifier: MIT
// The sky cut into patches that a sun may stand in: a cube's faces, four by four fields on each.
// For the walks of this room.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>

#include "lighttrap/rays.hpp"

namespace backfit::ray {

inline constexpr std::size_t fields_a_side = 4;
inline constexpr std::size_t sun_directions = 6 * fields_a_side * fields_a_side;

struct SunDirection {
  Vec towards;  // of length 1
  double solid_angle = 0;
};

// The field that a direction points to.
inline std::size_t sun_direction_of(Vec d) {
  const double x = std::abs(d.x), y = std::abs(d.y), z = std::abs(d.z);
  const std::size_t axis = x >= y && x >= z ? 0 : y >= z ? 1 : 2;
  const double ahead = axis == 0 ? d.x : axis == 1 ? d.y : d.z;
  const double u = (axis == 0 ? d.y : d.x) / std::abs(ahead);
  const double v = (axis == 2 ? d.y : d.z) / std::abs(ahead);
  const auto field = [](double t) {
    const double at = (t + 1) / 2 * fields_a_side;
    return std::min(fields_a_side - 1, static_cast<std::size_t>(std::max(0.0, at)));
  };
  return ((2 * axis + (ahead > 0 ? 1 : 0)) * fields_a_side + field(v)) * fields_a_side + field(u);
}

// Its middle, and how much of the sphere it takes.
inline SunDirection sun_direction(std::size_t index) {
  const std::size_t face = index / fields_a_side / fields_a_side;
  const auto edge = [](std::size_t i) { return 2.0 * static_cast<double>(i) / fields_a_side - 1; };
  const std::size_t i = index % fields_a_side, j = index / fields_a_side % fields_a_side;
  const double u0 = edge(i), u1 = edge(i + 1), v0 = edge(j), v1 = edge(j + 1);
  const double u = (u0 + u1) / 2, v = (v0 + v1) / 2, ahead = face % 2 == 1 ? 1 : -1;
  const Vec towards = face / 2 == 0   ? Vec{ahead, u, v}
                      : face / 2 == 1 ? Vec{u, ahead, v}
                                      : Vec{u, v, ahead};
  // Of a rectangle on a plane at distance 1, by its corners.
  const auto corner = [](double a, double b) {
    return std::atan2(a * b, std::sqrt(a * a + b * b + 1));
  };
  return {unit(towards), corner(u1, v1) - corner(u0, v1) - corner(u1, v0) + corner(u0, v0)};
}

}  // namespace backfit::ray
