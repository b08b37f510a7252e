// SPDX-License-Identifier: MIT
#include "lighttrap/shadow_edges.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

namespace backfit::ray {
namespace {

// By the distance from the edge: how far behind its plane its shadow may be blurred, and parts that
// would be too narrow to cut.
constexpr double blur = 0.2, sliver = 0.01;
constexpr double most_cosine = 0.8660254037844387;  // of the normals' angle: 30 degrees

struct Stretch {
  Vec from, to;
};

// How near two stretches come to each other. Requires lengths above 0.
double between(const Stretch& one, const Stretch& other) {
  const Vec u = one.to - one.from, v = other.to - other.from, off = one.from - other.from;
  const double uu = dot(u, u), vv = dot(v, v), uv = dot(u, v), uo = dot(u, off), vo = dot(v, off);
  const double square = uu * vv - uv * uv;
  double s = square > 1e-12 * uu * vv ? std::clamp((uv * vo - uo * vv) / square, 0.0, 1.0) : 0;
  const double t = std::clamp((uv * s + vo) / vv, 0.0, 1.0);
  s = std::clamp((uv * t - uo) / uu, 0.0, 1.0);
  return length(off + s * u - t * v);
}

// How far a point lies over or under a triangle; infinite beside it.
double over(const std::array<Vec, 3>& c, Vec out, Vec point) {
  for (std::size_t i = 0; i < 3; ++i) {
    if (dot(cross(out, c.at((i + 1) % 3) - c.at(i)), point - c.at(i)) < 0)
      return std::numeric_limits<double>::infinity();
  }
  return std::abs(dot(out, point - c[0]));
}

double between(const std::array<Vec, 3>& c, Vec out, const Stretch& edge) {
  double far = std::min(over(c, out, edge.from), over(c, out, edge.to));
  for (std::size_t i = 0; i < 3; ++i) {
    far = std::min(far, between({c.at(i), c.at((i + 1) % 3)}, edge));
  }
  return far;
}

}  // namespace

ShadowEdges::ShadowEdges(const std::vector<Vec>& points,
                         const std::vector<std::array<std::uint32_t, 3>>& triangles,
                         const Kernel& kernel)
    : kernel_(kernel) {
  struct Side {
    std::size_t triangle, edge;
  };
  std::map<std::pair<std::uint32_t, std::uint32_t>, std::vector<Side>> sides;
  for (const auto& c : triangles) {
    const std::array<Vec, 3> corners{points[c[0]], points[c[1]], points[c[2]]};
    const Vec out = cross(corners[1] - corners[0], corners[2] - corners[0]);
    for (std::size_t i = 0; i < 3 && length(out) > 0; ++i) {
      sides[std::minmax(c.at(i), c.at((i + 1) % 3))].push_back({faces_.size(), i});
    }
    faces_.push_back({corners, length(out) > 0 ? unit(out) : Vec{}});
  }
  for (const auto& [ends, two] : sides) {
    if (two.size() != 2) continue;
    Face& one = faces_[two[0].triangle];
    Face& other = faces_[two[1].triangle];
    const Vec beyond = other.corners.at((two[1].edge + 2) % 3) - one.corners.at(two[0].edge);
    if (dot(one.out, other.out) < most_cosine && dot(one.out, beyond) < 0) {
      one.throws.at(two[0].edge) = other.throws.at(two[1].edge) = true;
    }
  }
}

std::optional<ShadowEdges::Cut> ShadowEdges::cut(const std::array<Vec, 3>& corners, double reach_mm,
                                                 double least_mm) const {
  const Vec out = unit(cross(corners[1] - corners[0], corners[2] - corners[0]));
  const Vec middle = 1.0 / 3 * (corners[0] + corners[1] + corners[2]);
  double round = 0;
  for (const Vec& c : corners) round = std::max(round, length(c - middle));
  double most = least_mm;
  std::optional<Cut> cut;
  kernel_.near(middle, round + reach_mm, [&](std::uint32_t triangle) {
    if (triangle >= faces_.size()) return;
    const Face& face = faces_[triangle];
    std::array<double, 3> off{};
    for (std::size_t i = 0; i < 3; ++i) off.at(i) = dot(face.out, corners.at(i) - face.corners[0]);
    const auto [low, high] = std::ranges::minmax(off);
    if (low > 0 || high < -blur * reach_mm) return;
    double far = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < 3; ++i) {
      if (!face.throws.at(i)) continue;
      far =
          std::min(far, between(corners, out, {face.corners.at(i), face.corners.at((i + 1) % 3)}));
    }
    if (far > reach_mm) return;
    for (const double behind : {0.0, blur * far}) {
      const double evenly = std::min(-low - behind, high + behind);
      if (evenly <= most || evenly < sliver * far) continue;
      most = evenly;
      double longest = 0;
      for (std::uint32_t e = 0; e < 3; ++e) {
        const double here = off.at(e) + behind, next = off.at((e + 1) % 3) + behind;
        const double size = length(corners.at((e + 1) % 3) - corners.at(e));
        // A corner that was cut by this plane lies on it, within rounding.
        const bool crosses =
            std::min(here, next) < -0.1 * least_mm && std::max(here, next) > 0.1 * least_mm;
        if (!crosses || size < longest) continue;
        longest = size;
        cut = Cut{e, here / (here - next)};
      }
    }
  });
  return cut;
}

}  // namespace backfit::ray
