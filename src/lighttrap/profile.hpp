// SPDX-License-Identifier: MIT
// The ways that light may take between two parts: a gap with bends, or a round hole.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "quantity/quantity.hpp"

namespace backfit {

enum class Turn { left, right };

// A long seam in section: a gap of one width, straight arms from the outside in, and between two
// arms a square corner of the gap's width that turns by a right angle. The arms don't count the
// corners; an arm between two corners may have no length.
struct GapProfile {
  Length gap;
  std::vector<Length> arms;
  std::vector<Turn> turns;
};

// A round hole through a wall.
struct Bore {
  Length diameter, length;
};

// A surface that scatters `reflectance` of the light evenly to all sides, and before that mirrors
// some of it at its face as a smooth surface of refractive index `gloss_index` does: Fresnel's law
// for light without polarisation. 1 is dead matt.
struct Wall {
  double reflectance = 0;
  double gloss_index = 1;
};

inline constexpr std::size_t most_turns = 12;

// Why no such gap can be, or none that is studied here; empty when it can: as many turns as corners
// between arms and at most `most_turns`, lengths that are not negative and some gap, the first and
// the last arm of some length, each arm at most 1000 gaps long, and no arm that runs through
// another.
std::optional<std::string> fault_of(const GapProfile& profile);

}  // namespace backfit
