// SPDX-License-Identifier: MIT
#include <numbers>

#include "parts/fault_list.hpp"
#include "parts/window_cover.hpp"

namespace backfit {

// Square to a wall that leans 45 degrees the gap is 1/sqrt 2 of what it is along x.
Length WindowCover::half_floor() const { return side() / 2 + felt + std::numbers::sqrt2 * gap; }

std::vector<PartFault> faults(const WindowCover& c) {
  FaultList list("window-cover-impossible");
  list.need_size("the window's diameter", c.window);
  list.need_size("the felt", c.felt);
  list.need_size("the gap", c.gap);
  list.need_size("the grip", c.grip);
  list.need_size("the smallest wall", c.smallest_wall);
  if (!list.clean()) return std::move(list).take();
  const Length wall = c.smallest_wall;
  list.need("the frame's floor", c.base, wall, "a thicker floor");
  list.need("the slider", c.slider, wall, "a thicker slider");
  list.need("the frame's side walls", c.wall, wall, "thicker walls");
  list.need("the plug", c.plug, 2 * wall, "a longer plug");
  list.need("the slider's overlap over the window", c.overlap, wall, "a larger slider");
  // The leaning sides must leave room for a finger's ridge.
  list.need("the slider's width at its face", c.side() - 2 * c.slider, c.grip + 2 * wall,
            "thinner felt or a wider slider");
  list.need("the opening over the slider", c.half_floor() - c.felt - c.slider, wall,
            "thinner felt or a wider slider");
  return std::move(list).take();
}

}  // namespace backfit
