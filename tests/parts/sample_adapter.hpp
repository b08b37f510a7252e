// SPDX-License-Identifier: MIT
// An adapter near that of the demos, with a loose tongue.
#pragma once
#include "parts/adapter_plate.hpp"

namespace backfit {

// A back with a groove of its own, its picture 4 mm above its middle.
inline AdapterPlate sample_adapter() {
  AdapterPlate a;
  a.width = 138 * mm;
  a.height = 176 * mm;
  a.corner_radius = 6 * mm;
  a.thickness = 4 * mm;
  a.window_width = 48 * mm;
  a.window_height = 64 * mm;
  a.tongue = {107.5 * mm, 137.5 * mm, 2.3 * mm, 2.75 * mm, 2.75 * mm};
  a.seat_screws = {{{60.5 * mm, 66 * mm}, {-60.5 * mm, -66 * mm}}, 2.5 * mm, 4.5 * mm};
  a.back_screws = {{{40 * mm, 0 * mm}, {-40 * mm, 0 * mm}}, 2.5 * mm, 4.5 * mm};
  a.back_middle = {0 * mm, -4 * mm};
  a.back_width = 98 * mm;
  a.back_height = 120 * mm;
  a.groove = AdapterPlate::Groove{60 * mm, 84 * mm, 2 * mm, 2.6 * mm, 1.75 * mm};
  a.loose_tongue = AdapterPlate::LooseTongue{0.25 * mm, 3.5 * mm};
  a.rest = 0.8 * mm;
  a.smallest_wall = 1.2 * mm;
  return a;
}

}  // namespace backfit
