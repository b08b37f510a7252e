// SPDX-License-Identifier: MIT
#include "conversion/seated_plate.hpp"

#include <algorithm>
#include <utility>

namespace backfit {
namespace {

constexpr Length lip_depth = 3 * mm;  // over the seat's edge

}  // namespace

SeatedPlate::SeatedPlate(const Assembly& a, const LeakBack& back, const FrameSize& outside,
                         const FrameSize& opening, Length thick, const BackPlate::Tongue& ring)
    : assembly(a),
      how(back),
      outline(outside),
      window(opening),
      thickness(thick),
      tongue(ring),
      clearance(a.plan.printer->clearance->value),
      flat(flat_gap(*a.plan.printer)),
      seat_gap(back.seat_gap.value_or(flat)),
      camera(a, a.camera.seat->behind_film->value, back.spacer),
      front(camera.rest() + seat_gap),
      rear(front + thick) {}

std::vector<HollowRoom> SeatedPlate::rooms() const {
  std::vector<HollowRoom> rooms = camera.rooms(front, of_camera);
  rooms.push_back({window.width, window.height, front, rear, of_plate});
  return rooms;
}

LeakSeam SeatedPlate::seat_seam(SeamSide side) const {
  LeakSeam seam = seam_at(side, "seat seam", camera.last(), camera.rest(), front);
  const SeatGroove& groove = assembly.camera.seat->groove;
  const Length inner = across(side, {groove.inner_width->value, groove.inner_height->value});
  const Length outer = inner + 2 * groove.width->value;
  const Length ring = across(side, {tongue.inner_width, tongue.inner_height});
  GapProfile& p = seam.profile;
  p = round_tongue({.face = seat_gap,
                    .before = (across(side, outline) - outer) / 2,
                    .after = (inner - across(side, camera.last())) / 2,
                    .beside = (outer - ring) / 2 - tongue.wall,
                    .within = (ring - inner) / 2,
                    .wall = tongue.wall,
                    .tip = tongue.depth + how.deeper,
                    .depth = groove.depth->value + how.deeper});
  const Wall floor = how.felt_in_groove ? felt_face : painted_metal;
  const Wall on_tongue = how.felt_in_groove ? felt_face : blackened;
  seam.walls.right = {painted_metal, floor, floor, floor, painted_metal};
  seam.walls.left = {outside(), on_tongue, on_tongue, on_tongue, blackened};
  if (how.lip) {
    p.widths.insert(p.widths.begin(), clearance);
    p.arms.insert(p.arms.begin(), lip_depth);
    p.turns.insert(p.turns.begin(), Turn::right);
    seam.walls.right.insert(seam.walls.right.begin(), painted_metal);
    seam.walls.left.insert(seam.walls.left.begin(), outside());
    p.gap = p.widths.front();
  }
  seam.length = along(side, outline);
  return seam;
}

PrintedWall SeatedPlate::wall(SeamSide side, std::string name, Length covered) const {
  const Length edge = across(side, window) / 2, before = across(side, camera.last()) / 2;
  const bool straight = covered < before;
  const bool shows = before > edge;  // some of the plate's face, from the hollow
  const Length through = thickness + how.thicker;
  if (!straight) {
    const Length slant =
        hypot(std::max(Length{}, covered - (shows ? before : edge)), shows ? through : Length{});
    PrintedWall wall = edge_wall(side, std::move(name), slant, window, front, rear);
    wall.outwards = {{}, {}, 1 * mm};
    return wall;
  }
  PrintedWall wall{std::move(name), name_of(side), through, {}, {}, {}, {{}, {}, 1 * mm}};
  const double s = sign_of(side);
  const Length half = along(side, window) / 2, from = std::max(covered, edge);
  // Along the seam so that across x along points into the hollow.
  const double way = is_upright(side) ? s : -s;
  if (is_upright(side)) {
    wall.corner = {s * from, -way * half, front};
    wall.across = {{}, 2 * way * half, {}};
    wall.along = {s * (before - from), {}, {}};
  } else {
    wall.corner = {-way * half, s * from, front};
    wall.across = {2 * way * half, {}, {}};
    wall.along = {{}, s * (before - from), {}};
  }
  return wall;
}

void SeatedPlate::add_common(SeamScene& s) const {
  camera.add_spacer(s);
  if (assembly.plan.window_cover) {
    s.not_counted.emplace_back("the red window's cover: it sits on the old back, which is off");
  }
  Diagnostics read_before;  // with the plan
  s.readings = wall_readings(*assembly.plan.printer, read_before);
  s.steps = steps_to_read(*assembly.plan.printer);
}

}  // namespace backfit
