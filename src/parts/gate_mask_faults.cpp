// SPDX-License-Identifier: MIT
#include "parts/fault_list.hpp"
#include "parts/gate_mask.hpp"

namespace backfit {

std::vector<PartFault> faults(const GateMask& m) {
  FaultList list("gate-mask-impossible");
  list.need_size("the mask's width", m.width);
  list.need_size("the mask's height", m.height);
  list.need_size("the opening's width", m.opening_width);
  list.need_size("the opening's height", m.opening_height);
  list.need_size("the mask's thickness", m.thickness);
  list.need_size("the smallest wall", m.smallest_wall);
  if (!list.clean()) return std::move(list).take();
  list.need_room("the opening's width", m.opening_width, m.width - 2 * m.smallest_wall,
                 "a narrower picture; the old gate itself frames a wide one");
  list.need_room("the opening's height", m.opening_height, m.height - 2 * m.smallest_wall,
                 "a lower picture; the old gate itself frames a high one");
  return std::move(list).take();
}

}  // namespace backfit
