// SPDX-License-Identifier: MIT
// The box of a timer: a tray for switch and resistors, and a panel with an engraved dial that
// closes it and carries the switch.
#pragma once
#include <string>
#include <vector>

#include "parts/piece.hpp"
#include "solid/lettering.hpp"
#include "solid/solid.hpp"

namespace backfit {

// Marks around the switch's shaft, clockwise as one looks at the panel.
struct Dial {
  Length ticks_from, ticks_to;  // radii
  Length letters_at;            // radius of the words' middles
  Lettering lettering;
  Length engraving;  // depth
  Angle first;       // of the first mark, from the panel's up, clockwise
  Angle step;
  std::vector<std::string> marks;
  Angle angle(std::size_t mark) const { return first + static_cast<double>(mark) * step; }
};
// Room of a mark's word, the shaft in the origin, x to the right as one looks at the panel.
struct DialWord {
  Length left, right, low, high;
};
DialWord word_of(const Dial& dial, std::size_t mark);

struct TimerBox {
  Length width, height;   // outside, across the panel
  Length depth;           // inside, from the tray's floor to the panel
  Length wall, panel;     // thickness of the tray's walls and floor, and of the panel
  Length corner_radius;   // outside
  Length lip;             // of the panel, how far it reaches into the tray
  Length gap;             // a side between lip and tray, from the printer's gauge
  Length bush;            // hole for the switch's bush
  Length post;            // side of the square posts in the tray's corners
  Length pilot, through;  // holes for four screws, in the posts and in the panel
  Length lead;            // width of the notch for the lead in the tray's rim
  Dial dial;

  // Where the posts' screws stand from the middle.
  Length screw_x() const { return width / 2 - wall - post / 2; }
  Length screw_y() const { return height / 2 - wall - post / 2; }
};

// Outlines of the dial in the panel's face, seen from outside, the shaft in the origin: ticks and
// letters, each convex.
std::vector<std::vector<OutlineCorner>> outlines_of(const Dial& dial);

// What makes the box impossible, each with its numbers; empty when it can be printed.
// `smallest_wall` is what the printer makes soundly, `nozzle` the finest stroke.
std::vector<std::string> faults(const TimerBox& box, Length smallest_wall, Length nozzle);

// The tray stands on z = 0, open above; the panel lies with its face on z = 0, so that both print
// as they stand, without supports. Require a box without faults.
Solid tray_of(const TimerBox& box);
Solid panel_of(const TimerBox& box);

// Both, the box beside the camera: its middle at `place`, its panel to the rear. Requires likewise.
PieceSet set_of(const TimerBox& box, Point3 place);

// By the numbers alone; the panel's without its engraving.
Volume tray_volume(const TimerBox& box);
Volume panel_volume(const TimerBox& box);

}  // namespace backfit
