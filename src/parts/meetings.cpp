// SPDX-License-Identifier: MIT
#include "parts/meetings.hpp"

#include <algorithm>
#include <optional>

namespace backfit {
namespace {

constexpr Length driver_length = 60 * mm;

bool within(const Bounds& a, const Bounds& b, Length reach) {
  const auto near = [&](Length a_low, Length a_high, Length b_low, Length b_high) {
    return a_low <= b_high + reach && b_low <= a_high + reach;
  };
  return near(a.low.x, a.high.x, b.low.x, b.high.x) && near(a.low.y, a.high.y, b.low.y, b.high.y) &&
         near(a.low.z, a.high.z, b.low.z, b.high.z);
}

// Everything that stands in one place: each piece as often as it's needed, then the surroundings.
struct Standing {
  std::string name;
  std::vector<Solid> bodies;
  std::vector<Bounds> bounds;
};

std::vector<Standing> standing_in(const PieceSet& set) {
  std::vector<Standing> all;
  for (const Piece& piece : set.pieces) all.push_back({piece.name, piece.in_place, {}});
  for (const Surrounding& s : set.around) all.push_back({s.name, {s.body}, {}});
  for (Standing& s : all) {
    for (const Solid& body : s.bodies) s.bounds.push_back(bounds_of(body));
  }
  return all;
}

}  // namespace

std::vector<PieceMeeting> meetings_of(const PieceSet& set, Length reach) {
  const std::vector<Standing> all = standing_in(set);
  std::vector<PieceMeeting> meetings;
  for (std::size_t i = 0; i < set.pieces.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      std::optional<PieceMeeting> met;
      for (std::size_t a = 0; a < all[i].bodies.size(); ++a) {
        for (std::size_t b = 0; b < all[j].bodies.size(); ++b) {
          if (!within(all[i].bounds[a], all[j].bounds[b], reach)) continue;
          const Solid &one = all[i].bodies[a], &other = all[j].bodies[b];
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

const std::string& name_of(const PieceSet& set, std::size_t standing) {
  const std::size_t pieces = set.pieces.size();
  return standing < pieces ? set.pieces[standing].name : set.around[standing - pieces].name;
}

std::vector<BlockedScrew> blocked_screws(const PieceSet& set) {
  if (set.screws.empty()) return {};
  const std::vector<Standing> all = standing_in(set);
  std::vector<BlockedScrew> blocked;
  for (std::size_t i = 0; i < set.screws.size(); ++i) {
    const SetScrew& screw = set.screws[i];
    // Off the head, which may lie flush in its piece.
    const Length from = screw.from_behind ? smallest_detail : -driver_length;
    const Solid driver = translated(
        cylinder(screw.head_diameter, from, screw.from_behind ? driver_length : -smallest_detail),
        screw.head);
    const Bounds around = bounds_of(driver);
    const std::size_t counted = screw.in_camera ? all.size() : set.pieces.size();
    for (std::size_t k = 0; k < counted; ++k) {
      if (std::ranges::find(screw.later, k) != screw.later.end()) continue;
      for (std::size_t b = 0; b < all[k].bodies.size(); ++b) {
        if (!within(around, all[k].bounds[b], Length{})) continue;
        if (common_volume(driver, all[k].bodies[b]) < negligible) continue;
        blocked.push_back({i, k});
        break;
      }
    }
  }
  return blocked;
}

}  // namespace backfit
