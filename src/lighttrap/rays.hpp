// SPDX-License-Identifier: MIT
// Rays among triangles, and vectors in mm. The one place that knows the ray kernel.
#pragma once
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>

#include "lighttrap/scene.hpp"

namespace backfit::ray {

struct Vec {
  double x = 0, y = 0, z = 0;
  friend Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend Vec operator*(double k, Vec v) { return {k * v.x, k * v.y, k * v.z}; }
};
inline double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
inline Vec cross(Vec a, Vec b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double length(Vec a) { return std::sqrt(dot(a, a)); }
inline Vec unit(Vec a) { return 1 / length(a) * a; }
// Square to a direction and each other, without a root (Duff and others 2017).
struct Across {
  Vec one, two;
};
// Requires length 1.
inline Across across(Vec n) {
  const double sign = std::copysign(1.0, n.z), a = -1 / (sign + n.z), b = n.x * n.y * a;
  return {{1 + sign * n.x * n.x * a, sign * b, -sign * n.x}, {b, sign + n.y * n.y * a, -n.y}};
}
inline Vec vec_mm(const SpacePoint& p) { return {p.x / mm, p.y / mm, p.z / mm}; }

// The first triangle that a ray meets, and where: corner 0 plus u and v times the edges from it.
struct Meeting {
  std::uint32_t triangle = 0;
  double u = 0, v = 0, far_mm = 0;
};

struct Ray {
  Vec from, direction;
};

// Triangles made ready for rays. Rays that meet an edge shared by two triangles meet one of them.
class Kernel {
 public:
  // Requires corners that exist.
  Kernel(std::span<const Vec> points, std::span<const std::array<std::uint32_t, 3>> triangles);
  ~Kernel();
  Kernel(Kernel&&) noexcept;

  // Requires a direction of length 1. May be called by many threads at once.
  std::optional<Meeting> first(Vec from, Vec direction) const;
  // The same of up to `packet` rays at once, which is quicker, into `met`.
  static constexpr std::size_t packet = 8;
  void first(std::span<const Ray> rays, std::span<std::optional<Meeting>> met) const;
  // Names all triangles that come within `radius` of a point, and others; some twice. May be called
  // by many threads at once.
  void near(Vec at, double radius_mm, const std::function<void(std::uint32_t)>& name) const;

 private:
  struct Handles;
  std::unique_ptr<Handles> handles_;
};

}  // namespace backfit::ray
