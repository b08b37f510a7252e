// SPDX-License-Identifier: MIT
// Where to cut a wall: finely towards its ends, where the light changes fastest.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace backfit::gap {

// Places from 0 to `length` (in gaps) of cuts that lie the closer the nearer an end is: from each
// end t |-> (cosh t - 1) / 2, so that pieces grow with the square root of the distance at first and
// in proportion to it farther on, up to `longest`, from where on they are even. `fineness` doubled
// halves every piece. Requires length > 0, longest > 0, fineness >= 1.
inline std::vector<double> graded_places(double length, double longest, std::size_t fineness) {
  const double scale = 0.5, half = length / 2, pieces_each = 2;
  const double slope = std::max(0.1, longest * pieces_each);  // dx/dt once the pieces are even
  const double bend = std::asinh(slope / scale);
  const auto place = [&](double t) {
    return t < bend ? scale * (std::cosh(t) - 1)
                    : scale * (std::cosh(bend) - 1) + slope * (t - bend);
  };
  const double at_bend = place(bend);
  const double reach =
      half < at_bend ? std::acosh(1 + half / scale) : bend + (half - at_bend) / slope;
  const std::size_t pieces = static_cast<std::size_t>(std::ceil(pieces_each * reach)) * fineness;
  std::vector<double> places;
  for (std::size_t i = 0; i < pieces; ++i) {
    places.push_back(place(reach * static_cast<double>(i) / static_cast<double>(pieces)));
  }
  places.push_back(half);
  for (std::size_t i = pieces; i-- > 0;) places.push_back(length - places[i]);
  return places;
}

// How long pieces may get far from the ends. `fine`: see below. `coarse`: long ways between dark
// walls, where light goes from end to end and not from wall to wall.
enum class Cut { fine, coarse };

// The longest piece to cut a way of `length` gaps into: light that goes from wall to wall many
// times needs pieces shorter than the gap; very long ways take longer ones, to stay within reach.
inline double longest_piece(double length, Cut cut = Cut::fine) {
  return std::max(0.35, length / (cut == Cut::fine ? 300 : 40));
}

}  // namespace backfit::gap
