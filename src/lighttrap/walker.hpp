// SPDX-License-Identifier: MIT
// One history of a walk from the film outwards, for whoever wants to see it. For the walks of this
// room.
#pragma once
#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "lighttrap/leak.hpp"
#include "lighttrap/light_map.hpp"

namespace backfit::ray {

// A sun to score: the share of all light that it gives a face turned to it, and the sky's.
struct Shares {
  double sky = 1, sun = 0;
  Vec to_sun;
};

// What a history scores of the sky and of the sun.
struct Score {
  double sky = 0, sun = 0;
};

// Watches nothing.
struct Unwatched {
  static void on_film(const Start&) {}
  static std::uint32_t on_wall(std::uint32_t, const Arrival&) { return 0; }
  static void on_sky(std::uint32_t, Vec, double) {}
};

// A face that mirrors, mirrors somewhat blurred: the sun in it is a disc this wide. Common practice
// for printed and painted faces, no source.
inline constexpr double sun_in_a_mirror_cosine = 0.99619469809;  // 5 degrees about its middle

class Walker {
 public:
  Walker(const Surfaces& surfaces, const FilmPlane& film, std::size_t threads,
         const MapWatch& watch);

  const Room& room() const { return room_; }
  std::size_t patches() const { return room_.patches(); }

  // One history from the film's `patch`. `watch` is told of its start, of each wall that is
  // reached, from which place before, and of each way into the sky with its weight.
  template <class Watch>
  Score history(std::size_t patch, Random& random, const Shares& shares, Watch& watch) const {
    const std::size_t film_row = room_.zones.sides() + patch;
    const double worth = map_.rows[film_row].light;
    const Start start = start_on_film(room_, patch, random);
    watch.on_film(start);
    Score score;
    if (shares.sun > 0) score.sun += sun_seen(start, shares);
    thread_local std::vector<Walk> open;
    // Several steps from each place: among bodies most that are aimed at a gap miss it.
    const int tries = room_.surfaces.bodies ? 8 : 1;
    open.assign(static_cast<std::size_t>(tries), {start, film_row, 1.0 / tries, 0});
    while (!open.empty()) {
      Walk walk = open.back();
      open.pop_back();
      const Step step = step_from(room_, &map_.rows[walk.row].aim, walk.from, random);
      walk.weight *= step.factor;
      const Arrival& a = step.arrival;
      if (a.at == Arrival::At::sky) {
        score.sky += shares.sky * walk.weight;
        if (shares.sun > 0 && a.mirrorings > 0 &&
            dot(a.direction, shares.to_sun) > sun_in_a_mirror_cosine) {
          score.sun += shares.sun * walk.weight / (2 * (1 - sun_in_a_mirror_cosine));
        }
        watch.on_sky(walk.node, a.direction, walk.weight);
      }
      if (a.at != Arrival::At::wall) continue;
      const Stuff& stuff = room_.stuff_of(a.triangle);
      if (stuff.wall.reflectance + stuff.passes == 0) continue;
      const Start from{a.point, a.normal, &stuff}, behind{a.point, -1 * a.normal, &stuff};
      if (shares.sun > 0) {
        score.sun += walk.weight * (stuff.wall.reflectance * sun_seen(from, shares) +
                                    stuff.passes * sun_seen(behind, shares));
      }
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
      const std::uint32_t node = watch.on_wall(walk.node, a);
      const double back = back_from(stuff, a.side);
      for (copies *= tries; copies > 0; --copies) {
        if (back == 1 || random.unit() < back) {
          open.push_back({from, a.side, walk.weight * stuff.wall.reflectance / back / tries, node});
        } else {
          open.push_back(
              {behind, a.side ^ 1, walk.weight * stuff.passes / (1 - back) / tries, node});
        }
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
    std::uint32_t node;
  };

  // The part of the walks that go on to the side they came to, and not behind a sheet: mostly as
  // the map has the light there.
  double back_from(const Stuff& stuff, std::size_t side) const {
    if (stuff.passes == 0) return 1;
    const double fair = stuff.wall.reflectance / (stuff.wall.reflectance + stuff.passes);
    const double here = stuff.wall.reflectance * map_.rows[side].light;
    const double both = here + stuff.passes * map_.rows[side ^ 1].light;
    return both > 0 ? 0.2 * fair + 0.8 * here / both : fair;
  }

  // What the sun itself gives a place there, over what a face in the open gets of all light.
  double sun_seen(const Start& from, const Shares& shares) const {
    if (!(dot(from.normal, shares.to_sun) > 0)) return 0;
    const double density = scattered_density(room_, from, shares.to_sun);
    if (room_.kernel.first(from.at + room_.offset_mm * from.normal, shares.to_sun)) return 0;
    return shares.sun * density;
  }

  Room room_;
  LightMap map_;
};

}  // namespace backfit::ray
