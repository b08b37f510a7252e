// SPDX-License-Identifier: MIT
// Panes to aim at about what is seen from afar: few for many zones. For the walks of this room.
#pragma once
#include <array>
#include <vector>

#include "lighttrap/aim.hpp"

namespace backfit::ray {

// Light that comes from about a place, by the corners of what it comes from.
struct Spot {
  Vec place;
  std::array<Vec, 3> corners;
  double light = 0;
};

// Panes that cover the spots as seen from a place, 32 at most: those with most light are cut in two
// across, until what is on them fills a good part of each.
std::vector<Aim::Pane> panes_about(Vec from, std::vector<Spot> spots);

}  // namespace backfit::ray
