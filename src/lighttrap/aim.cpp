// SPDX-License-Identifier: MIT
#include "lighttrap/aim.hpp"

#include <algorithm>
#include <bit>

namespace backfit::ray {

Aim::Aim(const std::vector<Goal>& goals, Images images) : images_(std::move(images)) {
  double light = 0;
  for (const Goal& goal : goals) light += goal.light;
  if (!(light > 0)) return;
  // How many times the fair part each has; one with less is filled up from one with more.
  std::vector<double> times;
  std::vector<std::uint32_t> poor, rich;
  for (const Goal& goal : goals) {
    choices_.push_back({1, goal.id, goal.id});
    times.push_back(goal.light / light * static_cast<double>(goals.size()));
    (times.back() < 1 ? poor : rich).push_back(static_cast<std::uint32_t>(times.size() - 1));
  }
  while (!poor.empty() && !rich.empty()) {
    const std::uint32_t one = poor.back(), other = rich.back();
    poor.pop_back();
    choices_[one].own = static_cast<float>(times[one]);
    choices_[one].other = goals[other].id;
    times[other] -= 1 - times[one];
    if (times[other] >= 1) continue;
    rich.pop_back();
    poor.push_back(other);
  }
  const std::size_t slots = std::bit_ceil(2 * goals.size());
  shift_ = 64 - std::countr_zero(slots);
  slots_.resize(slots);
  for (const Goal& goal : goals) {
    std::size_t at = slot_of(goal.id);
    while (slots_[at].id != none) at = (at + 1) & (slots - 1);
    slots_[at] = {goal.id, static_cast<float>(goal.light / light / goal.measure)};
  }
}

std::uint32_t Aim::goal(double choice) const {
  const double place = choice * static_cast<double>(choices_.size());
  const std::size_t fair = std::min(static_cast<std::size_t>(place), choices_.size() - 1);
  const Choice& c = choices_[fair];
  return place - static_cast<double>(fair) < c.own ? c.id : c.other;
}

double Aim::density(std::uint32_t id) const {
  if (slots_.empty()) return 0;
  std::size_t at = slot_of(id);
  while (slots_[at].id != id) {
    if (slots_[at].id == none) return 0;
    at = (at + 1) & (slots_.size() - 1);
  }
  return slots_[at].density;
}

}  // namespace backfit::ray
