// SPDX-License-Identifier: MIT
#include "lighttrap/zones.hpp"

#include <algorithm>
#include <map>
#include <queue>
#include <utility>

namespace backfit::ray {
namespace {

constexpr std::uint32_t whole = 3;  // a node that is a zone

// Along the edges of parts, seams among them, light changes slowly: there zones may be this many
// times as long as across.
constexpr double slender = 8;

// For each triangle the direction of its longest edge that is an edge of the part, or nothing.
std::vector<Vec> seam_directions(const Surfaces& surfaces, const std::vector<Vec>& points) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, std::vector<std::uint32_t>> sides;
  std::vector<Vec> out;
  for (std::uint32_t t = 0; t < surfaces.triangles.size(); ++t) {
    const auto& c = surfaces.triangles[t].corners;
    const Vec n = cross(points[c[1]] - points[c[0]], points[c[2]] - points[c[0]]);
    out.push_back(length(n) > 0 ? unit(n) : Vec{});
    for (std::size_t i = 0; i < 3; ++i) {
      sides[std::minmax(c.at(i), c.at((i + 1) % 3))].push_back(t);
    }
  }
  std::vector<Vec> along(surfaces.triangles.size());
  std::vector<double> longest(surfaces.triangles.size());
  for (const auto& [ends, triangles] : sides) {
    const bool flat =
        triangles.size() == 2 && std::abs(dot(out[triangles[0]], out[triangles[1]])) > 0.99;
    const Vec edge = points[ends.second] - points[ends.first];
    const double size = length(edge);
    if (flat || !(size > 0)) continue;
    for (const std::uint32_t t : triangles) {
      if (size <= longest[t]) continue;
      longest[t] = size;
      along[t] = 1 / size * edge;
    }
  }
  return along;
}

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
  const double size = length(high - low), least = size / 1000, offset = 1e-6 * size;
  struct Open {
    std::size_t node;
    std::array<Vec, 3> corners;
    std::uint32_t triangle;
    std::uint32_t longest = 0;
    double coarse = 0;  // longest edge over what it should be
    bool operator<(const Open& other) const {
      return coarse != other.coarse ? coarse < other.coarse : node > other.node;
    }
  };
  const std::vector<Vec> along = seam_directions(surfaces, points);
  const auto one_sided = [&](std::uint32_t triangle) {
    return surfaces.bodies && surfaces.stuffs[surfaces.triangles[triangle].stuff].passes == 0;
  };
  const auto measured = [&](Open at) {
    const Vec out = cross(at.corners[1] - at.corners[0], at.corners[2] - at.corners[0]);
    if (!(length(out) > 0)) return at;
    double clear = size;
    for (const double side : {1.0, -1.0}) {
      if (side < 0 && one_sided(at.triangle)) continue;
      const Vec n = side * unit(out);
      // Not in its middle alone: a face may reach into a gap from the open.
      const Vec m = middle(at.corners);
      std::array<Vec, 7> probes{m};
      for (std::size_t i = 0; i < 3; ++i) {
        const Vec corner = at.corners.at(i), next = at.corners.at((i + 1) % 3);
        probes.at(1 + i) = m + 0.9 * (corner - m);
        probes.at(4 + i) = m + 0.9 * (0.5 * (corner + next) - m);
      }
      for (const Vec& probe : probes) {
        const auto met = kernel.first(probe + offset * n, n);
        if (met) clear = std::min(clear, met->far_mm);
      }
    }
    const double widest = surfaces.bodies ? size / 24 : size;
    const bool narrow = surfaces.bodies && 0.6 * clear < widest;
    const double lengthways_counts = narrow ? 1 / slender : 1;
    std::array<double, 3> edges{};
    for (std::uint32_t e = 0; e < 3; ++e) {
      const Vec edge = at.corners.at((e + 1) % 3) - at.corners.at(e);
      const double lengthways = dot(edge, along[at.triangle]);
      edges.at(e) = length(edge - (1 - lengthways_counts) * lengthways * along[at.triangle]);
      if (edges.at(e) > edges.at(at.longest)) at.longest = e;
    }
    at.coarse = edges.at(at.longest) / std::max(least, std::min(0.6 * clear, widest));
    return at;
  };
  std::priority_queue<Open> open;
  for (std::uint32_t t = 0; t < surfaces.triangles.size(); ++t) {
    const auto& c = surfaces.triangles[t].corners;
    open.push(measured({t, {points[c[0]], points[c[1]], points[c[2]]}, t}));
  }
  nodes_.resize(open.size());
  while (!open.empty()) {
    const Open at = open.top();
    open.pop();
    if (at.coarse <= 1 || zones_.size() + open.size() + 1 >= most) {
      const Vec out = cross(at.corners[1] - at.corners[0], at.corners[2] - at.corners[0]);
      nodes_[at.node] = {whole, static_cast<std::uint32_t>(zones_.size())};
      const auto& c = at.corners;
      zones_.push_back({c, length(out) / 2,
                        std::max({length(c[1] - c[0]), length(c[2] - c[1]), length(c[0] - c[2])}),
                        at.triangle});
      continue;
    }
    nodes_[at.node] = {at.longest, static_cast<std::uint32_t>(nodes_.size())};
    const std::uint32_t next = (at.longest + 1) % 3;
    const Vec split = 0.5 * (at.corners.at(at.longest) + at.corners.at(next));
    Open one{nodes_.size(), at.corners, at.triangle};
    Open two{nodes_.size() + 1, at.corners, at.triangle};
    one.corners.at(next) = split;
    two.corners.at(at.longest) = split;
    nodes_.resize(nodes_.size() + 2);
    open.push(measured(one));
    open.push(measured(two));
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
