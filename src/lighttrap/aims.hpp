// SPDX-License-Identifier: MIT
// What each group of zones is aimed at, by what all of it found. For the walks of this room.
#pragma once
#include <cstdint>
#include <vector>

#include "lighttrap/aim.hpp"
#include "lighttrap/found.hpp"
#include "lighttrap/room.hpp"

namespace backfit::ray {

// The sides of a group that look the same way share an aim; of the film each cell has its own.
// Goals are numbered as a step's are. Found: of each side of each zone, and then of each cell,
// with the sides' brightness and the zones' worth.
std::vector<Aim> aims_by(const Room& room, const std::vector<Found>& found,
                         const std::vector<double>& bright, const std::vector<double>& worth,
                         std::size_t threads);

// For each of them by which mirrors most of its sky is seen.
std::vector<std::vector<Mirrors>> mirrors_to_sky(const Room& room, const std::vector<Found>& found,
                                                 std::size_t threads);

// Which of them is a side's or, after all sides, a cell's.
std::uint32_t aim_number(const Room& room, std::size_t row);

}  // namespace backfit::ray
