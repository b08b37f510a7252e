// SPDX-License-Identifier: MIT
#include "lighttrap/zones.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <queue>
#include <utility>

#include "lighttrap/shadow_edges.hpp"

namespace backfit::ray {
namespace {

constexpr std::uint32_t whole = 3;  // a node that is a zone

constexpr std::size_t most_in_group = 16;

// A triangle's grid has about so many cells for each of its zones.
constexpr std::size_t cells_per_zone = 32;
constexpr std::uint32_t several = ~std::uint32_t{0};  // a cell that lies in no single zone

// Along the edges of parts, seams among them, light changes slowly: there zones may be this many
// times as long as across.
constexpr double slender = 8;

// Zones are cut along the shadows of edges within so many times the clear distance before them, and
// before others are this fine.
constexpr double shadow_reach = 1.5, shadow_coarse = 32;

// A finer cut stops at zones of which so many a first cut's may be as long.
constexpr double finest = 0.2;

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
  float split = 0.5F;  // where the edge from corner `longest` is to be cut
  double longest_mm() const {
    const auto& c = corners;
    return std::max({length(c[1] - c[0]), length(c[2] - c[1]), length(c[0] - c[2])});
  }
  Zone zone() const {
    const Vec out = cross(corners[1] - corners[0], corners[2] - corners[0]);
    return {corners, length(out) / 2, triangle, 0};
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
    if (surfaces.bodies) {
      std::vector<std::array<std::uint32_t, 3>> triangles;
      for (const auto& t : surfaces.triangles) triangles.push_back(t.corners);
      shadows_.emplace(points_, triangles, kernel);
    }
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
    if (!shadows_) return at;
    const double reach = shadow_reach * std::min(clear, widest);
    if (const auto cut = shadows_->cut(at.corners, reach, 1e-5 * size_)) {
      at.longest = cut->edge;
      at.split = static_cast<float>(cut->part);
      at.coarse = std::max(at.coarse, shadow_coarse);
    }
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
  std::optional<ShadowEdges> shadows_;
};

std::array<Zones::Open, 2> Zones::halves(const Open& at) {
  nodes_[at.node] = {at.longest, static_cast<std::uint32_t>(nodes_.size()), at.split};
  const std::uint32_t next = (at.longest + 1) % 3;
  const Vec here = at.corners.at(at.longest);
  const Vec split = here + at.split * (at.corners.at(next) - here);
  std::array<Open, 2> both{
      Open{nodes_.size(), at.corners, at.triangle, 0, 0, at.worth * at.split, at.part_of},
      Open{nodes_.size() + 1, at.corners, at.triangle, 0, 0, at.worth * (1 - at.split),
           at.part_of}};
  both[0].corners.at(next) = split;
  both[1].corners.at(at.longest) = split;
  nodes_.resize(nodes_.size() + 2);
  return both;
}

Zones::Zones(const Surfaces& surfaces, const Kernel& kernel, std::size_t most)
    : grids_(surfaces.triangles.size()) {
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
      nodes_[at.node] = {whole, static_cast<std::uint32_t>(zones_.size()), 0};
      zones_.push_back(at.zone());
      continue;
    }
    for (const Open& half : halves(at)) open.push(cutter.measured(half));
  }
  settle();
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
    if (at.worth == 0 || at.longest_mm() < least || at.coarse < finest ||
        zones.size() + open.size() + 1 >= most) {
      nodes_[at.node] = {whole, static_cast<std::uint32_t>(zones.size()), 0};
      zones.push_back(at.zone());
      part_of.push_back(at.part_of);
      continue;
    }
    for (const Open& half : halves(at)) open.push(cutter.measured(half));
  }
  zones_ = std::move(zones);
  std::vector<std::size_t> settled;
  for (const std::size_t before : settle()) settled.push_back(part_of[before]);
  return settled;
}

void Zones::number(std::uint32_t node, std::vector<std::size_t>& before, std::vector<Zone>& zones) {
  Node& n = nodes_[node];
  if (n.edge != whole) {
    number(n.first, before, zones);
    number(n.first + 1, before, zones);
    return;
  }
  before.push_back(n.first);
  zones.push_back(zones_[n.first]);
  n.first = static_cast<std::uint32_t>(zones.size() - 1);
}

