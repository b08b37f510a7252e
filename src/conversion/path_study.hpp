// SPDX-License-Identifier: MIT
// The film's way through an insert in the chamber: where spools and guides go, what winding costs,
// how many turns each frame takes and where a window shows its number.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/assembly.hpp"
#include "conversion/finding.hpp"
#include "transport/layout.hpp"
#include "transport/winding.hpp"

namespace backfit {

// What of the plan and the catalogue the path is worked out from. In the section of the layout x
// runs with the film and z = 0 is the NEW film plane.
struct PathDesign {
  LayoutProblem problem;  // with every keep-out; worst cases of what was measured
  FilmTravel goes = FilmTravel::up;
  Length set_back;         // of the section's z = 0 behind the original film plane
  Length wall, clearance;  // of the insert's body, and between it and the camera
  Length seat;             // film plane to the pressure plate's face
  Length core;             // radius
  RollMake make;
  // The same with their spread.
  Inputs inputs;
  InputRef<Length> core_diameter, paper, film, leader, film_length;
  InputRef<double> packing;
  std::optional<InputRef<Length>> full_diameter;  // in place of the packing
  std::vector<std::string> from_memory;
};

// Places of the camera's axes from those of the section, seen from behind.
struct CameraPoint {
  Length x, y, z;
};
CameraPoint camera_point(const PathDesign& design, SectionPoint at);

// Where the window goes that shows the number of the frame in the gate.
struct WindowPlace {
  SectionPoint on_film;
  Length along;  // from the gate's middle, with the film
  Length drift;  // of frames against numbers, from the first to the last
  bool through_plate = false;
  bool on_roll = false;
  Length first_margin, last_margin;  // film before the first frame and behind the last
};

// How flat film and paper lie in the gate, at the roll's begin, where they are pulled least: the
// film's middle behind the plane of its edges, negative towards the lens.
struct GateFlatness {
  Length middle, standard_uncertainty;  // mean and standard deviation of the draws
  Length low, high;                     // 95 % of the draws
  Length play;                          // between rails and pressure plate, film and paper off
  FNumber aperture;                     // the plan's stop
  Length depth_of_focus;                // there, one-sided
  double odds = 0;                      // that the middle lies within it
  std::optional<FNumber> surely_at;     // the widest stop, no wider, that takes in 95 %
  std::string limit;                    // what doubt of the answer comes from most
};

struct PathStudy {
  PathDesign design;
  int frames = 0;
  std::optional<Layout> layout;       // the one to build
  std::vector<Layout> others;         // other shapes, by rising cost
  std::vector<std::string> cut_away;  // what must be taken out of the chamber for it
  Effort first, last;                 // with all film on the supply, and on the take-up
  std::vector<Clearance> clearances;  // least first
  // Without a layout: what is missing, and the longest frame of the catalogue's that fits.
  Shortage shortage;
  std::optional<Film> largest;

  FrameRow row;
  std::vector<FrameWinding> table;
  std::optional<Estimate<Length>> least_gap;  // between frames wound by the table
  std::optional<Estimate<Length>> before_first, behind_last;
  double odds_frames = 0;  // that no frames overlap and all lie on film
  std::optional<WindowPlace> window;
  std::optional<GateFlatness> flatness;
  std::vector<MissingMeasurement> missing;  // for a window and a sure table

  std::vector<Finding> findings;
  Verdict verdict = Verdict::fits;
};

// Marks on the winding knob, evenly round it; the table's turns are rounded to them.
inline constexpr int knob_marks = 40;

// Whether the files say enough to look for a path; adds an error for what they lack.
bool path_can_be_studied(const Assembly& assembly, Diagnostics& diagnostics);

// Requires path_can_be_studied(). `catalogue` for the largest frame that fits instead.
PathStudy path_study(const Assembly& assembly, const Catalogue& catalogue);

// Parts of it, each of one file.
PathDesign path_design(const Assembly& assembly);
std::optional<WindowPlace> window_place(const PathStudy& study, const NumberRow& numbers,
                                        Length film);
// Requires study.layout.
GateFlatness gate_flatness(const Assembly& assembly, const PathStudy& study);
void find_path(const Assembly& assembly, PathStudy& study);

}  // namespace backfit
