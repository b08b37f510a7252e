// SPDX-License-Identifier: MIT
// The walls of a section cut into pieces, numbered wall by wall. For the solvers of this room.
#pragma once
#include <algorithm>
#include <cstddef>
#include <vector>

#include "lighttrap/graded.hpp"
#include "lighttrap/section.hpp"

namespace backfit::gap {

struct Pieces {
  std::vector<std::vector<double>> places;  // cuts of each wall
  std::vector<std::size_t> first;           // number of its first piece
  std::vector<std::size_t> wall;            // of each piece, with its stretch of the wall
  std::vector<double> start, width;
  std::size_t count = 0;

  Pieces(const Section& section, std::size_t fineness, Cut cut = Cut::fine) {
    double way = 0;
    for (std::size_t w = 0; w < section.walls().size(); ++w) {
      if (section.walls()[w].right) way += section.length(w) / section.walls()[w].width;
    }
    const double longest = longest_piece(way, cut);
    for (std::size_t w = 0; w < section.walls().size(); ++w) {
      const double unit = section.walls()[w].width;
      places.push_back(graded_places(section.length(w) / unit, longest, fineness));
      for (double& place : places.back()) place *= unit;
      first.push_back(count);
      count += places.back().size() - 1;
      for (std::size_t i = 0; i + 1 < places.back().size(); ++i) {
        wall.push_back(w);
        start.push_back(places.back()[i]);
        width.push_back(places.back()[i + 1] - places.back()[i]);
      }
    }
  }
  std::size_t at(std::size_t of_wall, double along) const {
    const std::vector<double>& cuts = places[of_wall];
    const auto past = std::upper_bound(cuts.begin() + 1, cuts.end() - 1, along);
    return first[of_wall] + static_cast<std::size_t>(past - cuts.begin()) - 1;
  }
};

}  // namespace backfit::gap
