// SPDX-License-Identifier: MIT
// The chapters of the build sheet, each added to the end of a flow.
#pragma once
#include "conversion/report.hpp"
#include "documents/flow.hpp"
#include "documents/price_list.hpp"
#include "parts/piece.hpp"
#include "solid/solid.hpp"

namespace backfit::paper {

// What is converted, the verdict, the numbers it rests on, and every finding, gravest first.
void add_verdict(Flow& flow, const Report& report);
void add_findings(Flow& flow, const Report& report);

// How dark the film lies: a map, seams and remedies, or that it was not worked out; how to try it.
void add_light(Flow& flow, const Report& report);

// The engraved marks after the conversion; which measurement the set-back hangs on, and the sum
// that leads to it where no section shows it.
void add_focus(Flow& flow, const Report& report);
void add_budget(Flow& flow, const Report& report);

// How large a print stays sharp at each stop, and the contrast that a prescription promises.
void add_print(Flow& flow, const Report& report);

// A page with the camera cut through the middle and its last millimetres enlarged.
// Requires report.assembly.plate.
void add_section(Flow& flow, const Report& report);

// A page with the sheet as seen from behind: old picture, lit frame, image circle, light lost.
void add_frame(Flow& flow, const Report& report);

// A page with the plate dimensioned, `body` drawn from behind, and a list to check the print by.
// Requires report.assembly.plate, of which `body` is the solid.
void add_part(Flow& flow, const Report& report, const Solid& body);

// The plate at true size with check rulers, on as many pages as it needs.
// Requires report.assembly.plate.
void add_template(Flow& flow, const Report& report);

// The film's way through the insert at the first frame and at the last, and what the knob turns for
// each frame. Requires report.insert with a layout.
void add_path(Flow& flow, const Report& report);

// A set of pieces: apart, in section, what touches what, each piece in views with its sizes, the
// list to check prints by, how it goes together, and its flat pieces at true size. Requires a
// printer in the plan, and the set's meetings. The flow must be finished before `set` ends.
void add_set(Flow& flow, const Report& report, const PieceSet& set);

// What must go from the camera, at true size with check rulers: parts of the chamber, and the hole
// for the knob's shaft. Requires report.insert->part.
void add_camera_cuts(Flow& flow, const Report& report);

// A page with the focus scale to glue on at true size, where the standard moves; depth of field;
// what a coupled rangefinder says until it is reset.
void add_scale(Flow& flow, const Report& report);

// A table for each close-up lens and tele attachment.
void add_accessories(Flow& flow, const Report& report);

// The shutter timed by hand: its law, the switch's table, circuit and wiring, parts, steps with
// their cautions. Requires report.timer.
void add_timer(Flow& flow, const Report& report);

// What to do in order, with the cautions that apply, and what it takes.
void add_steps(Flow& flow, const Report& report);
void add_materials(Flow& flow, const PriceList& needed);

}  // namespace backfit::paper
