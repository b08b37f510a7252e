// SPDX-License-Identifier: MIT
#include "parts/fault_list.hpp"
#include "parts/focus_gauge.hpp"

namespace backfit {

std::vector<PartFault> faults(const FocusGauge& g) {
  FaultList list("focus-gauge-impossible");
  list.need_size("the frame's width", g.width);
  list.need_size("the frame's height", g.height);
  list.need_size("the opening's width", g.view_width);
  list.need_size("the opening's height", g.view_height);
  list.need_size("the glass's thickness", g.glass_thickness);
  list.need_size("the gap round the glass", g.gap);
  list.need_size("the smallest wall", g.smallest_wall);
  if (!list.clean()) return std::move(list).take();

  const Length wall = g.smallest_wall;
  list.need("the floor behind the glass", g.back - g.ledge, wall, "a thicker frame");
  list.need("the plate that lies on its rest", g.back - g.rest, wall, "a thicker frame");
  list.need("the ledge beside the opening", (g.pocket_width() - g.view_width) / 2, wall,
            "a smaller opening");
  list.need("the ledge above and below the opening", (g.pocket_height() - g.view_height) / 2, wall,
            "a smaller opening");
  list.need("the wall beside the glass", (g.width - g.pocket_width()) / 2, wall,
            "a wider frame or a smaller picture");
  list.need("the wall above and below the glass", (g.height - g.pocket_height()) / 2, wall,
            "a higher frame or a smaller picture");
  if (g.has_nose()) {
    list.need("the nose's length", g.rest - g.front, smallest_detail,
              "let the glass lie on its rest itself");
    list.need("the nose's wall beside the glass", (g.nose_width - g.pocket_width()) / 2, wall,
              "a smaller picture");
    list.need("the nose's wall above and below the glass", (g.nose_height - g.pocket_height()) / 2,
              wall, "a smaller picture");
    list.need("the frame's step beside the nose", (g.width - g.nose_width) / 2, wall,
              "a wider frame");
    list.need("the frame's step above and below the nose", (g.height - g.nose_height) / 2, wall,
              "a higher frame");
  }
  if (g.has_pocket()) list.need("the pocket's depth", g.ledge - g.front, smallest_detail, "");
  return std::move(list).take();
}

}  // namespace backfit
