// SPDX-License-Identifier: MIT
// A felt-backed slider in a frame over a red window.
#pragma once
#include <vector>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"

namespace backfit {

// All numbers of the cover. The slider runs up and down between side walls that lean in under 45
// degrees and hold it on its felt; a plug closes the open end.
struct WindowCover {
  Length window;   // diameter
  Length overlap;  // of slider and felt over the window's edge, all round
  Length felt;     // pressed together, between frame and slider
  Length base;     // thickness of the frame's floor
  Length slider;   // thickness
  Length wall;     // of the frame's sides at their foot, and of its end
  Length plug;     // length of the plug in the open end
  Length grip;     // height of the ridge that the finger moves, half of it its thickness
  Length gap;      // that slides, square to the leaning walls
  Point3 place;    // the window's middle on the camera's outside, in the camera's axes
  Length smallest_wall;

  Length side() const { return window + 2 * overlap; }       // of the slider, at its felt
  Length travel() const { return window + overlap; }         // closed to open
  Length height() const { return base + felt + slider; }     // of the frame
  Length half_floor() const;                                 // of the channel at its floor
  Length half_width() const { return half_floor() + wall; }  // of the frame
  // Along y from the window's middle: the frame's ends, and its channel's closed end.
  Length low() const { return channel_low() - wall; }
  Length channel_low() const { return -side() / 2 - gap; }
  Length high() const { return side() / 2 + travel() + gap + plug; }
};

// What keeps it from being made, with both numbers each; empty when it can be built.
std::vector<PartFault> faults(const WindowCover& cover);

// In the axes of the cover: x across, y the way it opens, z = 0 on the camera's outside, the
// window's middle in the origin; slider closed. Require faults() empty. Throw SolidFailure.
Solid frame_of(const WindowCover& cover);
Solid slider_of(const WindowCover& cover);
Solid plug_of(const WindowCover& cover);
// By the numbers alone.
Volume frame_volume(const WindowCover& cover);
Volume slider_volume(const WindowCover& cover);
Volume plug_volume(const WindowCover& cover);
PieceSet set_of(const WindowCover& cover);

}  // namespace backfit
