// SPDX-License-Identifier: MIT
#include "conversion/seam_sides.hpp"

#include <algorithm>
#include <utility>

#include "solid/solid.hpp"

namespace backfit {

std::string name_of(SeamSide side) {
  switch (side) {
    case SeamSide::right:
      return "right";
    case SeamSide::left:
      return "left";
    case SeamSide::above:
      return "above";
    case SeamSide::below:
      break;
  }
  return "below";
}

FrameSize larger(const FrameSize& a, const FrameSize& b) {
  return {std::max(a.width, b.width), std::max(a.height, b.height)};
}

Length SideReach::to(SeamSide side) const {
  switch (side) {
    case SeamSide::right:
      return right;
    case SeamSide::left:
      return left;
    case SeamSide::above:
      return above;
    case SeamSide::below:
      break;
  }
  return below;
}

SideReach reach_of(const FrameSize& size, const PlatePoint& middle) {
  return {size.width / 2 + middle.x, size.width / 2 - middle.x, size.height / 2 + middle.y,
          size.height / 2 - middle.y};
}

SideReach nearer(const SideReach& a, const SideReach& b) {
  return {std::min(a.right, b.right), std::min(a.left, b.left), std::min(a.above, b.above),
          std::min(a.below, b.below)};
}

Length flat_gap(const Printer& printer) {
  return std::max(smallest_detail, printer.error->half_width);
}

LeakSeam seam_at(SeamSide side, std::string name, const FrameSize& room, Length front,
                 Length rear) {
  LeakSeam seam;
  seam.name = std::move(name);
  seam.side = name_of(side);
  const Length x = room.width / 2, y = room.height / 2;
  const double s = sign_of(side);
  const SpacePoint in =
      is_upright(side) ? SpacePoint{-s * mm, {}, {}} : SpacePoint{{}, -s * mm, {}};
  const SpacePoint low =
      is_upright(side) ? SpacePoint{s * x, -y, front} : SpacePoint{-x, s * y, front};
  const SpacePoint high =
      is_upright(side) ? SpacePoint{s * x, y, rear} : SpacePoint{x, s * y, rear};
  set_mouth(seam, in, {{}, {}, 1 * mm}, low, high);
  return seam;
}

GapProfile round_tongue(const TongueWay& w) {
  const Length down = w.tip - w.face;
  const Turn in = w.groove_on_right ? Turn::right : Turn::left;
  const Turn out = w.groove_on_right ? Turn::left : Turn::right;
  GapProfile p;
  p.widths = {w.face, w.beside, w.depth - down, w.within, w.face};
  p.arms = {w.before, down, w.wall, down, w.after};
  p.turns = {in, out, out, in};
  p.gap = w.face;
  return p;
}

void press_felt(LeakSeam& seam, Length& arm, const Slab& felt) {
  const Length pressed = std::min(felt_width, arm - smallest_detail);
  seam.passes = transmission(felt, pressed);
  arm -= pressed;
}

PrintedWall edge_wall(SeamSide side, std::string name, Length thickness, const FrameSize& opening,
                      Length front, Length rear) {
  PrintedWall wall{std::move(name), name_of(side), thickness, {}, {}, {}, {}};
  const Length edge = across(side, opening) / 2, half = along(side, opening) / 2;
  // Along the seam so that across x along points inwards.
  const double s = sign_of(side), way = is_upright(side) ? -s : s;
  if (is_upright(side)) {
    wall.corner = {s * edge, -way * half, front};
    wall.across = {{}, 2 * way * half, {}};
    wall.outwards = {s * mm, {}, {}};
  } else {
    wall.corner = {-way * half, s * edge, front};
    wall.across = {2 * way * half, {}, {}};
    wall.outwards = {{}, s * mm, {}};
  }
  wall.along = {{}, {}, rear - front};
  return wall;
}

}  // namespace backfit
