// SPDX-License-Identifier: MIT
#include "conversion/insert_sizes.hpp"

#include <algorithm>
#include <cmath>

#include "conversion/plate_design.hpp"

namespace backfit {
namespace {

// Common practice or the maker's choice, no source.
constexpr Length lip_depth = 3 * mm, pad_depth = 1 * mm;
constexpr Length ear_width = 10 * mm, screw_thread = 3 * mm, screw_long = 10 * mm;
// Across hole and slot of a 120 spool's end. FROM MEMORY; no insert is made before they are
// measured.
constexpr Length usual_key = 9.5 * mm;

Length least(const Measured<Length>& m) { return m.value - m.half_width; }
bool upright(FilmTravel goes) { return goes == FilmTravel::up || goes == FilmTravel::down; }
Length known(const std::optional<Stated<Measured<Length>>>& own) {
  return own ? own->value.value : Length{};
}

}  // namespace

Length in_layers(Length height, Length layer) { return std::ceil(height / layer - 1e-9) * layer; }

RollInsert insert_before_path(const Assembly& a, const PathDesign& d) {
  const Printer& printer = *a.plan.printer;
  const Chamber& chamber = *a.camera.chamber;
  const Gate& old = a.camera.gate;
  RollInsert i;
  i.gap = printer.clearance->value;
  i.smallest_wall = smallest_wall(printer);
  i.trap = {i.smallest_wall, lip_depth};
  i.rod = 2 * d.problem.rules.pin;
  i.screws = {{}, screw_thread, screw_long};
  i.plate.ear_width = ear_width;

  const SpoolPlan own = a.plan.insert->spool.value_or(SpoolPlan{});
  RollInsert::Spools& n = i.spools;
  n.end_hole = known(own.end_hole);
  n.slot_length = known(own.slot_length);
  n.slot_width = known(own.slot_width);
  n.play = d.clearance;
  n.pad_depth = pad_depth;
  const bool measured = own.end_hole && own.slot_length && own.slot_width;
  const Length key =
      measured ? std::max(hypot(n.slot_length, n.slot_width), n.end_hole) : usual_key;
  n.journal = key + 1 * mm;
  n.collar = n.journal + 2 * (i.smallest_wall + 2 * i.gap);

  i.body.wall = d.wall;
  i.body.cheek = i.rim();
  n.collar_depth = std::min(i.body.cheek / 2, i.body.cheek - pad_depth - i.smallest_wall);
  // The old gate stands before the front wall's level: cheeks and ends stay behind both.
  i.body.front =
      d.clearance - std::min(least(*old.before_film), least(*chamber.before_film)) - d.set_back;

  const bool vertical = upright(d.goes);
  i.gate.spigot_half_length = least(vertical ? *old.height : *old.width) / 2 - d.clearance;
  i.gate.spigot_half_width = least(vertical ? *old.width : *old.height) / 2 - d.clearance;
  i.gate.seat = d.seat;
  return i;
}

PrintedBody printed_body(const RollInsert& i) {
  return {.rim = i.rim() - i.body.wall,
          .rim_height = i.trap.depth + i.gap + i.smallest_wall,
          .rails = i.gate.spigot_half_length,
          .bore = i.spools.collar / 2 + i.gap,
          .rod = i.rod / 2 + i.gap,
          .wall = i.smallest_wall,
          .front = i.body.front,
          .groove = i.trap.depth + i.gap,
          .hub = i.least_hub(),
          .ear = i.plate.ear_width / 2,
          .screw = i.boss() / 2 + i.gap};
}

}  // namespace backfit
