// SPDX-License-Identifier: MIT
// Which zones to look for from everywhere. For the walks of this room.
#pragma once
#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include "lighttrap/room.hpp"

namespace backfit::ray {

// By which mirrors to look, and how often of all looks by mirrors.
struct Glance {
  Mirrors mirrors;
  double chance;
};

// Zones by what they are worth, to look for from everywhere: a wide dark wall seldom finds the few
// zones by which light comes in.
class Sought {
 public:
  Sought() = default;
  Sought(const Room& room, const std::vector<double>& worth, std::vector<Glance> glances)
      : room_(&room), glances_(std::move(glances)) {
    for (const double w : worth) sums_.push_back(sums_.empty() ? w : sums_.back() + w);
  }
  // How many times as many looks it takes as for zones seen straight.
  std::size_t times() const {
    if (sums_.empty() || !(sums_.back() > 0)) return 0;
    return glances_.empty() ? 1 : 2;
  }
  // A zone, by its worth.
  std::size_t zone(Random& random) const {
    const auto at = std::upper_bound(sums_.begin(), sums_.end() - 1, random.unit() * sums_.back());
    return static_cast<std::size_t>(at - sums_.begin());
  }
  // By which mirrors: every second time by none.
  Mirrors mirrors(Random& random) const {
    if (glances_.empty()) return {};
    double pick = 2 * random.unit() - 1;
    if (pick < 0) return {};
    for (const Glance& glance : glances_) {
      pick -= glance.chance;
      if (pick < 0) return glance.mirrors;
    }
    return glances_.back().mirrors;
  }
  // Density per sr by which a place on a zone is looked for by those mirrors, `far` away, under
  // that cosine.
  double density(std::size_t zone, const Mirrors& by, double far, double cosine) const {
    if (times() == 0) return 0;
    const double chance = (sums_[zone] - (zone == 0 ? 0 : sums_[zone - 1])) / sums_.back();
    return chance * chance_of(by) / room_->zones.zones()[zone].area_mm2 * far * far / cosine;
  }

 private:
  double chance_of(const Mirrors& by) const {
    if (glances_.empty()) return by[0] == 0 ? 1 : 0;
    if (by[0] == 0) return 0.5;
    for (const Glance& glance : glances_) {
      if (glance.mirrors == by) return 0.5 * glance.chance;
    }
    return 0;
  }

  const Room* room_ = nullptr;
  std::vector<double> sums_;
  std::vector<Glance> glances_;
};

}  // namespace backfit::ray
