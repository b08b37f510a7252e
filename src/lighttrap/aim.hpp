// SPDX-License-Identifier: MIT
// What the walks from a place are aimed at. For the walks of this room.
#pragma once
#include <cstdint>
#include <utility>
#include <vector>

#include "lighttrap/images.hpp"

namespace backfit::ray {

// Goals, each chosen by its light, and looked up by what a step met: a step goes to a place evenly
// on its goal, and counts only if that is what it meets. So however many goals there are, a step
// costs the same.
class Aim {
 public:
  struct Goal {
    std::uint32_t id = 0;  // a number of its own
    double light = 0;
    double measure = 0;  // that the light is spread over, evenly: an area or a part of the sky
  };

  Aim() = default;
  explicit Aim(const std::vector<Goal>& goals, Images images = {});

  bool empty() const { return choices_.empty(); }
  // One of the goals, by a number evenly between 0 and 1. Requires some.
  std::uint32_t goal(double choice) const;
  // The chance of a goal over its measure; 0 of what is none.
  double density(std::uint32_t id) const;
  // In which mirrors show some of the goals.
  const Images& images() const { return images_; }

 private:
  static constexpr std::uint32_t none = ~std::uint32_t{0};

  // Walker's alias method: any of all goals alike, or else another in its stead.
  struct Choice {
    float own = 1;
    std::uint32_t id = 0, other = 0;
  };
  std::vector<Choice> choices_;
  // Goals in the first free slot from where their numbers throw them.
  struct Slot {
    std::uint32_t id = none;
    float density = 0;
  };
  std::size_t slot_of(std::uint32_t id) const {
    return static_cast<std::size_t>((id * std::uint64_t{0x9e3779b97f4a7c15}) >> shift_);
  }
  std::vector<Slot> slots_;
  int shift_ = 63;
  Images images_;
};

}  // namespace backfit::ray
