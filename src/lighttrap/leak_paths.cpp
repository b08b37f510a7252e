// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cassert>
#include <map>
#include <optional>
#include <utility>

#include "lighttrap/blocks.hpp"
#include "lighttrap/leak.hpp"
#include "lighttrap/sky_fields.hpp"
#include "lighttrap/walker.hpp"

namespace backfit {

using namespace ray;

namespace {

SpacePoint point_mm(Vec v) { return {v.x * mm, v.y * mm, v.z * mm}; }

// Notes the light of each direction of the sky.
struct ByDirection {
  std::vector<double>& sums;
  static void on_film(const Start&) {}
  static std::uint32_t on_wall(std::uint32_t, const Arrival&) { return 0; }
  void on_sky(std::uint32_t, Vec direction, double weight) {
    sums[sun_fields.of(direction)] += weight;
  }
  static void on_step(const Step&) {}
};

// A place on a wall that a history came to, and the one before it; 0 is the film.
struct Node {
  std::uint32_t before = 0;
  Vec at, normal;
  std::uint32_t triangle = 0;
};

using PartPair = std::pair<std::uint32_t, std::uint32_t>;
// The seams from outside, and to which side of the film's middle the first one lies; or straight.
struct Sort {
  std::vector<PartPair> seams;
  int side = 0;
  bool straight = false;
  friend auto operator<=>(const Sort&, const Sort&) = default;
};
struct Sum {
  double light = 0, largest = 0;
  LeakPath path;
  void add(Sum other) {
    light += other.light;
    if (other.largest > largest) {
      largest = other.largest;
      path = std::move(other.path);
    }
  }
};
using Sorts = std::map<Sort, Sum>;

class Sorter {
 public:
  Sorter(const Room& room, double near_mm, Sorts& sorts)
      : room_(room), near_mm_(near_mm), sorts_(sorts), nodes_(1) {
    const Vec w = vec_mm(room.film.width), h = vec_mm(room.film.height);
    middle_ = vec_mm(room.film.corner) + 0.5 * w + 0.5 * h;
    along_ = unit(w);
    down_ = unit(h);
  }

  void on_film(const Start& start) { nodes_.assign(1, {0, start.at, start.normal, 0}); }

  std::uint32_t on_wall(std::uint32_t before, const Arrival& a) {
    nodes_.push_back({before, a.point, a.normal, a.triangle});
    return static_cast<std::uint32_t>(nodes_.size() - 1);
  }

  void on_sky(std::uint32_t node, Vec direction, double weight) {
    Sort sort{{}, 0, node == 0};
    Sum sum{weight, weight, {}};
    const auto add = [&](const PartPair& seam, Vec at) {
      if (std::ranges::find(sort.seams, seam) != sort.seams.end()) return;
      if (sort.seams.empty()) sort.side = side_of(at);
      sort.seams.push_back(seam);
      sum.path.seams.push_back({seam.first, seam.second, point_mm(at)});
    };
    for (std::uint32_t i = node; i != 0; i = nodes_[i].before) {
      const Node& n = nodes_[i];
      sum.path.points.push_back(point_mm(n.at));
      const auto met = room_.kernel.first(n.at + room_.offset_mm * n.normal, n.normal);
      if (!met || met->far_mm > near_mm_ || room_.is_film(met->triangle)) continue;
      add(std::minmax(part_of(n.triangle), part_of(met->triangle)), n.at);
    }
    if (node != 0 && sort.seams.empty()) {
      if (const auto seam = flown_through(nodes_[node].at, direction)) add(*seam, nodes_[node].at);
    }
    sum.path.points.push_back(point_mm(nodes_[0].at));
    sorts_[sort].add(std::move(sum));
  }

  static void on_step(const Step&) {}

 private:
  std::uint32_t part_of(std::uint32_t triangle) const {
    return room_.surfaces.triangles[triangle].part;
  }

  int side_of(Vec at) const {
    const Vec from = at - middle_;
    const double x = dot(from, along_), y = dot(from, down_);
    return std::abs(x) * length(vec_mm(room_.film.height)) >
                   std::abs(y) * length(vec_mm(room_.film.width))
               ? (x > 0 ? 1 : 2)
               : (y > 0 ? 3 : 4);
  }

  // What faces a place in the open from there within `near`, if anything.
  std::optional<Meeting> beside(Vec place, Vec direction) const {
    auto met = room_.kernel.first(place, direction);
    if (!met || met->far_mm > near_mm_ || room_.is_film(met->triangle)) return {};
    // Within foam it is a body's back.
    if (room_.surfaces.bodies && dot(room_.faces[met->triangle].out, direction) > 0) return {};
    return met;
  }

  // The parts between which light from the sky flew in to a place without meeting them.
  std::optional<PartPair> flown_through(Vec at, Vec direction) const {
    constexpr int samples = 32;
    const auto [one, two] = across(direction);
    for (int i = 0; i < samples; ++i) {
      const Vec place = at + (i + 0.5) / 2 * near_mm_ * direction;
      for (const Vec& side : {one, two}) {
        const auto here = beside(place, side);
        if (!here) continue;
        const auto there = beside(place, -1 * side);
        if (there && here->far_mm + there->far_mm <= near_mm_)
          return std::minmax(part_of(here->triangle), part_of(there->triangle));
      }
    }
    return {};
  }

  const Room& room_;
  double near_mm_;
  Sorts& sorts_;
  std::vector<Node> nodes_;
  Vec middle_, along_, down_;
};

}  // namespace

std::vector<SunResponse> LeakWalks::by_sun(const Order& order) const {
  const auto parts = each_block<std::vector<double>>(
      order, [&](std::size_t patch, Random& random, std::vector<double>& sums) {
        sums.resize(sun_fields.count());
        ByDirection watch{sums};
        walker_->history(patch, random, {}, watch);
      });
  std::vector<double> sums(sun_fields.count());
  for (const std::vector<double>& part : parts) {
    for (std::size_t i = 0; i < part.size(); ++i) sums[i] += part[i];
  }
  const double all = static_cast<double>(order.histories * order.patches.size());
  std::vector<SunResponse> responses;
  for (std::size_t i = 0; i < sun_fields.count(); ++i) {
    // The sky gives pi times its brightness, a sun its own over the direction's width.
    responses.push_back({point_mm(sun_fields.towards(i, 0.5, 0.5)),
                         sums[i] / all * std::numbers::pi / sun_fields.solid_angle(i)});
  }
  std::ranges::stable_sort(
      responses, [](const SunResponse& a, const SunResponse& b) { return a.part > b.part; });
  return responses;
}

std::vector<LeakPath> LeakWalks::paths(const Order& order, Length near, std::size_t most) const {
  const auto parts = each_block<Sorts>(order, [&](std::size_t patch, Random& random, Sorts& sorts) {
    Sorter sorter(walker_->room(), near / mm, sorts);
    walker_->history(patch, random, {}, sorter);
  });
  Sorts all;
  double light = 0;
  for (const Sorts& part : parts) {
    for (const auto& [sort, sum] : part) {
      all[sort].add(sum);
      light += sum.light;
    }
  }
  std::vector<LeakPath> paths;
  for (auto& [sort, sum] : all) {
    sum.path.share = sum.light / light;
    paths.push_back(std::move(sum.path));
  }
  std::ranges::stable_sort(paths,
                           [](const LeakPath& a, const LeakPath& b) { return a.share > b.share; });
  if (paths.size() > most) paths.resize(most);
  return paths;
}

}  // namespace backfit
