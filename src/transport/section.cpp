// SPDX-License-Identifier: MIT
#include "transport/section.hpp"

#include <algorithm>
#include <cassert>
#include <limits>
#include <utility>

namespace backfit {
namespace {

constexpr Length far_off = std::numeric_limits<double>::max() * mm;

const SectionPoint& after(const std::vector<SectionPoint>& corners, std::size_t i) {
  return corners[i + 1 == corners.size() ? 0 : i + 1];
}

// How far `p` lies to the right of the edge from `a` to `b`: outside, of an anticlockwise region.
Length outside(SectionPoint a, SectionPoint b, SectionPoint p) {
  return -(cross(b - a, p - a) / distance(a, b));
}

}  // namespace

Region box(std::string name, SectionPoint low, SectionPoint high) {
  assert(low.x < high.x && low.z < high.z);
  return {std::move(name), {low, {high.x, low.z}, high, {low.x, high.z}}};
}

Length distance(SectionPoint point, const Strand& strand) {
  const SectionPoint along = strand.to - strand.from;
  const Area square = dot(along, along);
  if (square == Area{}) return distance(point, strand.from);
  const double t = std::clamp(dot(point - strand.from, along) / square, 0.0, 1.0);
  return distance(point, strand.from + t * along);
}

Length distance(const Strand& a, const Strand& b) {
  const auto side = [](const Strand& s, SectionPoint p) {
    return cross(s.to - s.from, p - s.from);
  };
  const bool a_parts = (side(b, a.from) > Area{}) != (side(b, a.to) > Area{});
  const bool b_parts = (side(a, b.from) > Area{}) != (side(a, b.to) > Area{});
  if (a_parts && b_parts) return {};
  return std::min({distance(a.from, b), distance(a.to, b), distance(b.from, a), distance(b.to, a)});
}

Length gap(const Region& region, SectionPoint point) {
  assert(region.corners.size() >= 3);
  Length deepest = -far_off;
  Length nearest = far_off;
  for (std::size_t i = 0; i < region.corners.size(); ++i) {
    const SectionPoint a = region.corners[i];
    const SectionPoint b = after(region.corners, i);
    deepest = std::max(deepest, outside(a, b, point));
    nearest = std::min(nearest, distance(point, Strand{a, b}));
  }
  return deepest > Length{} ? nearest : deepest;
}

Length gap(const Region& region, const Strand& strand) {
  assert(region.corners.size() >= 3);
  // Apart along the normal of an edge or of the strand, or else not at all: both are convex.
  Length widest = -far_off;
  Length nearest = far_off;
  Length left = far_off;
  Length right = far_off;
  const bool extended = distance(strand.from, strand.to) > Length{};
  for (std::size_t i = 0; i < region.corners.size(); ++i) {
    const SectionPoint a = region.corners[i];
    const SectionPoint b = after(region.corners, i);
    widest = std::max(widest, std::min(outside(a, b, strand.from), outside(a, b, strand.to)));
    nearest = std::min(nearest, distance(strand, Strand{a, b}));
    if (!extended) continue;
    const Length off = outside(strand.from, strand.to, a);
    right = std::min(right, off);
    left = std::min(left, -off);
  }
  if (extended) widest = std::max({widest, left, right});
  return widest > Length{} ? nearest : widest;
}

}  // namespace backfit
