// SPDX-License-Identifier: MIT
#include "lighttrap/leak.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "lighttrap/light_map.hpp"
#include "lighttrap/share_out.hpp"

namespace backfit {

using namespace ray;

std::optional<std::string> fault_of(const Surfaces& s, const FilmPlane& film) {
  const auto finite = [](const SpacePoint& p) { return std::isfinite(length(vec_mm(p))); };
  for (const SpacePoint& p : s.points) {
    if (!finite(p)) return "a corner lies nowhere";
  }
  for (std::size_t i = 0; i < s.triangles.size(); ++i) {
    for (const std::uint32_t corner : s.triangles[i].corners) {
      if (corner >= s.points.size()) {
        return fmt::format("triangle {} has corner {} of {}", i, corner, s.points.size());
      }
    }
    if (s.triangles[i].stuff >= s.stuffs.size()) return fmt::format("triangle {} has no stuff", i);
  }
  for (const Stuff& stuff : s.stuffs) {
    const Wall& w = stuff.wall;
    if (!(w.reflectance >= 0 && w.reflectance <= 1 && w.gloss_index >= 1)) {
      return fmt::format("a surface scatters {:g} of the light and has index {:g}", w.reflectance,
                         w.gloss_index);
    }
  }
  if (s.triangles.empty()) return "there is no surface";
  const Vec w = vec_mm(film.width), h = vec_mm(film.height);
  if (!finite(film.corner) ||
      !(length(w) > 0 && length(h) > 0 && finite(film.width) && finite(film.height))) {
    return "the film has no size";
  }
  if (std::abs(dot(w, h)) > 1e-9 * length(w) * length(h)) return "the film's sides are not square";
  const std::size_t patches = film.columns * film.rows;
  if (film.columns == 0 || film.rows == 0 || film.columns > 10000 || patches > 10000) {
    return "a film has 1 to 10000 patches";
  }
  return std::nullopt;
}

namespace {

// Three maps, each found with the one before.
LightMap map_of(const Room& room, std::size_t threads) {
  const LightMap rough(room, 128, threads, nullptr);
  const LightMap better(room, 128, threads, &rough);
  return {room, 256, threads, &better};
}

}  // namespace

class LeakWalks::Walker {
 public:
  Walker(const Surfaces& surfaces, const FilmPlane& film, std::size_t threads)
      : room_(surfaces, film), map_(map_of(room_, threads)) {}

  std::size_t patches() const { return room_.film.columns * room_.film.rows; }
  std::size_t zones() const { return room_.zones.zones().size(); }

  double score(std::size_t patch, Random& random) const {
    const std::size_t film_row = room_.zones.sides() + patch;
    const double worth = map_.rows[film_row].all;
    std::vector<Walk> open{{start_on_film(room_, patch, random), film_row, 1}};
    double score = 0;
    while (!open.empty()) {
      Walk walk = open.back();
      open.pop_back();
      const Step step = step_from(room_, &map_, walk.row, walk.from, random);
      walk.weight *= step.factor;
      const Arrival& a = step.arrival;
      if (a.at == Arrival::At::sky) score += walk.weight;
      if (a.at != Arrival::At::wall) continue;
      const Stuff& stuff = room_.stuff_of(a.triangle);
      // How many times what a history is worth this walk is, on the average.
      const double times = worth > 0 ? walk.weight * map_.brightness[a.side] / worth : walk.weight;
      int copies = 1;
      if (times > 2) {
        copies = static_cast<int>(std::min(times, most_copies) + random.unit());
        walk.weight /= std::min(times, most_copies);
      } else if (times < 0.5) {
        if (random.unit() >= times) continue;
        walk.weight /= times;
      }
      if (stuff.wall.reflectance == 0) continue;
      for (; copies > 0; --copies) {
        open.push_back({{a.point, a.normal, &stuff}, a.side, walk.weight * stuff.wall.reflectance});
      }
    }
    return score;
  }

 private:
  static constexpr double most_copies = 1e4;

  struct Walk {
    Start from;
    std::size_t row;
    double weight;
  };

  Room room_;
  LightMap map_;
};

LeakWalks::LeakWalks(const Surfaces& surfaces, const FilmPlane& film, std::size_t threads) {
  assert(!fault_of(surfaces, film) && threads >= 1);
  walker_ = std::make_unique<const Walker>(surfaces, film, threads);
}
LeakWalks::~LeakWalks() = default;
LeakWalks::LeakWalks(LeakWalks&&) noexcept = default;

std::size_t LeakWalks::zones() const { return walker_->zones(); }

std::vector<TallyResult> LeakWalks::light(std::size_t histories, std::size_t threads,
                                          std::uint64_t seed) const {
  assert(histories >= 2 && threads >= 1);
  // Blocks of a fixed size, joined in their order, whoever walked them.
  constexpr std::size_t block = 1024;
  const std::size_t patches = walker_->patches(), blocks = (histories + block - 1) / block;
  std::vector<Tally> tallies(patches * blocks);
  share_out(tallies.size(), threads, [&](std::size_t task) {
    const std::size_t patch = task / blocks, first = task % blocks * block;
    for (std::size_t i = first; i < std::min(histories, first + block); ++i) {
      Random random((seed * 0x9e3779b97f4a7c15 + patch) * 0xd1342543de82ef95 + i);
      tallies[task].add(walker_->score(patch, random));
    }
  });
  std::vector<TallyResult> results;
  for (std::size_t patch = 0; patch < patches; ++patch) {
    Tally all;
    for (std::size_t i = 0; i < blocks; ++i) all.add(tallies[patch * blocks + i]);
    results.push_back(all.result());
  }
  return results;
}

}  // namespace backfit
