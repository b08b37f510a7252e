// SPDX-License-Identifier: MIT
#include "parts/meetings.hpp"

#include <algorithm>
#include <optional>

namespace backfit {
namespace {

bool within(const Bounds& a, const Bounds& b, Length reach) {
  const auto near = [&](Length a_low, Length a_high, Length b_low, Length b_high) {
    return a_low <= b_high + reach && b_low <= a_high + reach;
  };
  return near(a.low.x, a.high.x, b.low.x, b.high.x) && near(a.low.y, a.high.y, b.low.y, b.high.y) &&
         near(a.low.z, a.high.z, b.low.z, b.high.z);
}

std::vector<Bounds> bounds_of(const std::vector<Solid>& bodies) {
  std::vector<Bounds> bounds;
  for (const Solid& body : bodies) bounds.push_back(backfit::bounds_of(body));
  return bounds;
}

}  // namespace

std::vector<PieceMeeting> meetings_of(const PieceSet& set, Length reach) {
  std::vector<std::vector<Bounds>> around;
  for (const Piece& piece : set.pieces) around.push_back(bounds_of(piece.in_place));
  std::vector<PieceMeeting> meetings;
  for (std::size_t i = 0; i < set.pieces.size(); ++i) {
    for (std::size_t j = i + 1; j < set.pieces.size(); ++j) {
      std::optional<PieceMeeting> met;
      for (std::size_t a = 0; a < around[i].size(); ++a) {
        for (std::size_t b = 0; b < around[j].size(); ++b) {
          if (!within(around[i][a], around[j][b], reach)) continue;
          const Solid &one = set.pieces[i].in_place[a], &other = set.pieces[j].in_place[b];
          const Length apart = distance_between(one, other);
          if (apart > reach) continue;
          const Volume common = apart > Length{} ? Volume{} : common_volume(one, other);
          if (!met) met = PieceMeeting{i, j, apart, {}};
          met->apart = std::min(met->apart, apart);
          met->common = std::max(met->common, common);
        }
      }
      if (met) meetings.push_back(*met);
    }
  }
  return meetings;
}

}  // namespace backfit