std::vector<std::size_t> Zones::settle() {
  std::vector<std::size_t> before;
  std::vector<Zone> zones;
  for (std::uint32_t t = 0; t < grids_.size(); ++t) number(t, before, zones);
  zones_ = std::move(zones);
  // Children come after their parents: how many zones each node holds, and the first.
  std::vector<std::size_t> held(nodes_.size()), first(nodes_.size());
  for (std::size_t i = nodes_.size(); i-- > 0;) {
    const Node& n = nodes_[i];
    held[i] = n.edge == whole ? 1 : held[n.first] + held[n.first + 1];
    first[i] = n.edge == whole ? n.first : first[n.first];
  }
  groups_.clear();
  std::vector<std::uint32_t> open;
  for (std::size_t t = grids_.size(); t-- > 0;) open.push_back(static_cast<std::uint32_t>(t));
  while (!open.empty()) {
    const std::uint32_t at = open.back();
    open.pop_back();
    if (held[at] > most_in_group) {
      open.insert(open.end(), {nodes_[at].first + 1, nodes_[at].first});
      continue;
    }
    Group group{first[at], first[at] + held[at]};
    for (std::size_t z = group.first; z < group.end; ++z) {
      group.area_mm2 += zones_[z].area_mm2;
      zones_[z].group = static_cast<std::uint32_t>(groups_.size());
    }
    groups_.push_back(group);
  }
  lay_grids();
  return before;
}

void Zones::lay_grids() {
  std::vector<std::size_t> zones_of(grids_.size());
  for (const Zone& zone : zones_) ++zones_of[zone.triangle];
  cells_.clear();
  for (std::uint32_t t = 0; t < grids_.size(); ++t) {
    std::uint32_t parts = 1;
    if (zones_of[t] > 1) {
      while (std::size_t{parts} * parts < cells_per_zone * zones_of[t]) parts *= 2;
    }
    grids_[t] = {static_cast<double>(parts), static_cast<int>(parts) - 1,
                 static_cast<std::uint32_t>(cells_.size())};
    for (std::uint32_t cell = 0; cell < parts * parts; ++cell) {
      // Zones are convex: a cell whose corners lie in one lies in it.
      const std::uint32_t row = cell / parts, column = cell % parts;
      const auto corner = [&](double u, double v) {
        return zone_at(t, (column + u) / parts, (row + v) / parts);
      };
      constexpr double near = 1e-6, far = 1 - near;
      const std::uint32_t zone = corner(near, near);
      const bool one =
          corner(far, near) == zone && corner(near, far) == zone && corner(far, far) == zone;
      cells_.push_back(one ? zone : several);
    }
  }
}

std::uint32_t Zones::zone_at(std::uint32_t triangle, double u, double v) const {
  std::array<double, 3> part{1 - u - v, u, v};  // of the corners
  const Node* node = &nodes_[triangle];
  while (node->edge != whole) {
    double& here = part.at(node->edge);
    double& next = part.at((node->edge + 1) % 3);
    // The new corner lies on the edge, by `split` of it from the first.
    const double split = node->part;
    const bool second = (1 - split) * next > split * here;
    if (second) {
      here /= 1 - split;
      next -= split * here;
    } else {
      next /= split;
      here -= (1 - split) * next;
    }
    node = &nodes_[node->first + (second ? 1 : 0)];
  }
  return node->first;
}

std::size_t Zones::side_at(std::uint32_t triangle, double u, double v, bool back) const {
  const Grid& grid = grids_[triangle];
  // A ray may meet a triangle by rounding beyond its edge.
  const auto part = [&grid](double at) {
    return std::min(static_cast<int>(at * grid.parts), grid.last);
  };
  const int cell = part(v) * (grid.last + 1) + part(u);
  std::uint32_t zone = cells_[grid.first + static_cast<std::uint32_t>(cell)];
  if (zone == several) zone = zone_at(triangle, u, v);
  return 2 * std::size_t{zone} + (back ? 1 : 0);
}

}  // namespace backfit::ray
