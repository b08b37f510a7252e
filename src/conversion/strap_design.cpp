// SPDX-License-Identifier: MIT
#include "conversion/strap_design.hpp"

#include <algorithm>

namespace backfit {
namespace {

// A neck that fingers find and a hook that a strap doesn't slip off, by common practice.
constexpr Length neck_width = 10 * mm;
constexpr Length least_hook = 3 * mm;
constexpr Length head_length = 4 * mm;
constexpr Length head_corner = 1 * mm;
constexpr double most_drawn = 2, least_drawn = 1.4;

Length most(const Measured<Length>& m) { return m.value + m.half_width; }

}  // namespace

Length strap_recess(const StrapsPlan& plan, Length clearance) {
  return most(*plan.thickness) + clearance;
}

StrapLugs strap_lugs(const StrapsPlan& plan, bool upright, Length third, Length clearance,
                     Length smallest_wall) {
  const Length hook = std::max(least_hook, smallest_wall + 2 * head_corner);
  StrapLugs l;
  l.at_sides = upright;
  l.at = {-third / 2, third / 2};
  l.neck_width = neck_width;
  l.neck_length = most(*plan.width) + 2 * clearance + 2 * StrapLugs::step;
  l.head_width = neck_width + 2 * hook;
  l.head_length = std::max(head_length, smallest_wall);
  l.corner_radius = head_corner;
  l.recess = strap_recess(plan, clearance);
  return l;
}

StrapWay strap_way(Length holder_width, Length neck, Length aside, Length up) {
  StrapWay w;
  w.strand = holder_width + 2 * hypot(aside, up);
  w.ring = 2 * (w.strand + neck);
  w.least = w.ring / most_drawn;
  w.most = w.ring / least_drawn;
  w.press_factor = 4 * (up / hypot(aside, up));
  return w;
}

std::optional<StrapWay> strap_way(const Assembly& a) {
  if (!a.plate || !a.plate->lugs) return {};
  const StrapsPlan& plan = *a.plan.back->straps;
  Length thick;
  if (plan.holder_thickness) {
    thick = (*plan.holder_thickness)->value;
  } else if (a.sheet_holder) {
    thick = a.sheet_holder->thickness();
  } else {
    return {};
  }
  const StrapLugs& lugs = *a.plate->lugs;
  // The rib's groove is as long as the holder is wide, with the clearance on both sides.
  const Length across = std::max(a.plate->rib_groove.size_x, a.plate->rib_groove.size_y) -
                        2 * a.plan.printer->clearance->value;
  const Length edge = (lugs.at_sides ? a.plate->width : a.plate->height) / 2;
  const Length aside = edge + lugs.neck_length / 2 - across / 2;
  if (!(aside > Length{})) return {};
  return strap_way(across, lugs.neck_width, aside,
                   thick + a.plate->thickness - plan.thickness->value / 2);
}

std::vector<const Neighbour*> in_the_way_of_lugs(const Assembly& a) {
  std::vector<const Neighbour*> list;
  if (!a.plate || !a.plate->lugs) return list;
  const StrapLugs& l = *a.plate->lugs;
  const Length edge = (l.at_sides ? a.plate->width : a.plate->height) / 2;
  for (const Neighbour& n : a.camera.seat->neighbours) {
    const auto reach = [](const Measured<Length>& size, const Measured<Length>& middle) {
      return size.value / 2 + size.half_width / 2 + middle.half_width;
    };
    const Measured<Length>&along = l.at_sides ? *n.y : *n.x, &out = l.at_sides ? *n.x : *n.y;
    const Length half_along = reach(l.at_sides ? *n.height : *n.width, along);
    const Length half_out = reach(l.at_sides ? *n.width : *n.height, out);
    if (n.behind_seat->value + n.behind_seat->half_width <= Length{}) continue;
    const bool beside =
        abs(out.value) - half_out < edge + l.out() && abs(out.value) + half_out > edge;
    const bool meets = beside && std::ranges::any_of(l.at, [&](Length at) {
                         return abs(along.value - at) < half_along + l.head_width / 2;
                       });
    if (meets) list.push_back(&n);
  }
  return list;
}

}  // namespace backfit
