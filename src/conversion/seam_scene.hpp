// SPDX-License-Identifier: MIT
// A camera's back as light finds it: the seams between its parts in section, and the hollow
// between them and the film.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "lighttrap/seam_walks.hpp"

namespace backfit {

// One straight seam, its section seen from outside in.
struct LeakSeam {
  std::string name, side;  // "seat seam", "left" as seen from behind
  GapProfile profile;
  SeamWalls walls;
  // Its inner mouth: a corner, from there across the gap to the left end of the section, and along
  // the seam; light comes in towards across x along.
  SpacePoint corner, across, along;
  Length length;      // outside
  double passes = 1;  // part that felt pressed into it lets by
};

struct SeamScene {
  Surfaces hollow;
  FilmPlane film;
  std::vector<std::string> parts;
  std::vector<LeakSeam> seams;
  std::vector<std::string> not_counted;  // ways that are taken as shut, and why
};

// Why such a scene can't be studied; empty when it can: some seams, whose sections can be.
std::optional<std::string> fault_of(const SeamScene& scene);

// The same with something changed, and what was done.
struct SeamRemedy {
  std::string what;
  std::function<SeamScene()> scene;
};

// The mouth's place from the direction that light comes in by there, one of the six along the axes:
// `low` to `high` is the mouth's rectangle, which has no extent along that direction, and the
// section's left lies towards `left`. All of length 1 mm.
void set_mouth(LeakSeam& seam, const SpacePoint& in, const SpacePoint& left, const SpacePoint& low,
               const SpacePoint& high);

// A room of the hollow: a box about the axis.
struct HollowRoom {
  Length width, height, front, rear;  // along z
  std::uint32_t stuff = 0;            // of its walls
};

// The rooms one behind the other, open to each other as far as both reach, closed at both ends: a
// step between two is of the stuff of the narrower. Requires rooms that touch, front first, and
// stuffs that exist.
Surfaces hollow_of(const std::vector<HollowRoom>& rooms, const std::vector<Wall>& walls);

}  // namespace backfit
