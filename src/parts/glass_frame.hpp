// SPDX-License-Identifier: MIT
// The frame that holds a ground glass on the back plate where a holder holds its film.
#pragma once
#include <vector>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"
#include "parts/sheet_holder.hpp"
#include "solid/solid.hpp"

namespace backfit {

// All numbers of the frame, in the axes of a sheet holder that lies in its place: u across, v
// towards the rib, w from the face that lies on the plate backwards.
struct GlassFrame {
  Length gap;                          // a side, of what lies loose
  Length smallest_wall;                // that the printer makes soundly
  Length window_width, window_height;  // along u and v
  Length glass_width, glass_height, glass_thickness;
  Length depth;        // face to the glass's face nearer the lens
  Length width;        // outside, along u
  Length top, bottom;  // ends at v = top and v = -bottom
  // How far the glass stands out of the frame's rear, so that the clips press it.
  Length press = 0.2 * mm;
  SheetHolder::Rib rib;

  // Four clips, two beside the glass's left edge and two beside its right one.
  struct Clips {
    Length thickness, width;  // width along v
    Length over;              // of the glass
    Length v;                 // of their middles, up and down
    Length thread;            // of their screws
  } clips;

  // Worked out from the above.
  Length thickness() const { return depth + glass_thickness - press; }
  Length recess_width() const { return glass_width + 2 * gap; }
  Length recess_height() const { return glass_height + 2 * gap; }
  Length rib_groove() const { return rib.width + gap; }
  Length screw_hole() const { return clips.thread + 2 * gap; }
  Length screw_pilot() const { return 0.85 * clips.thread; }  // common practice: the screw cuts
  // As deep as a wall before it allows, and no deeper than four threads: common practice.
  Length pilot_depth() const {
    const Length most = thickness() - smallest_wall;
    return most < 4 * clips.thread ? most : 4 * clips.thread;
  }
  Length screw_u() const { return recess_width() / 2 + smallest_wall + screw_hole() / 2; }
  Length clip_from() const { return glass_width / 2 - clips.over; }  // u
  Length clip_to() const { return screw_u() + screw_hole() / 2 + smallest_wall; }
};

// Everything about `frame` that can't be made or used, with both numbers each. Empty when it can
// be built.
std::vector<PartFault> faults(const GlassFrame& frame);

// Volumes by the numbers alone, without the geometry kernel. Require faults() empty.
Volume frame_volume(const GlassFrame& frame);
Volume clip_volume(const GlassFrame& frame);

// The frame on its plate, in the camera's axes. Requires faults() empty. Throws SolidFailure.
PieceSet set_of(const GlassFrame& frame, const HolderPose& pose);

}  // namespace backfit
