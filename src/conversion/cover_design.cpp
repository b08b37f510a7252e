// SPDX-License-Identifier: MIT
#include "conversion/cover_design.hpp"

#include <algorithm>
#include <cmath>

#include "conversion/plate_design.hpp"

namespace backfit {
namespace {

// The maker's choice, no source.
constexpr Length overlap = 4 * mm, slider = 2 * mm, grip = 2.4 * mm, plug = 4 * mm;
constexpr Length cover_least = 3 * mm;

Length most(const Measured<Length>& m) { return m.value + m.half_width; }
Length least(const Measured<Length>& m) { return m.value - m.half_width; }
Length in_layers(Length height, Length layer) { return std::ceil(height / layer - 1e-9) * layer; }

}  // namespace

std::optional<WindowCover> window_cover(const Assembly& a) {
  if (!a.plan.window_cover) return {};
  const WindowCoverPlan& plan = *a.plan.window_cover;
  const Printer& printer = *a.plan.printer;
  const Length layer = *printer.layer_height;
  WindowCover c;
  c.smallest_wall = smallest_wall(printer);
  c.window = most(*plan.window_diameter);
  c.overlap = std::max(overlap, c.smallest_wall);
  c.felt = plan.felt->value;
  c.base = in_layers(c.smallest_wall, layer);
  c.slider = in_layers(std::max(slider, c.smallest_wall), layer);
  c.wall = c.smallest_wall;
  c.plug = std::max(plug, 2 * c.smallest_wall);
  c.grip = in_layers(grip, layer);
  c.gap = printer.clearance->value;
  c.place = {plan.x->value, plan.y->value, plan.behind_film->value};
  return c;
}

std::optional<BlankCover> blank_cover(const Report& report) {
  const Assembly& a = report.assembly;
  if (!a.plan.blank_cover) return {};
  const Printer& printer = *a.plan.printer;
  const Seat& seat = *a.camera.seat;
  const Length gap = printer.clearance->value;
  BlankCover c;
  c.smallest_wall = smallest_wall(printer);
  c.width = least(*seat.width);
  c.height = least(*seat.height);
  c.corner_radius = seat.corner_radius->value;
  c.thickness = a.plan.blank_cover->thickness
                    ? **a.plan.blank_cover->thickness
                    : in_layers(std::max(cover_least, c.smallest_wall), *printer.layer_height);
  c.tongue = tongue_in(seat.groove, gap);
  for (const ScrewPlace& s : seat.screws) c.screws.push_back({s.x->value, s.y->value});
  c.screw_hole = seat.screw_diameter->value + 2 * gap;
  c.rest = seat.behind_film->value;
  return c;
}

}  // namespace backfit
