// SPDX-License-Identifier: MIT
// The sky, all round, cut into fields: a cube's faces, so many by so many fields on each. For the
// walks of this room.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>

#include "lighttrap/rays.hpp"

namespace backfit::ray {

struct SkyFields {
  std::size_t a_side = 1;

  constexpr std::size_t count() const { return 6 * a_side * a_side; }

  // The field that a direction points to.
  std::size_t of(Vec d) const {
    const double x = std::abs(d.x), y = std::abs(d.y), z = std::abs(d.z);
    const std::size_t axis = x >= y && x >= z ? 0 : y >= z ? 1 : 2;
    const double ahead = axis == 0 ? d.x : axis == 1 ? d.y : d.z;
    const double u = (axis == 0 ? d.y : d.x) / std::abs(ahead);
    const double v = (axis == 2 ? d.y : d.z) / std::abs(ahead);
    const auto part = [this](double t) {
      const double at = (t + 1) / 2 * static_cast<double>(a_side);
      return std::min(a_side - 1, static_cast<std::size_t>(std::max(0.0, at)));
    };
    return ((2 * axis + (ahead > 0 ? 1 : 0)) * a_side + part(v)) * a_side + part(u);
  }

  // To a place on a field, which u and v from 0 to 1 tell; of length 1.
  Vec towards(std::size_t field, double u, double v) const {
    const std::size_t face = field / a_side / a_side;
    const double ahead = face % 2 == 1 ? 1 : -1;
    const double a = edge(static_cast<double>(field % a_side) + u);
    const double b = edge(static_cast<double>(field / a_side % a_side) + v);
    return unit(face / 2 == 0   ? Vec{ahead, a, b}
                : face / 2 == 1 ? Vec{a, ahead, b}
                                : Vec{a, b, ahead});
  }

  // Density per sr of directions to places evenly on the cube's part that is the field's.
  double density(Vec towards) const {
    const double ahead = std::max({std::abs(towards.x), std::abs(towards.y), std::abs(towards.z)});
    return static_cast<double>(a_side * a_side) / (4 * ahead * ahead * ahead);
  }

  // How much of the sphere a field takes, in sr.
  double solid_angle(std::size_t field) const {
    const auto i = static_cast<double>(field % a_side);
    const auto j = static_cast<double>(field / a_side % a_side);
    // Of a rectangle on a plane at distance 1, by its corners.
    const auto corner = [](double a, double b) {
      return std::atan2(a * b, std::sqrt(a * a + b * b + 1));
    };
    return corner(edge(i + 1), edge(j + 1)) - corner(edge(i), edge(j + 1)) -
           corner(edge(i + 1), edge(j)) + corner(edge(i), edge(j));
  }

 private:
  double edge(double part) const { return 2 * part / static_cast<double>(a_side) - 1; }
};

// A sun may stand in the middle of any of these; walks are aimed at the finer ones.
inline constexpr SkyFields sun_fields{4}, aim_fields{24};

}  // namespace backfit::ray
