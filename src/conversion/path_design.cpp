// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "conversion/insert_sizes.hpp"
#include "conversion/path_study.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Common practice or FROM MEMORY, no source: frictions of film on a smooth post and of a roller on
// its pin, stiffness of film and paper together, drag of a light pressure plate, a felt brake.
constexpr double post_friction = 0.3, bearing_friction = 0.2, bending_loss = 0.15;
constexpr BendingStiffness strip_stiffness = 50 * newton * mm2;
constexpr Force plate_drag = 1 * newton;
constexpr Torque brake = 8 * newton_mm;
constexpr Length pin = 1.5 * mm, least_roller = 5 * mm, greatest_roller = 8 * mm;
constexpr Length rail = 2 * mm, plate_usual = 3.2 * mm, channel_play = 0.05 * mm;
constexpr Clearances kept{0.4 * mm, 0.5 * mm, 0.6 * mm};
constexpr int rollers_a_side = 2;

constexpr double pi = std::numbers::pi;

// The measure as small, and as large, as it may be.
Length least(const Measured<Length>& m) { return m.value - m.half_width; }
Length most(const Measured<Length>& m) { return m.value + m.half_width; }

// The plan's own measurement, else the catalogue's.
Measured<Length> given(const std::optional<Stated<Measured<Length>>>& own,
                       const Cited<Measured<Length>>& shipped, const char* what, PathDesign& d) {
  if (own) return own->value;
  if (shipped.doubtful()) d.from_memory.emplace_back(what);
  return *shipped.value;
}

bool up_or_down(FilmTravel goes) { return goes == FilmTravel::up || goes == FilmTravel::down; }
double sense(FilmTravel goes) {
  return goes == FilmTravel::up || goes == FilmTravel::right ? 1 : -1;
}

Room room_of(const Assembly& a, const PathDesign& d) {
  const Chamber& c = *a.camera.chamber;
  const bool vertical = up_or_down(d.goes);
  const Length body = d.wall + d.clearance;
  const Length half = least(vertical ? *c.height : *c.width) / 2 - body;
  Room room{{-half, -least(*c.before_film) - d.set_back},
            {half, least(*c.behind_film) - d.set_back - body},
            {}};
  for (const ChamberPart& p : c.parts) {
    const Measured<Length>& middle = vertical ? *p.y : *p.x;
    const Measured<Length>& size = vertical ? *p.height : *p.width;
    const Length reach = most(size) / 2 + middle.half_width + d.clearance;
    const Length at = sense(d.goes) * middle.value;
    const Length from = least(*p.behind_film) - d.set_back - d.clearance;
    const Length to = most(*p.behind_film) + most(*p.depth) - d.set_back + d.clearance;
    room.keep_outs.push_back({box(*p.name, {at - reach, from}, {at + reach, to}), *p.may_be_cut});
  }
  return room;
}

void make_up_roll(const Assembly& a, PathDesign& d) {
  const Spool& s = *a.spool;
  const InsertPlan& plan = *a.plan.insert;
  const SpoolPlan own = plan.spool.value_or(SpoolPlan{});
  const BackingPaperPlan paper = plan.backing_paper.value_or(BackingPaperPlan{});
  const Measured<Length> core = given(own.core_diameter, s.core_diameter, "core of the spool", d);
  const Measured<Length> sheet =
      given(paper.paper_thickness, s.paper_thickness, "thickness of the backing paper", d);
  const Measured<Length> film =
      given(paper.film_thickness, s.film_thickness, "thickness of the film", d);
  const Measured<Length> leader = given(paper.film_start, s.leader, "paper before the film", d);
  const Measured<Length> length = given(paper.film_length, s.film_length, "length of the film", d);
  Measured<Length> trailer = *s.trailer.value;
  if (paper.paper_length) {
    const Length rest = paper.paper_length->value.value - leader.value - length.value;
    trailer = {std::max(rest, 0 * mm), paper.paper_length->value.half_width};
  } else if (s.trailer.doubtful()) {
    d.from_memory.emplace_back("paper behind the film");
  }
  d.core = core.value / 2;
  d.core_diameter = d.inputs.add("core of the spool", core);
  d.paper = d.inputs.add("thickness of the backing paper", sheet);
  d.film = d.inputs.add("thickness of the film", film);
  d.leader = d.inputs.add("paper before the film", leader);
  d.film_length = d.inputs.add("length of the film", length);
  d.make = {sheet.value, film.value, 1, leader.value, length.value, trailer.value};
  const Length thickness = sheet.value + film.value;
  const Area solid = d.make.total() * sheet.value + length.value * film.value;
  if (own.full_roll_diameter) {
    // The air between layers follows from a fresh roll.
    const Length full = own.full_roll_diameter->value.value / 2;
    d.full_diameter = d.inputs.add("diameter of a fresh roll", *own.full_roll_diameter.value());
    d.make.packing = std::max(1.0, pi * (full * full - d.core * d.core) / solid);
  } else {
    if (s.packing.doubtful()) d.from_memory.emplace_back("air between the layers of a roll");
    d.packing = d.inputs.add("air between the layers of a roll", *s.packing.value);
    d.make.packing = s.packing.value->value;
  }
  const Measured<Length> flange =
      given(own.flange_diameter, s.flange_diameter, "flange of the spool", d);
  const Length full = take_up_radius(d.make, d.core, d.make.total());
  // A loose roll may be a little thicker, but not thicker than its flanges.
  d.problem.spool = {most(flange) / 2, least(core) / 2,
                     std::min(full + 0.2 * mm, most(flange) / 2)};
  d.problem.strip = {thickness, strip_stiffness, bending_loss};
  d.from_memory.emplace_back("friction, stiffness and curl of film and paper, brake and plate");
}

