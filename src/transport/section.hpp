// SPDX-License-Identifier: MIT
// The plane in which film travels: points, straight edges and solid regions, and how far apart
// they lie. x runs with the film over the gate, z along the light: the film plane is z = 0, the
// lens at negative z, so the emulsion faces -z and the backing paper +z.
#pragma once
#include <string>
#include <vector>

#include "quantity/quantity.hpp"

namespace backfit {

struct SectionPoint {
  Length x, z;
  friend constexpr SectionPoint operator+(SectionPoint a, SectionPoint b) {
    return {a.x + b.x, a.z + b.z};
  }
  friend constexpr SectionPoint operator-(SectionPoint a, SectionPoint b) {
    return {a.x - b.x, a.z - b.z};
  }
  friend constexpr SectionPoint operator*(double k, SectionPoint p) { return {k * p.x, k * p.z}; }
  friend constexpr bool operator==(const SectionPoint&, const SectionPoint&) = default;
};

// Component of `a` along `b`, times the length of `b`; and the turned one, positive when `b` lies
// to the left of `a` (x to the right, z up).
constexpr Area dot(SectionPoint a, SectionPoint b) { return a.x * b.x + a.z * b.z; }
constexpr Area cross(SectionPoint a, SectionPoint b) { return a.x * b.z - a.z * b.x; }
inline Length distance(SectionPoint a, SectionPoint b) { return hypot(b.x - a.x, b.z - a.z); }

// A straight piece of film, seen on its edge.
struct Strand {
  SectionPoint from, to;
  Length length() const { return distance(from, to); }
};

struct Disc {
  SectionPoint centre;
  Length radius;
};

// A solid region with corners in anticlockwise order (x to the right, z up), bulging outwards
// everywhere: a wall, the pressure plate, the light cone. Requires three corners or more.
struct Region {
  std::string name;
  std::vector<SectionPoint> corners;
};

// The region between two opposite corners, low in both x and z first.
Region box(std::string name, SectionPoint low, SectionPoint high);

// Least distance between a point and a strand, and between two strands; 0 where strands cross.
Length distance(SectionPoint point, const Strand& strand);
Length distance(const Strand& a, const Strand& b);

// Gap between a region and a point, positive outside, negative by the depth inside.
Length gap(const Region& region, SectionPoint point);
// Gap between a region and a strand: their distance, or minus the least shift that frees it.
Length gap(const Region& region, const Strand& strand);
// Gap between surfaces, negative when they overlap.
inline Length gap(const Region& region, const Disc& disc) {
  return gap(region, disc.centre) - disc.radius;
}
inline Length gap(const Disc& a, const Disc& b) {
  return distance(a.centre, b.centre) - a.radius - b.radius;
}

}  // namespace backfit
