// SPDX-License-Identifier: MIT
#include "conversion/glass_frame_design.hpp"

#include <algorithm>
#include <cassert>

#include "conversion/holder_design.hpp"
#include "conversion/plate_design.hpp"

namespace backfit {
namespace {

// Of a good frame, common practice, no source.
constexpr Length usual_screw = 2 * mm;
constexpr Length clip_over = 3 * mm, clip_width = 10 * mm, clip_thickness = 2 * mm;

// Where the film lies behind the holder's face: against the septum less its own thickness and half
// the play of its slot.
Length film_depth(const Assembly& a) {
  const Length depth = a.plan.back->holder_depth ? a.plan.back->holder_depth->value.value
                                                 : a.holder->depth.value->value;
  const Length film = a.film.thickness->value->value;
  const Length slot = a.holder->slot ? a.holder->slot->value->value : film;
  return depth - film - std::max(slot - film, Length{}) / 2;
}

}  // namespace

void design_glass_frame(Assembly& a) {
  assert(a.plate && a.plan.glass_frame);
  const GlassFramePlan& plan = *a.plan.glass_frame;
  const Printer& printer = *a.plan.printer;
  const Length layer = *printer.layer_height;
  const BackPlate::RibGroove& groove = a.plate->rib_groove;
  const bool upright = *a.plan.back->way_up == WayUp::upright;
  const Length wall = smallest_wall(printer);
  GlassFrame g;
  g.gap = printer.clearance->value;
  g.smallest_wall = wall;
  // The picture's shorter side lies across the rib's way, whichever way it is up.
  g.window_width = upright ? a.window.width : a.window.height;
  g.window_height = upright ? a.window.height : a.window.width;
  g.glass_width = plan.width->value;
  g.glass_height = plan.height->value;
  const auto& glass = a.plan.focus.ground_glass;
  g.glass_thickness = plan.thickness ? plan.thickness->value.value : glass->thickness->value;
  g.depth = nearest_layers(glass ? glass->depth->value : film_depth(a), layer);
  // What the plate leaves free for a holder and its rib.
  g.width = (upright ? groove.size_x : groove.size_y) - 2 * g.gap;
  g.rib.from_middle = upright ? groove.centre.y : groove.centre.x;
  g.rib.width = (upright ? groove.size_y : groove.size_x) - 2 * g.gap;
  g.rib.height = groove.depth - g.gap;
  g.rib.sunk = std::max(layer, layers_down(std::min(g.depth - wall, g.rib.height), layer));
  g.clips = {layers_up(std::max(clip_thickness, wall), layer), clip_width, clip_over + g.gap,
             g.glass_height / 3, plan.screw ? plan.screw->value.value : usual_screw};
  const Length beside = g.recess_height() / 2 + 2 * wall;
  g.top = std::max(g.rib.from_middle + g.rib_groove() / 2 + 2 * wall, beside);
  g.bottom = beside;
  a.glass_frame = g;
}

}  // namespace backfit
