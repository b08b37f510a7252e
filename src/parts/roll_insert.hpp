// SPDX-License-Identifier: MIT
// The insert that carries roll film in a camera's chamber: body, lid, pressure plate, what holds
// and turns the spools, rollers and knob, each to be printed.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"
#include "solid/solid.hpp"
#include "transport/section.hpp"

namespace backfit {

// All numbers of the insert. Places count from the middle of the picture: x with the film, z along
// the light, 0 at the film plane; y across the film, so that x, y, z are right-handed: with the
// film going to the right y points up, seen from behind. The middle of the body is that of the
// picture along x and y.
struct RollInsert {
  Length gap;            // a side that slides, from the printer's gauge
  Length smallest_wall;  // that the printer makes soundly

  // Two cheeks beside the film, an end wall at each end, open to the front.
  struct Body {
    Length half_length, half_width;  // inside
    Length wall;                     // of the end walls, and of the lid
    Length cheek;                    // thickness
    Length front, back;              // cheeks begin at z = front; the lid lies on z = back
  } body;

  // What holds the film in its plane: a floor that stands in the camera's old gate, and on it the
  // rails, their ends rounded, the picture cut out of both.
  struct Gate {
    Length frame_length, frame_width;
    Length spigot_half_length, spigot_half_width;  // of the floor, in the old gate
    Length floor, front;                           // z of the floor's faces, both before the film
    Length rails_low, rails_high;                  // x of the rails' ends
    Length radius_low, radius_high;                // rounding there
    Length seat;                                   // film plane to the pressure plate's face
  } gate;

  // The lid's lip runs in a groove all round the top of the body.
  struct Trap {
    Length lip, depth;  // thickness of the lip, and how far it reaches into the body
  } trap;

  struct Plate {
    Length thickness, half_length;
    std::vector<Length> ears;  // x of its ears, which slide in upright grooves of both cheeks
    Length ear_width, foam;    // foam between an ear and the lid's pillar, pressed together
    bool windowed = false;     // with a hole for the window
  } plate;

  // A spool's ends, each held by a pin that draws out to let the spool in.
  struct Spools {
    SectionPoint supply, take_up;
    Length length;  // over the flanges, as long as it may be
    Length play;    // at each end
    Length flange;  // radii
    Length full;    // of a full roll
    Length film_width;
    Length end_hole, slot_length, slot_width;  // in the end of the spool
    Length stub;                               // how far a pin reaches into it
    Length journal, collar, collar_depth;      // diameters in the cheek, the wide one sunk by depth
    Length head;                               // of a plain pin, beyond the cheek
    Length pad, pad_depth;                     // diameter of the felt that brakes the supply spool
    SectionPoint pad_at;
  } spools;

  struct Roller {
    SectionPoint centre;
    Length radius;
    Length hub;  // radius beside the film, where flanges turn; no larger than that of the roller
  };
  std::vector<Roller> rollers;
  Length rod;  // diameter of the steel rods that they turn on

  // The knob outside the camera turns the take-up spool through the camera's wall.
  struct Knob {
    double side = 1;                // of y
    Length chamber_half;            // middle to the inside of the camera's wall, at the least
    Length wall, clearance;         // of the camera; kept between it and the insert
    Length tail;                    // diameter of the shaft in the camera's wall
    Length diameter, height, felt;  // of the knob; felt under it
    Length screw;                   // thread along the axis
    int marks = 0;
  } knob;

  struct Screws {  // hold the lid, one beside each cheek
    Length x;
    Length thread, length;
  } screws;

  // A red filter in a tube of the lid.
  struct Window {
    Length x, y;
    Length filter;  // diameter
    Length end;     // z where the tube ends
  };
  std::optional<Window> window;

  // Boxes that the camera needs, cut from body and lid.
  struct Notch {
    std::string name;
    Point3 low, high;
  };
  std::vector<Notch> notches;

  // Engraved outside on the lid; turned so many quarters counterclockwise from +x, seen from
  // behind.
  struct Words {
    std::vector<std::string> lines;
    int quarters = 0;
    Length height, depth;  // of the letters, and of the engraving; no words: height 0
    Length x, y;           // of the middle of the lines
  } words;

  // Outer sizes, lip and groove: worked out from the above.
  Length half_length() const { return body.half_length + body.wall; }
  Length half_width() const { return body.half_width + body.cheek; }
  Length lid_top() const { return body.back + body.wall; }
  // The rim's thickness all round: wall, groove, wall.
  Length rim() const { return 2 * smallest_wall + trap.lip + 2 * gap; }
  // What the lid's screws turn into, a square, and how deep the lid's ears reach down over it.
  Length boss() const { return pilot() + 2 * smallest_wall; }
  Length pilot() const { return screws.thread - 0.5 * mm; }  // common practice: the screw cuts
  Length ear_drop() const {
    const Length needed = screws.thread / 2 + 2 * smallest_wall - body.wall;
    return needed > Length{} ? needed : Length{};
  }
  // Depth of the ears' grooves in a cheek: to the middle of the lip, so that pillar and lip are
  // one.
  Length ear_groove() const { return smallest_wall + gap + trap.lip / 2; }
  Length least_hub() const { return rod / 2 + gap + smallest_wall; }  // radius
};

// Everything about `insert` that can't be made or used: walls, features that meet in a cheek, pins
// that can't be drawn, a spool that finds no way in, rails that don't go through the old gate,
// words too small; with both numbers each. Empty when it can be built.
std::vector<PartFault> faults(const RollInsert& insert);

// The best straight way of a spool out through the back: the angle from straight back, towards +x,
// and what is then free beside its flange over the whole way.
struct SpoolWay {
  Angle slant;
  Length free;
};
SpoolWay way_out(const RollInsert& insert, SectionPoint spool);

// All pieces: body, lid, pressure plate, spool pins, drive shaft, knob, and the rollers, alike ones
// as one piece. Requires faults() empty. Throws SolidFailure.
std::vector<Piece> pieces_of(const RollInsert& insert);

// A spool with a full roll on it, its ends hollow, at `at`; and the rod of a roller.
Solid full_spool(const RollInsert& insert, SectionPoint at);
Solid rod_of(const RollInsert& insert, const RollInsert::Roller& roller);

}  // namespace backfit
