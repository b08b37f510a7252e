// SPDX-License-Identifier: MIT
#include "lighttrap/zones.hpp"

#include <algorithm>

namespace backfit::ray {
namespace {

constexpr std::uint32_t whole = 3;  // a node that is a zone

Vec middle(const std::array<Vec, 3>& c) { return 1.0 / 3 * (c[0] + c[1] + c[2]); }

}  // namespace

Zones::Zones(const Surfaces& surfaces, const Kernel& kernel, std::size_t most) {
  std::vector<Vec> points;
  Vec low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  for (const SpacePoint& p : surfaces.points) {
    const Vec v = points.emplace_back(vec_mm(p));
    low = {std::min(low.x, v.x), std::min(low.y, v.y), std::min(low.z, v.z)};
    high = {std::max(high.x, v.x), std::max(high.y, v.y), std::max(high.z, v.z)};
  }
  const double size = length(high - low), least = size / 1000, offset = 4e-6 * size;
  struct Open {
    std::size_t node;
    std::array<Vec, 3> corners;
    std::uint32_t triangle;
  };
  std::vector<Open> open;
  for (std::uint32_t t = 0; t < surfaces.triangles.size(); ++t) {
    const auto& c = surfaces.triangles[t].corners;
    open.push_back({t, {points[c[0]], points[c[1]], points[c[2]]}, t});
  }
  nodes_.resize(open.size());
  // Breadth first: when the zones are used up, all are about equally fine.
  for (std::size_t i = 0; i < open.size(); ++i) {
    const Open at = open[i];
    std::uint32_t longest = 0;
    std::array<double, 3> edges{};
    for (std::uint32_t e = 0; e < 3; ++e) {
      edges.at(e) = length(at.corners.at((e + 1) % 3) - at.corners.at(e));
      if (edges.at(e) > edges.at(longest)) longest = e;
    }
    const Vec out = cross(at.corners[1] - at.corners[0], at.corners[2] - at.corners[0]);
    const double area = length(out) / 2;
    double clear = size;
    if (area > 0) {
      for (const double side : {1.0, -1.0}) {
        const Vec n = side * unit(out);
        const auto met = kernel.first(middle(at.corners) + offset * n, n);
        if (met) clear = std::min(clear, met->far_mm);
      }
    }
    const bool fine = edges.at(longest) <= std::max(least, 0.6 * clear) || open.size() >= most;
    if (fine || area == 0) {
      nodes_[at.node] = {whole, static_cast<std::uint32_t>(zones_.size())};
      zones_.push_back({at.corners, area, at.triangle});
      continue;
    }
    nodes_[at.node] = {longest, static_cast<std::uint32_t>(nodes_.size())};
    const std::uint32_t next = (longest + 1) % 3;
    const Vec split = 0.5 * (at.corners.at(longest) + at.corners.at(next));
    Open one = at, two = at;
    one.corners.at(next) = split;
    two.corners.at(longest) = split;
    one.node = nodes_.size();
    two.node = nodes_.size() + 1;
    nodes_.resize(nodes_.size() + 2);
    open.push_back(one);
    open.push_back(two);
  }
}

std::size_t Zones::side_at(std::uint32_t triangle, double u, double v, bool back) const {
  std::array<double, 3> part{1 - u - v, u, v};  // of the corners
  const Node* node = &nodes_[triangle];
  while (node->edge != whole) {
    double& here = part.at(node->edge);
    double& next = part.at((node->edge + 1) % 3);
    const bool second = next > here;
    // The half's new corner is the middle of the edge.
    const double both = 2 * std::min(here, next);
    const double rest = std::abs(here - next);
    here = second ? both : rest;
    next = second ? rest : both;
    node = &nodes_[node->first + (second ? 1 : 0)];
  }
  return 2 * std::size_t{node->first} + (back ? 1 : 0);
}

}  // namespace backfit::ray
