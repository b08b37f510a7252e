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

// A triangle that is a zone, or is to be cut.
struct Zones::Open {
  std::size_t node;
  std::array<Vec, 3> corners;
  std::uint32_t triangle;
  std::uint32_t longest = 0;
  double coarse = 0;  // longest edge over what it should be
  double worth = 0;
  std::size_t part_of = 0;
  double longest_mm() const {
    const auto& c = corners;
    return std::max({length(c[1] - c[0]), length(c[2] - c[1]), length(c[0] - c[2])});
  }
  Zone zone() const {
    const Vec out = cross(corners[1] - corners[0], corners[2] - corners[0]);
    return {corners, length(out) / 2, longest_mm(), triangle};
  }
};

// Knows where a triangle is to be cut, and how coarse it is.
class Zones::Cutter {
 public:
  Cutter(const Surfaces& surfaces, const Kernel& kernel) : surfaces_(surfaces), kernel_(kernel) {
    Vec low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
    for (const SpacePoint& p : surfaces.points) {
      const Vec v = points_.emplace_back(vec_mm(p));
      low = {std::min(low.x, v.x), std::min(low.y, v.y), std::min(low.z, v.z)};
      high = {std::max(high.x, v.x), std::max(high.y, v.y), std::max(high.z, v.z)};
    }
    size_ = length(high - low);
    along_ = seam_directions(surfaces, points_);
  }

  double size() const { return size_; }

  Open whole_triangle(std::uint32_t number) const {
    const auto& c = surfaces_.triangles[number].corners;
    return measured({number, {points_[c[0]], points_[c[1]], points_[c[2]]}, number});
  }

  Open measured(Open at) const {
    const Vec out = cross(at.corners[1] - at.corners[0], at.corners[2] - at.corners[0]);
    if (!(length(out) > 0)) return at;
    const double clear = clear_before(at, unit(out));
    const double widest = surfaces_.bodies ? size_ / 24 : size_;
    const bool narrow = surfaces_.bodies && 0.6 * clear < widest;
    const double lengthways_counts = narrow ? 1 / slender : 1;
    const Vec along = along_[at.triangle];
    std::array<double, 3> edges{};
    for (std::uint32_t e = 0; e < 3; ++e) {
      const Vec edge = at.corners.at((e + 1) % 3) - at.corners.at(e);
      const double lengthways = dot(edge, along);
      edges.at(e) = length(edge - (1 - lengthways_counts) * lengthways * along);
      if (edges.at(e) > edges.at(at.longest)) at.longest = e;
    }
    at.coarse = edges.at(at.longest) / std::max(size_ / 1000, std::min(0.6 * clear, widest));
    return at;
  }

 private:
  double clear_before(const Open& at, Vec out) const {
    const double offset = 1e-6 * size_;
    const bool one_sided =
        surfaces_.bodies && surfaces_.stuffs[surfaces_.triangles[at.triangle].stuff].passes == 0;
    // Not in its middle alone: a face may reach into a gap from the open.
    const Vec m = middle(at.corners);
    std::array<Vec, 7> probes{m};
    for (std::size_t i = 0; i < 3; ++i) {
      const Vec corner = at.corners.at(i), next = at.corners.at((i + 1) % 3);
      probes.at(1 + i) = m + 0.9 * (corner - m);
      probes.at(4 + i) = m + 0.9 * (0.5 * (corner + next) - m);
    }
    double clear = size_;
    for (const double side : {1.0, -1.0}) {
      if (side < 0 && one_sided) continue;
      const Vec n = side * out;
      for (const Vec& probe : probes) {
        const auto met = kernel_.first(probe + offset * n, n);
        if (met) clear = std::min(clear, met->far_mm);
      }
    }
    return clear;
  }

  const Surfaces& surfaces_;
  const Kernel& kernel_;
  std::vector<Vec> points_, along_;
  double size_ = 0;
};

std::array<Zones::Open, 2> Zones::halves(const Open& at) {
  nodes_[at.node] = {at.longest, static_cast<std::uint32_t>(nodes_.size())};
  const std::uint32_t next = (at.longest + 1) % 3;
  const Vec split = 0.5 * (at.corners.at(at.longest) + at.corners.at(next));
  std::array<Open, 2> both{
      Open{nodes_.size(), at.corners, at.triangle, 0, 0, at.worth / 2, at.part_of},
      Open{nodes_.size() + 1, at.corners, at.triangle, 0, 0, at.worth / 2, at.part_of}};
  both[0].corners.at(next) = split;
  both[1].corners.at(at.longest) = split;
  nodes_.resize(nodes_.size() + 2);
  return both;
}

Zones::Zones(const Surfaces& surfaces, const Kernel& kernel, std::size_t most) {
  const Cutter cutter(surfaces, kernel);
  const auto finer = [](const Open& a, const Open& b) {
    return a.coarse != b.coarse ? a.coarse < b.coarse : a.node > b.node;
  };
  std::priority_queue<Open, std::vector<Open>, decltype(finer)> open(finer);
  for (std::uint32_t t = 0; t < surfaces.triangles.size(); ++t) open.push(cutter.whole_triangle(t));
  nodes_.resize(open.size());
  while (!open.empty()) {
    const Open at = open.top();
    open.pop();
    if (at.coarse <= 1 || zones_.size() + open.size() + 1 >= most) {
      nodes_[at.node] = {whole, static_cast<std::uint32_t>(zones_.size())};
      zones_.push_back(at.zone());
      continue;
    }
    for (const Open& half : halves(at)) open.push(cutter.measured(half));
  }
}

std::vector<std::size_t> Zones::refine(const Surfaces& surfaces, const Kernel& kernel,
                                       const std::vector<double>& worth, std::size_t most) {
  const Cutter cutter(surfaces, kernel);
  const double least = cutter.size() / 4000;
  const auto less = [](const Open& a, const Open& b) {
    return a.worth != b.worth ? a.worth < b.worth : a.node > b.node;
  };
  std::priority_queue<Open, std::vector<Open>, decltype(less)> open(less);
  for (std::size_t node = 0; node < nodes_.size(); ++node) {
    if (nodes_[node].edge != whole) continue;
    const std::size_t number = nodes_[node].first;
    const Zone& zone = zones_[number];
    open.push(cutter.measured({node, zone.corners, zone.triangle, 0, 0, worth[number], number}));
  }
  std::vector<Zone> zones;
  std::vector<std::size_t> part_of;
  while (!open.empty()) {
    const Open at = open.top();
    open.pop();
    if (at.worth == 0 || at.longest_mm() < least || zones.size() + open.size() + 1 >= most) {
      nodes_[at.node] = {whole, static_cast<std::uint32_t>(zones.size())};
      zones.push_back(at.zone());
      part_of.push_back(at.part_of);
      continue;
    }
    for (const Open& half : halves(at)) open.push(cutter.measured(half));
  }
  zones_ = std::move(zones);
  return part_of;
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
