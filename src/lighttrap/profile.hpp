// SPDX-License-Identifier: MIT
// The ways that light may take between two parts: a gap with bends, or a round hole.
#pragma once
#include <cstddef>
#include <limits>
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
  // Each arm's own width where they differ, the first `gap`; a corner is then a rectangle.
  std::vector<Length> widths = {};

  Length width(std::size_t arm) const { return widths.empty() ? gap : widths[arm]; }
  friend bool operator==(const GapProfile&, const GapProfile&) = default;
};

// The length of a seam that has no ends.
inline constexpr Length endless = std::numeric_limits<double>::infinity() * mm;

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
  friend bool operator==(const Wall&, const Wall&) = default;
};

inline constexpr std::size_t most_turns = 12;

// The walls on both sides of each arm, seen along the way in; those of a corner's outside go on
// with the arm that they lie straight with.
struct SeamWalls {
  std::vector<Wall> right, left;

  const Wall& of(std::size_t arm, bool on_right) const { return (on_right ? right : left)[arm]; }
  friend bool operator==(const SeamWalls&, const SeamWalls&) = default;
};

// The same wall all over.
inline SeamWalls walls_all(const GapProfile& profile, const Wall& wall) {
  const std::vector<Wall> side(profile.arms.size(), wall);
  return {side, side};
}

// Why no such gap can be, or none that is studied here; empty when it can: as many turns as corners
// between arms and at most `most_turns`, lengths that are not negative and some gap, the first and
// the last arm of some length, each arm at most 1000 times as long as wide, no width over 1000
// times another, and no arm that runs through another.
std::optional<std::string> fault_of(const GapProfile& profile);

}  // namespace backfit
