// SPDX-License-Identifier: MIT
// What a printed holder's numbers mean at the bench.
#include <fmt/format.h>

#include <algorithm>

#include "conversion/finding_words.hpp"
#include "conversion/holder_design.hpp"
#include "conversion/plate_design.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

void find_depth(const Assembly& a, std::vector<Finding>& out) {
  const SheetHolder& h = *a.sheet_holder;
  const Measured<Length> made = a.holder->depth.value.value;
  const Length layer = *a.plan.printer->layer_height;
  Finding f{"holder-depth",
            Weight::note,
            a.plan.holder->place,
            fmt::format("printed in layers of {}, the holder is {} deep from its face to the "
                        "septum, to within {}",
                        text(layer), text(h.depth()), text(made.half_width)),
            {},
            {}};
  if (!a.plan.back->holder_depth) {
    f.remedies.emplace_back(
        "measure the finished one with a depth rod and write holder_depth under [back]");
  }
  const std::optional<Measured<Length>> asked = a.asked_depth;
  if (asked) {
    f.text += fmt::format("; {} is asked for", text(asked->value));
    if (asked->half_width > Length{}) f.text += fmt::format(" within {}", text(asked->half_width));
    const Length most = asked->half_width;
    const bool within = abs(made.value - asked->value) + made.half_width <= most + 0.001 * mm;
    if (asked->half_width > Length{} && !within && !a.plan.back->holder_depth) {
      f.id = "holder-depth-in-doubt";
      f.weight = Weight::warning;
    }
  }
  out.push_back(std::move(f));
}

void find_sheets(const Assembly& a, std::vector<Finding>& out) {
  const SheetHolder& h = *a.sheet_holder;
  const Measured<Length>& sheet = *a.film.thickness->value;
  const Length thickest = sheet.value + sheet.half_width;
  const Length play = h.film_slot - sheet.value;
  if (thickest > h.film_slot + 0.001 * mm) {
    out.push_back(
        {"sheet-jams",
         Weight::warning,
         a.plan.holder->sheet_slot ? a.plan.holder->sheet_slot->place : a.plan.holder->place,
         fmt::format("{} may be {} thick; the holder's slot is {}", *a.film.name, text(thickest),
                     text(h.film_slot)),
         {},
         {fmt::format("write sheet_slot = \"{}\"",
                      text(layers_up(thickest, *a.plan.printer->layer_height)))}});
    return;
  }
  out.push_back({"sheet-play",
                 Weight::note,
                 a.plan.holder->place,
                 fmt::format("in its slot of {} a sheet has {} of play along the light: that much "
                             "of the doubt about the film's plane no measurement takes away",
                             text(h.film_slot), text(std::max(play, Length{}))),
                 {},
                 {}});
}

void need_bed(const std::string& what, const FrameSize& size, const Printer& printer,
              std::vector<Finding>& out) {
  if (fits_bed(size, printer)) return;
  out.push_back({"bed-too-small",
                 Weight::blocker,
                 printer.bed_width.place,
                 fmt::format("{} measures {} × {} mm; the bed takes {} × {} mm", what,
                             fixed(size.width / mm, 1), fixed(size.height / mm, 1),
                             fixed(*printer.bed_width / mm, 1), fixed(*printer.bed_depth / mm, 1)),
                 {},
                 {"have it printed on a larger one"}});
}

}  // namespace

void find_glass_frame(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  if (!a.glass_frame) return;
  const GlassFrame& g = *a.glass_frame;
  const Place& place = a.plan.glass_frame->place;
  for (const PartFault& f : faults(g)) {
    out.push_back({f.id,
                   Weight::blocker,
                   place,
                   "the ground glass's frame can't be made: " + f.text,
                   {},
                   {f.remedy}});
  }
  if (!faults(g).empty()) return;
  need_bed("the ground glass's frame", {g.width, g.top + g.bottom}, *a.plan.printer, out);
  Finding f{"glass-frame-depth",
            Weight::note,
            place,
            fmt::format("the frame's ledge lets the glass lie {} behind the plate's rear face, to "
                        "within {}",
                        text(g.depth), text(a.plan.printer->error->half_width)),
            {},
            {}};
  if (!a.plan.focus.ground_glass) {
    f.text += "; its ground side faces the lens";
    f.remedies.emplace_back("measure the finished one and write depth under [focus.ground_glass]");
  }
  out.push_back(std::move(f));
}

void find_holder(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  if (!a.sheet_holder) return;
  const SheetHolder& h = *a.sheet_holder;
  const std::vector<PartFault> list = faults(h);
  for (const PartFault& f : list) {
    out.push_back({f.id,
                   Weight::blocker,
                   a.plan.holder->place,
                   "the sheet holder can't be made: " + f.text,
                   {},
                   {f.remedy}});
  }
  if (!list.empty()) return;
  find_depth(a, out);
  find_sheets(a, out);
  const Printer& printer = *a.plan.printer;
  const FrameSize frame{h.width, h.top + h.bottom}, slide{h.slide.end_width, h.slide_length()};
  need_bed("the holder's frame", frame, printer, out);
  need_bed("the holder's dark slide", slide, printer, out);
}

}  // namespace backfit
