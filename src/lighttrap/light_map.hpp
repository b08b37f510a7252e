// SPDX-License-Identifier: MIT
// Where the light on each side of each zone comes from, roughly: the map by which walks are led.
#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

#include "lighttrap/leak.hpp"
#include "lighttrap/sought.hpp"
#include "lighttrap/step.hpp"

namespace backfit::ray {

struct LightMap {
  // Of each side of each zone, and then of each cell of the film.
  struct Row {
    double light = 0;       // that comes to it, in open light of 1: a side's by its area
    std::uint32_t aim = 0;  // a group's zones share theirs
  };
  std::vector<Row> rows;
  std::vector<Aim> aims;
  std::vector<double> patch_light;  // of each patch, the mean of its cells'
  // Of each side in open light of 1, at least the least found, and where it is brightest: beside
  // brighter zones more than on the whole.
  std::vector<double> brightness;

  // How much of the film's light comes by each zone, straight from there or by others on.
  std::vector<double> worth;
  // By which mirrors to look for such zones.
  std::vector<Glance> glances;

  // By which mirrors an aim's rows see most of their sky.
  std::vector<std::vector<Mirrors>> to_sky;
  const std::vector<Mirrors>& to_sky_of(std::size_t row) const { return to_sky[rows[row].aim]; }
  const Aim& aim_of(std::size_t row) const { return aims[rows[row].aim]; }

  // By `rays_each` from each side, led by `before` if it is there: a map led by a rough one knows
  // the narrow ways that even light seldom finds. Of other zones if `part_of` tells of which of
  // `before` each is a part. Worthless once watch.may_go_on said no.
  LightMap(const Room& room, std::size_t rays_each, std::size_t threads, const LightMap* before,
           const MapWatch& watch, const std::vector<std::size_t>& part_of = {});
};

}  // namespace backfit::ray
