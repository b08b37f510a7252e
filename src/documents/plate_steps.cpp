// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "documents/build_words.hpp"
#include "documents/loading_steps.hpp"
#include "documents/plate_mass.hpp"
#include "documents/strap_words.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

void add_making(Steps& steps, const Report& report) {
  const Assembly& a = report.assembly;
  const BackPlate& p = *a.plate;
  const Printer& printer = *a.plan.printer;
  const std::optional<Mass> mass = plate_mass(a);
  steps.add(
      "Print the plate",
      fmt::format(
          "parts/back-plate.3mf or .stl, {}{}, rear face on the bed. The fit counts on a gap "
          "of {} mm a side: if that isn't from a gauge printed with this spool, print one "
          "first.",
          *a.material->name,
          mass ? fmt::format(", about {} g", fixed(*mass / gram, 0)) : std::string(),
          within(*printer.clearance)),
      {"Printing gives off fumes and fine particles: ventilate, and don't print where somebody "
       "sleeps. The filament's safety data sheet decides."});
  steps.add("Check the print",
            fmt::format("Fill in the list at the part's drawing. Thickness {} at four corners: if "
                        "it is off by more than {}, write what you measured into the plan and make "
                        "this sheet anew. A straightedge on the rear face must not rock.",
                        mm_of(p.thickness), mm_of(printer.error->half_width)));
  steps.add("Clear the holes",
            fmt::format("{} screw holes ⌀{} and {} fence holes ⌀{}, with a drill turned by hand. "
                        "Lay the plate on the template to check their places.",
                        p.screws.places.size(), mm_of(p.screws.hole_diameter),
                        p.fence.places.size(), mm_of(p.fence.hole_diameter)),
            {"Clamp the plate, never hold it by hand under a drilling machine; wear eye "
             "protection."});
  steps.add("Blacken",
            "Matt black on the window's edges, the tongue, and the front face inside the tongue. "
            "Leave bare what sets the register: the front face outside the tongue, the rear face.",
            {"Dust mask while sanding or flocking. Paint and glue: fresh air, no flame, and the "
             "safety data sheet of the one you use."});
}

void add_fitting(Steps& steps, const Report& report) {
  const Assembly& a = report.assembly;
  const BackPlate& p = *a.plate;
  const Seat& seat = *a.camera.seat;
  if (!p.fence.places.empty()) {
    steps.add(
        "Put in the fence screws",
        fmt::format("{} screws from the front, heads sunk flush, nuts behind. The holder must "
                    "slide between the nuts with {} mm of play a side, its rib in the groove.{}",
                    p.fence.places.size(), in_mm(a.plan.printer->clearance->value, 2),
                    p.lugs ? "" : " Straps from screw to screw press it on the plate."));
  }
  if (p.lugs) {
    steps.add("Try the straps", straps_step(a),
              {"A ring that slips off snaps back: eye protection while you draw it."});
  }
  steps.add(
      "Lay the light seal",
      fmt::format("Black yarn pressed flat into the bottom of the groove, where the tongue leaves "
                  "{}, or felt along the holder's edges. Nothing between seat and plate or "
                  "between plate and holder: there it moves the film.",
                  mm_of(seat.groove.depth->value - p.tongue.depth)));
  steps.add(
      "Fit the tongue dry",
      fmt::format("The tongue, {} deep, goes into the groove of {} by hand, {} mm free on each "
                  "side. The plate must lie on the seat all round: a strip of paper is held "
                  "at every corner. Where it binds, scrape the tongue, not the camera.",
                  mm_of(p.tongue.depth), mm_of(seat.groove.depth->value),
                  in_mm(a.plan.printer->clearance->value, 2)));
  steps.add("Screw the plate on",
            fmt::format("{} screws with a thread of {}, crosswise, a little at a time. No head may "
                        "stand above the "
                        "rear face: check with the straightedge.",
                        p.screws.places.size(), mm_of(seat.screw_diameter->value)));
  steps.add(
      "Look for light",
      "A lamp inside the camera, a holder on the plate with its dark slide in, the room dark, "
      "your eyes used to it for ten minutes: go along every seam. Then load a sheet, leave "
      "the camera five minutes in daylight on each side, dark slide drawn, shutter closed, "
      "and develop it: it must be clear.",
      {"A lamp warms bellows and print: use a cold one. Never look through a lens at the sun; "
       "a lens left lying in the sun can start a fire."});
}

}  // namespace

void add_plate_steps(Steps& steps, const Report& report) {
  add_making(steps, report);
  add_fitting(steps, report);
}

}  // namespace backfit::paper
