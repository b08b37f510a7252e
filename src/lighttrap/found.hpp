// SPDX-License-Identifier: MIT
// What rays from a side of a zone, or from a cell of the film, found. For the walks of this room.
#pragma once
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "lighttrap/room.hpp"

namespace backfit::ray {

// So much of its exchange with the side of a zone.
struct Link {
  std::size_t to;
  double exchange;
  // The side that is met first on the way, the same or a mirror's; and on the way back.
  std::uint32_t first, first_back;
  Mirrors mirrors{};
};
using Links = std::vector<Link>;

// And with the sky, by what is met first.
struct Found {
  double sky = 0;
  struct Sky {
    std::uint32_t first;
    double light;
    Mirrors mirrors;
  };
  std::vector<Sky> skies;
  Links links;
};

}  // namespace backfit::ray
