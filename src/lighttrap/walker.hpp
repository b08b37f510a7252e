// SPDX-License-Identifier: MIT
// One history of a walk from the film outwards, for whoever wants to see it. For the walks of this
// room.
#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>
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
  static void on_step(const Step&) {}
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
  // reached, from which place before, of each way into the sky with its weight, and of every step.
  template <class Watch>
  Score history(std::size_t patch, Random& random, const Shares& shares, Watch& watch) const {
    const double worth = map_.patch_light[patch];
    const Start start = start_on_film(room_, patch, random);
    const std::size_t film_row = room_.zones.sides() + room_.cell_at(start.at);
    watch.on_film(start);
    Score score;
    if (shares.sun > 0) {
      score.sun += sun_seen(start, shares) + sun_in_mirrors(start, film_row, shares, random);
    }
    thread_local std::vector<Walk> open;
    // Several steps from each place: most that are aimed at a gap miss it, and together they cost
    // less than one by one.
    open.assign(1, {start, film_row, 1.0 / tries, tries, 0});
    thread_local std::array<Step, most_steps> made;
    while (!open.empty()) {
      const Walk walk = open.back();
      const std::span steps = std::span(made).first(std::min(walk.steps, most_steps));
      if (steps.size() == walk.steps) {
        open.pop_back();
      } else {
        open.back().steps -= steps.size();
      }
      steps_from(room_, &map_.aim_of(walk.row), walk.from, random, steps);
      for (const Step& step : steps) {
        watch.on_step(step);
        const double weight = walk.weight * step.factor;
        const Arrival& a = step.arrival;
        if (a.at == Arrival::At::sky) {
          score.sky += shares.sky * weight;
          if (shares.sun > 0 && a.mirrorings > 0 &&
              dot(a.direction, shares.to_sun) > sun_in_a_mirror_cosine &&
              !is_known(map_.to_sky_of(walk.row), a.mirrors)) {
            score.sun += shares.sun * weight / (2 * (1 - sun_in_a_mirror_cosine));
          }
          watch.on_sky(walk.node, a.direction, weight);
        }
        if (a.at == Arrival::At::wall)
          score.sun += arrive(a, weight, walk.node, worth, random, shares, watch, open);
      }
    }
    return score;
  }

 private:
  static constexpr double most_copies = 1e4;
  static constexpr std::size_t tries = most_steps;

  // So many steps to make from a place, each of that weight.
  struct Walk {
    Start from;
    std::size_t row;
    double weight;
    std::size_t steps;
    std::uint32_t node;
  };

  // What the sun gives to a wall that a walk came to; and what is to be walked from there.
  template <class Watch>
  double arrive(const Arrival& a, double weight, std::uint32_t node, double worth, Random& random,
                const Shares& shares, Watch& watch, std::vector<Walk>& open) const {
    const Start from{a.point, a.normal, &room_.stuff_of(a.triangle)};
    const Crossing c = crossing_at(room_, a.triangle, a.side, from);
    if (c.scatters + c.passes == 0) return 0;
    double sun = 0;
    if (shares.sun > 0) {
      sun = weight * c.scatters *
            (sun_seen(from, shares) + sun_in_mirrors(from, a.side, shares, random));
      if (c.passes > 0) {
        sun += weight * c.passes *
               (sun_seen(c.beyond, shares) + sun_in_mirrors(c.beyond, c.side, shares, random));
      }
    }
    // How many times what a history is worth this walk is, on the average.
    const double times = worth > 0 ? weight * map_.brightness[a.side] / worth : weight;
    std::size_t copies = 1;
    if (times > 2) {
      copies = static_cast<std::size_t>(std::min(times, most_copies) + random.unit());
      weight /= std::min(times, most_copies);
    } else if (times < 0.5) {
      if (random.unit() >= times) return sun;
      weight /= times;
    }
    const std::uint32_t here = watch.on_wall(node, a);
    const double back = back_from(c, a.side);
    std::size_t before = copies * tries;
    if (back < 1) {
      std::size_t beyond = 0;
      for (std::size_t i = 0; i < copies * tries; ++i) beyond += random.unit() < back ? 0 : 1;
      before -= beyond;
      const double each = weight * c.passes / (1 - back) / tries;
      if (beyond > 0) open.push_back({c.beyond, c.side, each, beyond, here});
    }
    const double each = weight * c.scatters / back / tries;
    if (before > 0) open.push_back({from, a.side, each, before, here});
    return sun;
  }

  // The part of the walks that go on to the side they came to, and not behind a sheet: mostly as
  // the map has the light there.
  double back_from(const Crossing& c, std::size_t side) const {
    if (c.passes == 0) return 1;
    const auto lit = [this](std::size_t of) {
      return map_.rows[of].light / room_.zones.zones()[of / 2].area_mm2;
    };
    const double fair = c.scatters / (c.scatters + c.passes);
    const double here = c.scatters * lit(side), both = here + c.passes * lit(c.side);
    return both > 0 ? 0.2 * fair + 0.8 * here / both : fair;
  }

  // What the sun itself gives a place there, over what a face in the open gets of all light.
  double sun_seen(const Start& from, const Shares& shares) const {
    if (!(dot(from.normal, shares.to_sun) > 0)) return 0;
    const double density = scattered_density(room_, from, shares.to_sun);
    if (room_.kernel.first(from.at + room_.offset_mm * from.normal, shares.to_sun)) return 0;
    return shares.sun * density;
  }

  static bool is_known(const std::vector<Mirrors>& known, const Mirrors& mirrors) {
    return std::find(known.begin(), known.end(), mirrors) != known.end();
  }

  // And what it gives in the mirrors that are known to show the sky there. What it gives in others,
  // walks must find.
  double sun_in_mirrors(const Start& from, std::size_t row, const Shares& shares,
                        Random& random) const {
    double sun = 0;
    for (const Mirrors& mirrors : map_.to_sky_of(row)) {
      const double cosine = 1 - random.unit() * (1 - sun_in_a_mirror_cosine);
      const double sine = std::sqrt(1 - cosine * cosine);
      const double turn = 2 * std::numbers::pi * random.unit();
      const auto [one, two] = across(shares.to_sun);
      const Vec to_sun =
          cosine * shares.to_sun + sine * std::cos(turn) * one + sine * std::sin(turn) * two;
      const Vec direction = shown_at(room_, to_sun, mirrors) - shown_at(room_, {}, mirrors);
      sun += scattered_density(room_, from, direction) * sky_along(room_, from, direction, mirrors);
    }
    return shares.sun * sun;
  }

  Room room_;
  LightMap map_;
};

}  // namespace backfit::ray
