// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "parts/fault_list.hpp"
#include "parts/footprint.hpp"
#include "parts/lens_spacer.hpp"
#include "quantity/notation.hpp"

namespace backfit {

Length LensSpacer::thickness() const {
  Length sum = printed;
  for (const Length shim : shims) sum += shim;
  return sum;
}

Length LensSpacer::doubt() const {
  const Area printed_square = printed > Length{} ? error * error : Area{};
  const Area square =
      printed_square + static_cast<double>(shims.size()) * (shim_error * shim_error);
  return sqrt(square / 3);
}

std::vector<PartFault> faults(const LensSpacer& s) {
  FaultList list("lens-spacer-impossible");
  list.need_size("the lens board's width", s.width);
  list.need_size("the lens board's height", s.height);
  list.need_size("the lens's opening", s.opening);
  list.need_size("the smallest wall", s.smallest_wall);
  if (!s.screws.empty()) list.need_size("the screw holes", s.screw_hole);
  if (s.printed != Length{}) list.need_size("the printed spacer", s.printed);
  for (const Length shim : s.shims) list.need_size("the sheet of a shim", shim);
  if (!list.clean()) return std::move(list).take();
  if (!s.round && s.corner_radius != Length{}) {
    list.need("the corners' radius", s.corner_radius, smallest_detail, "square corners");
    list.need("the straight between the corners", std::min(s.width, s.height) / 2 - s.corner_radius,
              smallest_detail, "smaller corners");
  }
  if (!list.clean()) return std::move(list).take();

  const Footprint outline = s.round
                                ? Footprint::circle({}, {}, s.width)
                                : Footprint::rectangle({}, {}, s.width, s.height, s.corner_radius);
  const Footprint opening = Footprint::circle({}, {}, s.opening);
  const Length wall = s.smallest_wall;
  list.need("the spacer beside its opening", room_inside(opening, outline), wall,
            "a smaller opening");
  std::vector<Footprint> holes;
  for (const PlatePoint& place : s.screws) {
    const std::string name = fmt::format("the screw hole at ({}, {}) mm", fixed(place.x / mm, 1),
                                         fixed(place.y / mm, 1));
    const Footprint hole = Footprint::circle(place.x, place.y, s.screw_hole);
    list.need("what stays outside " + name, room_inside(hole, outline), wall, "measure its place");
    list.need("what stays between the opening and " + name, gap_between(hole, opening), wall,
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
