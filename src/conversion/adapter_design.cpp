// SPDX-License-Identifier: MIT
#include "conversion/adapter_design.hpp"

#include <algorithm>
#include <cmath>

#include "conversion/plate_design.hpp"

namespace backfit {
namespace {

// 90 degree countersunk heads are as wide as two diameters of the thread: from memory of the metric
// screw tables, as in the back plate.
constexpr double head_over_thread = 2;
// What the window is larger than the picture, a side, so that it never trims it; as in the back
// plate.
constexpr Length window_margin = 1 * mm;
// What a picture on its way out bows and wanders. The maker's choice, no source.
constexpr Length picture_play = 2 * mm;

Length in_layers(Length height, Length layer) { return std::ceil(height / layer - 1e-9) * layer; }

BackPlate::CountersunkHoles holes_for(Length thread, Length gap) {
  return {{}, thread + 2 * gap, head_over_thread * thread + 2 * gap};
}

// Depth that 90 degree heads sink.
Length sunk(const BackPlate::CountersunkHoles& h) {
  return (h.head_diameter - h.hole_diameter) / 2;
}

// Everything with its back's groove or tongue in the adapter's rear face.
void add_trap(AdapterPlate& p, const MountingTrap& trap, Length gap) {
  const Length width = trap.inner_width->value, height = trap.inner_height->value;
  const Length radius = trap.inner_corner_radius ? trap.inner_corner_radius->value.value : Length{};
  if (*trap.back_has == TrapKind::tongue) {
    const Length inside = radius - gap < smallest_detail ? Length{} : radius - gap;
    p.groove = {width - 2 * gap, height - 2 * gap, inside, trap.width->value + 2 * gap,
                trap.depth->value + gap};
    return;
  }
  // The loose tongue fills the same ring in both faces, as deep in one as in the other.
  const Length deep = trap.depth->value - gap;
  p.groove = {width, height, radius, trap.width->value, deep};
  p.loose_tongue = {gap, 2 * deep};
}

CameraWall opposite(CameraWall wall) {
  switch (wall) {
    case CameraWall::left:
      return CameraWall::right;
    case CameraWall::right:
      return CameraWall::left;
    case CameraWall::top:
      return CameraWall::bottom;
    case CameraWall::bottom:
      break;
  }
  return CameraWall::top;
}

bool sideways(CameraWall wall) { return wall == CameraWall::left || wall == CameraWall::right; }

// A rectangle seen from behind, with its sides at their worst.
struct Area2 {
  Length left, right, low, high;
};

Area2 around(Length x, Length y, Length width, Length height, Length doubt) {
  return {x - width / 2 - doubt, x + width / 2 + doubt, y - height / 2 - doubt,
          y + height / 2 + doubt};
}

Length half(const Stated<Measured<Length>>& m) { return m->half_width; }

Area2 area_of(const Neighbour& n) {
  const Length doubt_x = half(n.x) + half(n.width) / 2, doubt_y = half(n.y) + half(n.height) / 2;
  const Length x = n.width->value / 2 + doubt_x, y = n.height->value / 2 + doubt_y;
  return {n.x->value - x, n.x->value + x, n.y->value - y, n.y->value + y};
}

// How far `n` must go, and where, to clear `a`; empty if it does.
std::optional<BackMeets> meeting(const Neighbour& n, const Area2& a) {
  const Area2 b = area_of(n);
  if (b.left >= a.right || b.right <= a.left || b.low >= a.high || b.high <= a.low) return {};
  BackMeets least{&n, false, a.high - b.low, CameraWall::top};
  const auto try_way = [&](Length by, CameraWall towards) {
    if (by < least.by) least = {&n, false, by, towards};
  };
  try_way(b.high - a.low, CameraWall::bottom);
  try_way(a.right - b.left, CameraWall::right);
  try_way(b.right - a.left, CameraWall::left);
  return least;
}

}  // namespace

void design_adapter(Assembly& a) {
  const BackPlan& back = *a.plan.back;
  const MountingPlan& m = *back.mounting;
  const Printer& printer = *a.plan.printer;
  const Seat& seat = *a.camera.seat;
  const Length gap = printer.clearance->value;
  AdapterPlate p;
  p.smallest_wall = smallest_wall(printer);
  // Sure to lie within what the seat allows.
  p.width = seat.width->value - seat.width->half_width;
  p.height = seat.height->value - seat.height->half_width;
  p.corner_radius = seat.corner_radius->value;
  p.window_width = a.window.width + 2 * window_margin;
  p.window_height = a.window.height + 2 * window_margin;
  p.tongue = tongue_in(seat.groove, gap);
  p.seat_screws = holes_for(seat.screw_diameter->value, gap);
  for (const ScrewPlace& s : seat.screws) p.seat_screws.places.push_back({s.x->value, s.y->value});

  // The picture's middle comes to lie on the axis; inverted, the back is turned by half about it.
  const double way = *m.stands == BackStands::upright ? 1 : -1;
  const auto placed = [&](Length x, Length y) {
    return PlatePoint{way * (x - m.picture_x->value), way * (y - m.picture_y->value)};
  };
  p.back_middle = placed({}, {});
  p.back_width = m.width->value;
  p.back_height = m.height->value;
  p.back_screws = holes_for(m.screw_diameter->value, gap);
  for (const MountingScrew& s : m.screws) {
    p.back_screws.places.push_back(placed(s.x->value, s.y->value));
  }
  if (m.trap) add_trap(p, *m.trap, gap);
  p.rest = seat.behind_film->value;
  const Length deepest =
      std::max({sunk(p.seat_screws), sunk(p.back_screws), p.groove ? p.groove->depth : Length{}});
  a.plate_thickness = back.plate_thickness
                          ? **back.plate_thickness
                          : in_layers(deepest + p.smallest_wall, *printer.layer_height);
  p.thickness = a.plate_thickness;
  a.adapter = p;
}

MountingStudy study_mounting(const Report& report) {
  const Assembly& a = report.assembly;
  const MountingPlan& m = *a.plan.back->mounting;
  const AdapterPlate& p = *a.adapter;
  MountingStudy s{};
  s.picture_leaves =
      *m.stands == BackStands::upright ? *m.picture_leaves : opposite(*m.picture_leaves);
  // The lens turns the picture by half. Whoever looks at it from behind turns it back by half; from
  // the lens's side left and right change places as well.
  const bool from_lens_side = *a.film.viewed == ViewedFace::same;
  s.border =
      sideways(s.picture_leaves) && from_lens_side ? s.picture_leaves : opposite(s.picture_leaves);

  const Length doubt_x = half(m.picture_x) + half(m.width) / 2;
  const Length doubt_y = half(m.picture_y) + half(m.height) / 2;
  Area2 back = around(p.back_middle.x, p.back_middle.y, p.back_width, p.back_height, {});
  back = {back.left - doubt_x, back.right + doubt_x, back.low - doubt_y, back.high + doubt_y};
  const Area2 plate = around({}, {}, p.width, p.height, {});
  // The picture on its way, from the back's edge to its own length beyond.
  const FrameSize sheet = a.sheet.value_or(a.window);
  Area2 way = back;
  if (sideways(s.picture_leaves)) {
    way.low = -sheet.height / 2 - picture_play;
    way.high = sheet.height / 2 + picture_play;
    (s.picture_leaves == CameraWall::right ? way.right : way.left) +=
        s.picture_leaves == CameraWall::right ? sheet.width : -sheet.width;
  } else {
    way.left = -sheet.width / 2 - picture_play;
    way.right = sheet.width / 2 + picture_play;
    (s.picture_leaves == CameraWall::top ? way.high : way.low) +=
        s.picture_leaves == CameraWall::top ? sheet.height : -sheet.height;
  }
  s.film_behind_seat = report.register_.set_back.value - p.rest;
  for (const Neighbour& n : a.camera.seat->neighbours) {
    const Length reaches = n.behind_seat->value + n.behind_seat->half_width;
    const bool to_eye = n.looked_through && **n.looked_through;
    std::optional<BackMeets> worst;
    const auto take = [&](const std::optional<BackMeets>& met) {
      if (met && (!worst || worst->by < met->by)) worst = met;
    };
    if (reaches > Length{}) take(meeting(n, plate));
    if (reaches > p.thickness || to_eye) take(meeting(n, back));
    const Length free = s.film_behind_seat - picture_play;
    if (!worst && reaches > free && meeting(n, way)) {
      worst = BackMeets{&n, true, reaches - free, s.picture_leaves};
    }
    if (worst) s.meets.push_back(*worst);
  }
  return s;
}

}  // namespace backfit
