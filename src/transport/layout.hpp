// SPDX-License-Identifier: MIT
// Where spools and guides go in a chamber, so that film runs from one to the other over the gate
// with the least effort at the knob.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "transport/drag.hpp"

namespace backfit {

// What lies in the chamber and must stay, or a hollow of the insert's own body.
struct KeepOut {
  Region region;
  bool removable = false;  // the owner may cut it away
};

// The hollow that spools and guides may fill, `low` its corner at least x and z.
struct Room {
  SectionPoint low, high;
  std::vector<KeepOut> keep_outs;
};

struct SpoolShape {
  Length flange, core, full;  // radii; `full` of the roll on it
};

struct GateShape {
  Length frame;         // length of a frame, along the film
  Length rail;          // that the film lies on at each end of the frame
  Length plate;         // film plane to the back of the pressure plate with its spring
  Length pupil_radius;  // of the lens, and how far it stands before the film
  Length pupil_distance;
  Length wall;  // kept between the light and whatever moves beside it
};

// What must stay free between surfaces.
struct Clearances {
  Length turning;  // spools
  Length guide;    // rollers, and the film where it lies on them
  Length film;     // free strands
};

struct StripShape {
  Length thickness;  // film and paper
  BendingStiffness stiffness;
  double bending_loss = 0;
};

// Which guides there may be.
struct GuideRules {
  Length least_roller, greatest_roller;  // radii
  Length pin;                            // of a roller's pin or screw
  double bearing_friction = 0, post_friction = 0;
  int most_rollers = 3;  // on each side of the gate
};

// From where a spool gets into the camera: through the opened back, or into the insert outside it;
// a printed body is open at its back alone, wherever it is loaded.
enum class Loading { through_back, insert_taken_out };

// What a body printed round the layout asks of it, beyond room for what moves: a lid that sits on a
// rim, cheeks with holes for pins and rods, a floor that stands in the old gate.
struct PrintedBody {
  Length rim, rim_height;  // the lid's seat: it reaches so far in from either end of the room, so
                           // high under its back; it falls away below under 45 degrees
  Length rails;            // from the gate's middle to the floor's end, which carries the rails
  Length bore, rod;        // radii of the holes in the cheeks, for a spool's pin and a roller's rod
  Length wall;             // kept round these holes
  Length front;            // where the cheeks begin, along the light
  Length groove;           // from the room's back to the bottom of the groove for the lid's lip
  Length hub;              // least radius of a roller beside the film, where flanges turn
  Length ear, screw;       // half widths of what a cheek must hold elsewhere along the film: a
                           // guide of the pressure plate on each side of the gate's middle, a screw
};

struct LayoutProblem {
  Room room;
  SpoolShape spool;
  GateShape gate;
  Clearances clear;
  StripShape strip;
  GuideRules rules;
  Torque brake;     // on the supply spool
  Force gate_drag;  // of pressure plate and rails
  Loading loading = Loading::through_back;
  std::optional<PrintedBody> printed = {};
};

// What ends the rails: a small lip or a post that the film slides over by its margins, or a roller.
enum class RailEnd { lip, post, roller };

// One side of the gate: the rails' end and, outwards, the faces that rollers touch.
struct HalfShape {
  RailEnd end = RailEnd::lip;
  std::vector<Face> rollers;
  friend bool operator==(const HalfShape&, const HalfShape&) = default;
};

struct Guide {
  SectionPoint centre;
  Length radius;
  Face face = Face::emulsion;
  Motion motion = Motion::turning;
  bool rail_end = false;
};

struct Layout {
  HalfShape supply_shape, take_up_shape;
  SectionPoint supply, take_up;  // spool centres
  std::vector<Guide> guides;     // as the film meets them
  std::size_t gate = 0;          // index of the strand over the gate
  Torque effort;                 // at the take-up spool, at the end of the roll
  // What layouts are ranked by: the effort, and what stands in for work and risk (a judgement, no
  // source): 1 N mm for each roller and each one on the emulsion, 3 N mm for each quarter turn that
  // the film makes round guides and for each mm that it may stand off the rails.
  Torque cost;
  // By how much everything may be off before something asked for is missed; 1 mm at most.
  Length spare;
};

// State of winding: 0 all film on the supply spool, 1 all on the take-up spool.
struct Radii {
  Length supply, take_up;
};
Radii radii_at(const SpoolShape& spool, double wound);

// The film of a layout. Requires 0 <= wound <= 1.
std::vector<Support> supports_of(const Layout& layout, const Radii& radii);
StripPath film_of(const LayoutProblem& problem, const Layout& layout, double wound);
// Tension of each strand, and the torque that turns the take-up spool.
struct Effort {
  std::vector<Force> tensions;
  Torque torque;
};
Effort effort_of(const LayoutProblem& problem, const Layout& layout, double wound);

// Feasible layouts of unlike shape or place, least cost first; empty when none was found.
// A search by many starts: that none was found is no proof. The same problem gives the same
// answer. `starts` for each shape of a half with its spool beside the
// frame and with it elsewhere, three times as many before giving up. Requires a room
// that holds a spool in each direction.
std::vector<Layout> layouts_for(const LayoutProblem& problem, int starts = 3);

// What the room lacks, each alone: least growth found that gives a layout with two rollers a side
// at most. Empty where no growth up to 100 mm does.
struct Shortage {
  std::optional<Length> width;     // half of it at either end
  std::optional<Length> behind;    // deeper behind the film plane
  std::optional<Length> in_front;  // deeper before it
};
Shortage shortage_of(const LayoutProblem& problem, int starts = 3);

// One gap between two things, at the state of winding where it is least.
struct Clearance {
  std::string between, and_;
  Length gap;
};

// Gaps of a layout, worked out apart from the search: the strip in steps of a quarter millimetre at
// 21 states of winding against walls, keep-outs, light, plate, spools, guides and itself. Least
// first.
std::vector<Clearance> clearances_of(const LayoutProblem& problem, const Layout& layout);

// Outlines, anticlockwise, of what the film takes up at one state of winding: its strands and its
// wraps, a hundredth of a millimetre thinner on either face than it is, so that what it lies on
// stays outside. Requires 0 <= wound <= 1.
using SectionOutline = std::vector<SectionPoint>;
std::vector<SectionOutline> film_body(const LayoutProblem& problem, const Layout& layout,
                                      double wound);
// Likewise of all that it passes through over the roll: strands at the rolls turn round their
// guides, the others stand still as the guides do.
std::vector<SectionOutline> film_sweep(const LayoutProblem& problem, const Layout& layout);

// Which removable keep-outs a layout needs gone: those it comes nearer to than a free strand may.
std::vector<std::string> cut_away(const LayoutProblem& problem, const Layout& layout);

}  // namespace backfit
