// SPDX-License-Identifier: MIT
// The roll-film insert of a conversion: its numbers from the found film path, what it asks of the
// camera, and what stands against it.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/path_study.hpp"
#include "parts/roll_insert.hpp"

namespace backfit {

// A part of the chamber that the insert or the film meets, in the camera's axes.
struct ChamberMeeting {
  std::string name;
  Place place;
  Point3 low, high;        // as measured
  bool taken_out = false;  // or left, with a notch in the insert
  bool passed = false;     // the insert must be led past it on its way in
};

// The hole that the knob's shaft needs in the camera's wall.
struct KnobHole {
  CameraWall wall = CameraWall::right;
  Point3 middle;  // on the inside of the wall, camera's axes
  Length diameter;
};

struct InsertStudy {
  PathStudy path;
  std::optional<RollInsert> part;  // empty without a path, or where measurements are missing
  std::vector<MissingMeasurement> missing;
  std::vector<std::string> from_memory;
  std::vector<ChamberMeeting> meetings;
  std::optional<KnobHole> hole;
  std::vector<Finding> findings;  // gravest first; the path's among them

  // The part's numbers are known and nothing stands against making it.
  bool can_be_made() const { return part && faults(*part).empty(); }
};

// Empty where the plan is for no insert, or where survey and plan don't say enough to look for a
// path: chamber, way of the film, printer.
std::optional<InsertStudy> study_insert(const Assembly& assembly, const Catalogue& catalogue);

// Places of the camera's axes from those of the insert: x along the film, y across it, z from the
// new film plane.
Point3 in_camera(const PathDesign& design, Point3 in_insert);

// Parts of study_insert(), each of one file. The first needs study.path.layout.
void design_insert(const Assembly& assembly, InsertStudy& study);
void find_insert(const Assembly& assembly, InsertStudy& study);

}  // namespace backfit
