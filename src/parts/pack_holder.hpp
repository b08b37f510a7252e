// SPDX-License-Identifier: MIT
// The thin holder for one sheet that lies in the camera where an old film pack lay: a tray with a
// lid, and before it, where the camera lets a dark slide out, a face that the slide runs in.
#pragma once
#include <optional>
#include <vector>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"
#include "solid/solid.hpp"

namespace backfit {

// All numbers of the holder. It stands in axes of its own: u across, v the way the slide is drawn,
// w from its face backwards; right-handed, the origin is the middle of the picture in the face.
struct PackHolder {
  Length gap;            // a side that slides, from the printer's gauge
  Length smallest_wall;  // that the printer makes soundly

  Length picture_width, picture_height;  // along u and v
  Length sheet_width, sheet_height;      // as cut
  Length sheet_play;                     // a side, in its slot
  Length width, length;                  // outside, along u and v

  // The tray from its front backwards: the rails before the sheet, the sheet's slot, the lid; and
  // what the lid overlaps the slot by, all round.
  Length rail, sheet_slot, lid, ledge;

  // The face before the tray, glued to it.
  struct Slide {
    Length wall, slot;                         // before the slide, and its slot
    Length thickness;                          // of the slide
    Length width, end_width;                   // of it along u; at its end inside
    Length end_length, reach;                  // of the wide end along v; beyond the picture, shut
    Length stops;                              // v of the edges that stop the wide end
    Length tab;                                // out of the holder, shut
    Length felt, felt_width, pocket, felt_at;  // strip in the mouth: thickness, along v, depth, v
  };
  std::optional<Slide> slide;  // empty: changed in the dark

  // Worked out from the above.
  Length face() const { return slide ? slide->wall + slide->slot : Length{}; }
  Length lips() const { return face() + rail; }  // from the face to the sheet's slot
  Length tray() const { return rail + sheet_slot + lid; }
  Length thickness() const { return face() + tray(); }
  Length slot_width() const { return sheet_width + 2 * sheet_play; }
  Length slot_height() const { return sheet_height + 2 * sheet_play; }
  Length lid_width() const { return slot_width() + 2 * ledge; }
  Length lid_height() const { return slot_height() + 2 * ledge; }
  // Of the slide's groove.
  Length groove() const { return slide->end_width + 2 * gap; }
  Length mouth() const { return slide->width + 2 * gap; }
  Length groove_end() const { return slide_end() - gap; }
  Length slide_end() const { return -picture_height / 2 - slide->reach; }  // v, shut
  Length slide_length() const { return length / 2 + slide->tab - slide_end(); }
  Length travel() const { return slide->stops - slide_end() - slide->end_length; }
  // w of its middle plane.
  Length slide_middle() const { return slide->wall + slide->slot / 2; }
};

// Everything about `holder` that can't be made or used, with both numbers each. Empty when it can
// be built.
std::vector<PartFault> faults(const PackHolder& holder);

// Volumes by the numbers alone, without the geometry kernel. Require faults() empty; those of face
// and slide a slide.
Volume tray_volume(const PackHolder& holder);
Volume lid_volume(const PackHolder& holder);
Volume face_volume(const PackHolder& holder);
Volume slide_volume(const PackHolder& holder);

// Where it lies: its face in the plane z = face; v turned so many quarters counterclockwise from
// up, seen from behind.
struct PackHolderPose {
  Length face;
  int quarters = 0;
};

// The holder, its slide shut, in the camera's axes. Requires faults() empty. Throws SolidFailure.
PieceSet set_of(const PackHolder& holder, const PackHolderPose& pose);

}  // namespace backfit