// A room in which a spool can lie at all.
bool room_holds_spools(const Assembly& a, Diagnostics& diagnostics) {
  const PathDesign d = path_design(a);
  const Room& r = d.problem.room;
  const Length spool = 2 * (d.problem.spool.flange + d.problem.clear.turning);
  const auto small = [&](Length there, Length needed, const Place& place, const char* what) {
    if (there >= needed) return false;
    diagnostics.error(place, fmt::format("{} leaves {} inside the insert's walls; spools need {}",
                                         what, text(there), text(needed)));
    return true;
  };
  const Chamber& c = *a.camera.chamber;
  const auto& along = up_or_down(d.goes) ? c.height : c.width;
  return !small(r.high.x - r.low.x, 2 * spool, along.place, "the chamber along the film") &&
         !small(r.high.z - r.low.z, spool, c.behind_film.place, "the chamber's depth");
}

}  // namespace

CameraPoint camera_point(const PathDesign& d, SectionPoint at) {
  const Length along = sense(d.goes) * at.x;
  const Length z = at.z + d.set_back;
  return up_or_down(d.goes) ? CameraPoint{0 * mm, along, z} : CameraPoint{along, 0 * mm, z};
}

bool path_can_be_studied(const Assembly& a, Diagnostics& diagnostics) {
  if (a.method() != Method::insert) {
    diagnostics.error(a.plan.method.place,
                      "a film path is studied for the method 'insert in the chamber'");
    return false;
  }
  bool good = true;
  const auto lack = [&](const Place& place, const char* what, const char* help) {
    good = false;
    diagnostics.error(place, what, help);
  };
  if (!a.camera.chamber) {
    lack(a.camera.name.place, "the camera file lacks the table 'chamber'",
         "measure the hollow behind the gate and add [chamber]");
  }
  if (!a.plan.insert) {
    lack(a.plan.method.place, "the table 'insert' is needed for a film path", "add [insert]");
    return false;
  }
  const Place& insert = a.plan.insert->place;
  if (!a.plan.insert->film_goes) {
    lack(insert, "[insert] lacks the key 'film_goes'", "write film_goes = \"up\"");
  }
  if (!a.plan.insert->wall && !a.plan.printer) {
    lack(insert, "[insert] lacks the key 'wall'", "write wall = \"1.6 mm\", or add [printer]");
  }
  if (!a.spool) lack(a.plan.film.place, "the catalogue knows no spool of this film", "");
  return good && room_holds_spools(a, diagnostics);
}

PathDesign path_design(const Assembly& a) {
  PathDesign d;
  const InsertPlan& plan = *a.plan.insert;
  d.goes = **plan.film_goes;
  d.set_back = plan.set_back->value;
  d.wall = plan.wall ? **plan.wall : 4 * *a.plan.printer->nozzle;
  d.clearance = a.plan.printer ? most(*a.plan.printer->clearance) : 0.5 * mm;
  make_up_roll(a, d);
  LayoutProblem& p = d.problem;
  p.room = room_of(a, d);
  const FNumber widest = *a.camera.lens.apertures.front();
  const ExitPupil pupil = a.pupil(widest, 0 * mm);
  p.gate = {a.film.image_height->value.value.value,
            rail,
            plan.pressure_plate ? **plan.pressure_plate : plate_usual,
            pupil.radius,
            d.set_back - pupil.z,
            d.wall};
  p.clear = kept;
  p.rules = {least_roller, greatest_roller, pin, bearing_friction, post_friction, rollers_a_side};
  p.brake = brake;
  p.gate_drag = plate_drag;
  p.loading = plan.loading && **plan.loading == SpoolLoading::insert_taken_out
                  ? Loading::insert_taken_out
                  : Loading::through_back;
  d.seat = p.strip.thickness + channel_play;
  if (a.plan.printer) {
    d.seat = in_layers(d.seat, *a.plan.printer->layer_height);
    const RollInsert begun = insert_before_path(a, d);
    p.clear.turning = std::max(p.clear.turning, begun.gap);
    p.printed = printed_body(begun);
  }
  return d;
}

}  // namespace backfit
