// SPDX-License-Identifier: MIT
// A camera's back as light finds it: the seams between its parts in section, and the hollow
// between them and the film.
#pragma once
#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "conversion/wall_readings.hpp"
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

// A printed wall with daylight on its outside and the hollow on its inside: the rectangle that its
// light comes out by, as of LitWall.
struct PrintedWall {
  std::string name, side;  // "plate's wall"
  Length thickness;  // the least way through the print, walls and infill as the readings' steps
  SpacePoint corner, across, along, outwards;
};

struct SeamScene {
  Surfaces hollow;
  FilmPlane film;
  std::vector<std::string> parts;
  std::vector<LeakSeam> seams;
  std::vector<PrintedWall> walls;
  std::optional<WallReadings> readings;  // of their print; empty: the walls can't be counted
  std::array<Length, 2> steps;           // whose readings would tell
  // Film beside the picture, see FilmPiece: "film before the take-up spool".
  struct Piece {
    std::string name;
    Area area;
  };
  std::vector<Piece> pieces;
  std::vector<std::string> not_counted;  // ways that are taken as shut, and why
  std::string shelter;  // what stands round it all and is taken as open; or nothing

  bool counts_walls() const { return readings.has_value() && !walls.empty(); }
};

// Why such a scene can't be studied; empty when it can: some seams whose sections can be, or walls
// that are counted.
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

// A flat face of four corners to the hollow; of film its piece's number, see FilmPiece.
void add_face(Surfaces& hollow, const std::array<SpacePoint, 4>& corners, std::uint32_t stuff,
              std::uint32_t piece = 0);

// A room of the hollow: a box about the axis.
struct HollowRoom {
  Length width, height, front, rear;  // along z
  std::uint32_t stuff = 0;            // of its walls
  std::uint32_t front_piece = 0;      // that its front end is if none stands before it
};

// The rooms one behind the other, open to each other as far as both reach, closed at both ends: a
// step between two is of the stuff of the narrower. Requires rooms that touch, front first, and
// stuffs that exist.
Surfaces hollow_of(const std::vector<HollowRoom>& rooms, const std::vector<Wall>& walls);

// Adds rooms that are closed from those which are there, about an axis through `middle`.
void add_rooms(Surfaces& hollow, const std::vector<HollowRoom>& rooms, const SpacePoint& middle);

}  // namespace backfit
