// SPDX-License-Identifier: MIT
#include <algorithm>

#include "parts/fault_list.hpp"
#include "parts/strap_lugs.hpp"

namespace backfit {

std::vector<std::string> faults(const StrapLugs& l, Length straight, Length thickness,
                                Length smallest_wall) {
  FaultList list("plate-impossible");
  list.need_size("the width of a strap lug's neck", l.neck_width);
  list.need_size("the length of a strap lug's neck", l.neck_length);
  list.need_size("the width of a strap lug's head", l.head_width);
  list.need_size("the length of a strap lug's head", l.head_length);
  list.need_size("the recess in a strap lug's neck", l.recess);
  if (list.clean()) {
    const Length corners = 2 * l.corner_radius + smallest_detail;
    list.need("a strap lug's neck", l.neck_width, smallest_wall, {});
    list.need("a strap lug's neck, along the strap's width", l.neck_length,
              2 * StrapLugs::step + smallest_detail, {});
    list.need("a strap lug's neck behind its recess", thickness - l.recess, smallest_wall, {});
    list.need("a strap lug's head", l.head_length, std::max(smallest_wall, corners), {});
    list.need("a strap lug's head beside its neck", (l.head_width - l.neck_width) / 2,
              std::max(smallest_wall, corners), {});
    if (l.corner_radius != Length{}) {
      list.need("the corners' radius of a strap lug", l.corner_radius, smallest_detail, {});
    }
    std::vector<Length> at = l.at;
    std::ranges::sort(at);
    for (std::size_t i = 0; i < at.size(); ++i) {
      list.need("the straight edge beside a strap lug's neck",
                straight - abs(at[i]) - l.neck_width / 2, smallest_detail, {});
      if (i > 0) {
        list.need("what stays between two strap lugs", at[i] - at[i - 1] - l.head_width,
                  smallest_wall, {});
      }
    }
  }
  std::vector<std::string> texts;
  for (PartFault& f : std::move(list).take()) texts.push_back(std::move(f.text));
  return texts;
}

std::vector<OutlineCorner> outline_of(const StrapLugs& l, Length edge) {
  std::vector<Length> at = l.at;
  std::ranges::sort(at, std::greater());
  std::vector<OutlineCorner> corners;
  const Length neck = l.neck_width / 2, head = l.head_width / 2, r = l.corner_radius;
  const Length hook = edge + l.neck_length, end = edge + l.out();
  for (const Length x : at) {
    corners.insert(corners.end(), {{x + neck, edge},
                                   {x + neck, hook},
                                   {x + head, hook, r},
                                   {x + head, end, r},
                                   {x - head, end, r},
                                   {x - head, hook, r},
                                   {x - neck, hook},
                                   {x - neck, edge}});
  }
  return corners;
}

}  // namespace backfit
