// SPDX-License-Identifier: MIT
// Which zones to look for from everywhere. For the walks of this room.
#pragma once
#include <algorithm>
#include <cstddef>
#include <vector>

#include "lighttrap/room.hpp"

namespace backfit::ray {

// Zones by what they are worth, to look for from everywhere: a wide dark wall seldom finds the few
// zones by which light comes in.
class Sought {
 public:
  Sought() = default;
  Sought(const Room& room, const std::vector<double>& worth) : room_(&room) {
    for (const double w : worth) sums_.push_back(sums_.empty() ? w : sums_.back() + w);
  }
  bool none() const { return sums_.empty() || !(sums_.back() > 0); }
  // A zone, by its worth.
  std::size_t zone(Random& random) const {
    const auto at = std::upper_bound(sums_.begin(), sums_.end() - 1, random.unit() * sums_.back());
    return static_cast<std::size_t>(at - sums_.begin());
  }
  // Density per sr by which a place on a zone is looked for, `far` away, under that cosine.
  double density(std::size_t zone, double far, double cosine) const {
    if (none()) return 0;
    const double of_all = sums_[zone] - (zone == 0 ? 0 : sums_[zone - 1]);
    return of_all / sums_.back() / room_->zones.zones()[zone].area_mm2 * far * far / cosine;
  }

 private:
  const Room* room_ = nullptr;
  std::vector<double> sums_;
};

}  // namespace backfit::ray
