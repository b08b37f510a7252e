// SPDX-License-Identifier: MIT
// One step of a walk among surfaces. For the walks of this room.
#pragma once
#include <optional>
#include <span>

#include "lighttrap/aim.hpp"
#include "lighttrap/room.hpp"
#include "lighttrap/sky_fields.hpp"

namespace backfit::ray {

// Where a step ends when faces have mirrored it, by which direction it began, and what the walk's
// weight is to be multiplied by for the way that was chosen: 0 where none is open.
struct Step {
  Arrival arrival;
  Vec direction;
  double factor = 1;
  double density = 1;       // per sr, of all such ways
  std::uint32_t first = 0;  // what it met first, as goals are numbered, if not the film
};

// Goals to aim at are the sides of zones, then the fields of the sky, and then the sides of zones
// as each image shows them.
inline std::uint32_t goal_in_sky(const Room& room, std::size_t field) {
  return static_cast<std::uint32_t>(room.zones.sides() + field);
}

inline std::uint32_t goal_in_image(const Room& room, std::size_t image, std::size_t side) {
  return static_cast<std::uint32_t>((image + 1) * room.zones.sides() + aim_fields.count() + side);
}

// Steps from one place, at most `most_steps`, into `steps`: some go out as light is scattered, some
// graze, and the rest are aimed if there is light to aim at, or else graze. They are dealt out
// evenly over what there is to choose from, so that only all of them together are fair.
inline constexpr std::size_t most_steps = Kernel::packet;
void steps_from(const Room& room, const Aim* aim, const Start& from, Random& random,
                std::span<Step> steps);
// The step that goes out in that direction and to a wall by those mirrors; empty if it meets others
// or goes elsewhere.
std::optional<Step> step_along(const Room& room, const Aim* aim, const Start& from, Vec direction,
                               const Mirrors& mirrors);
// How much of the light from the sky comes to a place by those mirrors, and no others, that arrives
// from that direction.
double sky_along(const Room& room, const Start& from, Vec direction, const Mirrors& mirrors);

}  // namespace backfit::ray
