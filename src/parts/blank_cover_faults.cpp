// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "parts/blank_cover.hpp"
#include "parts/fault_list.hpp"
#include "parts/footprint.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

void need_corners(FaultList& list, std::string_view whose, Length radius, Length width,
                  Length height) {
  if (radius == Length{}) return;
  list.need(fmt::format("{} corner radius", whose), radius, smallest_detail, "square corners");
  list.need(fmt::format("the straight between {} corners", whose),
            std::min(width, height) / 2 - radius, smallest_detail, "smaller corners");
}

}  // namespace

std::vector<PartFault> faults(const BlankCover& c) {
  FaultList list("blank-cover-impossible");
  const BackPlate::Tongue& t = c.tongue;
  list.need_size("the cover's width", c.width);
  list.need_size("the cover's height", c.height);
  list.need_size("the cover's thickness", c.thickness);
  list.need_size("the tongue's inner width", t.inner_width);
  list.need_size("the tongue's inner height", t.inner_height);
  list.need_size("the tongue's wall", t.wall);
  list.need_size("the tongue's depth", t.depth);
  list.need_size("the smallest wall", c.smallest_wall);
  if (!c.screws.empty()) list.need_size("the screw holes", c.screw_hole);
  if (!list.clean()) return std::move(list).take();
  need_corners(list, "the cover's", c.corner_radius, c.width, c.height);
  need_corners(list, "the tongue's inner", t.inner_corner_radius, t.inner_width, t.inner_height);
  if (!list.clean()) return std::move(list).take();

  const Length wall = c.smallest_wall;
  list.need("the cover's thickness", c.thickness, wall, "a thicker plate");
  list.need("the tongue's wall", t.wall, wall, "a finer nozzle, or a tighter gap by the gauge");
  const Footprint outline = Footprint::rectangle({}, {}, c.width, c.height, c.corner_radius);
  const Footprint inside =
      Footprint::rectangle({}, {}, t.inner_width, t.inner_height, t.inner_corner_radius);
  Footprint outside = inside;
  outside.radius += t.wall;
  list.need("what stays outside the tongue", room_inside(outside, outline), wall, "a wider seat");
  std::vector<Footprint> holes;
  for (const PlatePoint& place : c.screws) {
    const std::string name = fmt::format("the screw hole at ({}, {}) mm", fixed(place.x / mm, 1),
                                         fixed(place.y / mm, 1));
    const Footprint hole = Footprint::circle(place.x, place.y, c.screw_hole);
    list.need("what stays outside " + name, room_inside(hole, outline), wall, "measure its place");
    list.need("what stays between the tongue and " + name,
              std::max(gap_between(hole, outside), room_inside(hole, inside)), wall,
              "measure its place");
    for (const Footprint& other : holes) {
      list.need("what stays between another and " + name, gap_between(hole, other), wall,
                "measure their places");
    }
    holes.push_back(hole);
  }
  return std::move(list).take();
}

}  // namespace backfit
