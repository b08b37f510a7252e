// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "documents/build_words.hpp"
#include "documents/loading_steps.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

void add_making(Steps& steps, const Report& report) {
  const Assembly& a = report.assembly;
  const RollInsert& i = *report.insert->part;
  steps.add(
      "Print the gauge, then the pieces",
      fmt::format("parts/clearance-gauge-*.3mf first: the smallest hole in which the peg slides "
                  "without force gives the clearance in hundredths of a millimetre. The plan says "
                  "{} mm: if the gauge says otherwise, mend the plan and make all anew. Then the "
                  "pieces as their page says.",
                  within(*a.plan.printer->clearance)),
      {"Printing gives off fumes and fine particles: ventilate, and don't print where somebody "
       "sleeps. The filament's safety data sheet decides."});
  steps.add("Check and clear the prints",
            fmt::format("Fill in the list at the pieces. A straightedge over the rails must not "
                        "rock; draw a strip of film over them: it must not catch. Ream the bores "
                        "with a drill turned by hand. Rods ⌀{} must slide into their holes.",
                        in_mm(i.rod)),
            {"Clamp the piece, never hold it by hand under a drilling machine; wear eye "
             "protection."});
  std::string cut = "Mark and cut by the template of what must go from the camera";
  for (const ChamberMeeting& m : report.insert->meetings) {
    if (m.taken_out) cut += fmt::format("; the {} comes out", m.name);
  }
  if (report.insert->hole) {
    cut += fmt::format("; drill ⌀{} for the knob's shaft", in_mm(report.insert->hole->diameter));
  }
  steps.add("Make room in the camera", cut + ". Then clear every chip.",
            {"Read the cautions on that sheet: blades, springs, filings, eye protection, cells and "
             "flash capacitors."});
  steps.add("Blacken",
            "Matt black on the window's edges, the floor's front, the inside of body and lid; "
            "nothing on rails, bores and what slides.",
            {"Dust mask while sanding or flocking. Paint and glue: fresh air, no flame, and the "
             "safety data sheet of the one you use."});
}

void add_fitting(Steps& steps, const Report& report) {
  const RollInsert& i = *report.insert->part;
  const RollInsert::Spools& s = i.spools;
  if (!i.rollers.empty()) {
    steps.add("Put in the rollers",
              "Each roller between the cheeks, its cone to either side; push its rod in from the "
              "knob's side to the stop, and close the hole with a dot of black sealant that can be "
              "picked out again. It must spin when blown at.");
  }
  steps.add("Felt and foam",
            fmt::format(
                "A felt disc ⌀{} in the pocket beside the supply spool: it brakes the "
                "spool's flange. Thin it until a full roll only just holds still when the "
                "film is let go. Foam on the plate's ears, {} mm when the lid is on. Felt "
                "under cheeks and end walls, where they stand on the camera's front wall; felt or "
                "yarn round the floor where it stands in the old gate, and in every notch; a ring "
                "of felt round each pin and the drive shaft, under its head.",
                in_mm(s.pad, 1), in_mm(i.plate.foam)));
  steps.add("Try the lid dry",
            fmt::format("Its lip goes {} deep into the groove all round, {} mm free on each side. "
                        "The plate's ears slide in their grooves, the pillars press them. Two "
                        "screws hold it.",
                        mm_of(i.trap.depth), in_mm(i.gap, 2)));
  steps.add("Put the insert in",
            "Pins and drive shaft in their bores from outside, pushed home. Lower the insert from "
            "behind until its floor stands in the old gate and the cheeks lie down. Put the knob's "
            "stem through the camera's wall, turn it until its tongue drops into the shaft's slot, "
            "felt ring under the knob, screw it on. Soft foam between the pins' heads and the "
            "camera's walls keeps them home.");
}

void add_loading_film(Steps& steps, const Report& report) {
  const RollInsert& i = *report.insert->part;
  const SpoolWay in = way_out(i, i.spools.supply), out = way_out(i, i.spools.take_up);
  const auto way = [](const SpoolWay& w) {
    return abs(w.slant) < 1 * deg
               ? std::string("straight in")
               : fmt::format("slanted {}° towards the {}", fixed(abs(w.slant) / deg, 0),
                             w.slant > 0 * deg ? "take-up's end" : "supply's end");
  };
  steps.add(
      "Load, with a spoiled film first",
      fmt::format(
          "Lid and pressure plate out. Draw both pins of a spool by {} until they stand flush with "
          "the cheeks: pins by their heads, the drive shaft by the knob. The full spool goes {}, "
          "the "
          "empty one {}, each with {} of play between the cheeks; push the pins home, the key into "
          "the slot. Lead the paper from the supply spool as the film's way shows, round the "
          "rollers "
          "and over the rails, into the take-up spool's slot, two turns by the knob. Plate in, its "
          "ears in their grooves, lid on.",
          text(i.spools.stub + i.spools.play, 1), way(in), way(out), text(2 * i.spools.play, 1)));
  steps.add(
      "Wind it through",
      "The spoiled film by the table of the film's way: it must run square over the rails, lie "
      "flat, and come out without a scratch on either face. The first roll of pictures shows "
      "the gaps between the frames: they must be even.");
  std::string window =
      report.insert->part->window
          ? " Glue the red filter on its ledge from inside and keep a cover over it: open it only "
            "to wind on, out of the sun."
          : " The old red window, if there is one, is closed with opaque tape inside and out.";
  steps.add(
      "Look for light",
      "A cold lamp inside the camera, lid on, back closed, the room dark, your eyes used to it "
      "for ten minutes: go along every seam, the knob and the notches." +
          window +
          " Then wind on a film, leave the camera five minutes in daylight on each side, "
          "shutter closed, and develop it: it must be clear.",
      {"A lamp warms bellows and print: use a cold one. Never look through a lens at the sun; "
       "a lens left lying in the sun can start a fire."});
}

}  // namespace

void add_printed_insert_steps(Steps& steps, const Report& report) {
  add_making(steps, report);
  add_fitting(steps, report);
  add_loading_film(steps, report);
}

}  // namespace backfit::paper
