// SPDX-License-Identifier: MIT
// The double-sided holder for sheet film or paper: two frames with dark slides, each on rails with
// the film's slot, a septum between them, and a flap that opens for loading.
#pragma once
#include <optional>
#include <vector>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"
#include "solid/solid.hpp"

namespace backfit {

// All numbers of the holder. It stands in axes of its own: u across, v the way a dark slide is
// drawn, w from the face that lies on the camera backwards; u, v, w are right-handed, the origin is
// the middle of the picture in that face. Both sides are alike: turned about v, the rear one is the
// front one again.
struct SheetHolder {
  Length gap;            // a side that slides, from the printer's gauge
  Length smallest_wall;  // that the printer makes soundly

  Length picture_width, picture_height;  // along u and v
  Length sheet_width, sheet_height;      // as cut
  Length sheet_play;                     // a side, in its slot

  // From the face backwards: the wall before the slide, the slide's slot, the rails before the
  // sheet, the sheet's slot; then the septum, and the same again.
  Length front, slide_slot, rail, film_slot, septum;

  Length width;   // outside, along u
  Length top;     // v of the slide's mouth
  Length bottom;  // the loading end lies at v = -bottom

  // Wider at its end inside, so that two stops at the mouth hold it back. Drawn to them it leaves
  // the picture free.
  struct Slide {
    Length thickness;
    Length width, end_width;  // along u; at its end inside
    Length end_length;        // of the wider end, along v
    Length reach;             // into the flap when it is shut, beyond the picture
    Length stops;             // v of the edges that stop it
  } slide;

  // Strips that press the slide against the rails, each in a pocket of the frame.
  struct Felt {
    Length thickness, width;  // as bought; along v
    Length pocket;            // depth
    std::vector<Length> at;   // v of each strip's lower edge
  } felt;

  // The locating rib on each face, a strip glued into a groove.
  struct Rib {
    Length from_middle;    // v of its middle
    Length width, height;  // along v, over the face
    Length sunk;           // depth of its groove
  } rib;

  // A block between two arms of the frames, which turns backwards on two pins. The slides' ends
  // lock it.
  struct Flap {
    Length arm;                // width of an arm
    Length pin, pin_in_arm;    // diameter, and reach into an arm
    Length pin_in_flap;        // depth of its hole
    Length relief = 0.1 * mm;  // of its faces under the holder's, so that it never stands proud
  } flap;

  // Countersunk in the face, into the rails; from the rear the same, turned about v.
  struct Screws {
    Length thread;
    std::vector<Length> left, right;  // v of each, at negative and positive u
  } screws;

  struct Grip {
    Length depth = 12 * mm, slot = 8 * mm;  // along v: a fingertip's, and what it takes of a slide
  } grip;

  // Worked out from the above.
  Length depth() const { return frame() + rails(); }  // face to septum
  Length thickness() const { return 2 * depth() + septum; }
  Length frame() const { return front + slide_slot; }
  Length rails() const { return rail + film_slot; }
  Length core() const { return 2 * rails() + septum; }
  Length seam() const { return -picture_height / 2; }  // v where the flap begins
  // The slide's groove: where its wider end runs, and in the mouth.
  Length groove() const { return slide.end_width + 2 * gap; }
  Length mouth() const { return slide.width + 2 * gap; }
  Length bay() const { return width - 2 * flap.arm; }  // between the arms
  Length flap_width() const { return bay() - 2 * gap; }
  Length flap_length() const { return seam() + bottom; }
  Length slide_end() const { return seam() - slide.reach; }  // v, pushed in
  Length travel() const { return slide.stops - slide_end() - slide.end_length; }
  Length grip_start() const { return top + gap; }
  Length slide_length() const { return grip_start() + grip.slot - gap - slide_end(); }
  Length grip_thickness() const { return slide.thickness + gap + 2 * smallest_wall; }
  // Of the sheet: how far its end stands into the flap.
  Length sheet_in_flap() const { return (sheet_height - picture_height) / 2 + sheet_play; }
  // Depth of the flap's grooves for slides and sheets.
  Length slide_groove() const { return slide.reach + gap; }
  Length sheet_groove() const { return sheet_in_flap() + gap; }
  // The pins' axis: w from the rear face, v from the seam.
  Length pin_from_face() const { return frame() - (flap.pin + gap) / 2; }
  Length pin_radius() const { return pin_from_face() - flap.relief; }  // of the flap's round edge
  Length pin_length() const { return flap.pin_in_flap + gap + flap.pin_in_arm - 0.5 * mm; }
  Length screw_u() const { return (groove() / 2 + width / 2) / 2; }  // distance from the middle
  Length screw_hole() const { return screws.thread + 2 * gap; }
  Length screw_head() const { return 2 * screws.thread + 2 * gap; }  // of a 90 degree head
  Length screw_pilot() const { return 0.85 * screws.thread; }  // common practice: the screw cuts
  Length felt_length() const { return slide.width; }
  Length rib_groove() const { return rib.width + gap; }
  Length pin_notch() const { return flap.pin + gap; }
};

// Everything about `holder` that can't be made or used, with both numbers each: walls under the
// smallest, a slide that doesn't cover the picture or doesn't clear it when drawn, a felt that
// doesn't seal, features that meet. Empty when it can be built.
std::vector<PartFault> faults(const SheetHolder& holder);

// The longest countersunk screw on sale that stays within frame and core; empty when none does.
std::optional<Length> screw_length(const SheetHolder& holder);

// Volumes by the numbers alone, without the geometry kernel, each of one piece. Require faults()
// empty.
Volume frame_volume(const SheetHolder& holder);
Volume rails_volume(const SheetHolder& holder);
Volume septum_volume(const SheetHolder& holder);
Volume flap_volume(const SheetHolder& holder);
Volume slide_volume(const SheetHolder& holder);
Volume grip_volume(const SheetHolder& holder);
Volume rib_volume(const SheetHolder& holder);

// Where a holder lies: its face in the plane z = face, v up or, lengthways, to the right.
struct HolderPose {
  Length face;
  bool lengthways = false;
};

// The holder, its slides shut, in the camera's axes. Requires faults() empty. Throws SolidFailure.
PieceSet set_of(const SheetHolder& holder, const HolderPose& pose);

}  // namespace backfit
