// SPDX-License-Identifier: MIT
#include "parts/depth_gauge.hpp"
#include "parts/fault_list.hpp"

namespace backfit {

std::vector<PartFault> faults(const DepthGauge& g) {
  FaultList list("depth-gauge-impossible");
  list.need_size("the bridge's length", g.length);
  list.need_size("the bridge's width", g.width);
  list.need_size("the bridge's thickness", g.thickness);
  list.need_size("a foot's length", g.foot);
  list.need_size("the relief between the feet", g.relief);
  list.need_size("the hole for the rod", g.hole);
  list.need_size("the smallest wall", g.smallest_wall);
  if (!list.clean()) return std::move(list).take();

  const Length wall = g.smallest_wall;
  list.need("the bridge over its relief", g.thickness - g.relief, 2 * wall, "a thicker bridge");
  list.need("a foot's length", g.foot, 2 * wall, "a wider seat");
  list.need("the wall beside the hole", (g.width - g.hole) / 2, wall, "a wider bridge");
  list.need("the wall between two holes", g.hole_pitch - g.hole, wall, "holes farther apart");
  list.need("the way from the outer hole to the foot",
            g.length / 2 - g.foot - g.hole_pitch - g.hole / 2, smallest_detail,
            "holes nearer the middle");
  return std::move(list).take();
}

}  // namespace backfit
