// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "conversion/finding_words.hpp"
#include "conversion/insert_study.hpp"
#include "parts/insert_shapes.hpp"
#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& w : words) all += (all.empty() ? "" : ", ") + w;
  return all;
}

void find_bed(const Assembly& a, const RollInsert& part, std::vector<Finding>& out) {
  const Printer& printer = *a.plan.printer;
  // The lid, with its ears beside the cheeks, is the largest; the body as large, and higher.
  const Length length = 2 * part.half_length();
  const Length width = 2 * ear_reach(part);
  const Bounds around{{}, {length, width, part.body.back - part.gate.front}};
  if (fits(around, {*printer.bed_width, *printer.bed_depth, largest_size})) return;
  out.push_back({"bed-too-small",
                 Weight::blocker,
                 printer.bed_width.place,
                 fmt::format("the insert measures {} × {} mm; the bed takes {} × {} mm",
                             fixed(length / mm, 1), fixed(width / mm, 1),
                             fixed(*printer.bed_width / mm, 1), fixed(*printer.bed_depth / mm, 1)),
                 {},
                 {"have it printed on a larger one"}});
}

void find_meetings(const InsertStudy& s, std::vector<Finding>& out) {
  for (const ChamberMeeting& m : s.meetings) {
    if (m.taken_out) {
      out.push_back({"take-out",
                     Weight::warning,
                     m.place,
                     fmt::format("the insert or its film meets the {}: it must come out", m.name),
                     {},
                     {"cover shutter, lens and bellows first, and clear every chip before film "
                      "goes in"}});
    } else {
      out.push_back({"notched",
                     m.passed ? Weight::warning : Weight::note,
                     m.place,
                     fmt::format("the insert has a notch round the {}{}", m.name,
                                 m.passed ? "; its own end reaches under it" : ""),
                     {},
                     m.passed ? std::vector<std::string>{"draw it aside while the insert goes in, "
                                                         "or lead the other end in first; line the "
                                                         "notch with felt"}
                              : std::vector<std::string>{}});
    }
  }
}

void find_loading_way(const Assembly& a, const RollInsert& part, std::vector<Finding>& out) {
  const SpoolWay one = way_out(part, part.spools.supply), two = way_out(part, part.spools.take_up);
  const SpoolWay& worse = one.free < two.free ? one : two;
  out.push_back(
      {"spools-load",
       Weight::note,
       a.plan.insert->place,
       fmt::format("with its pins drawn by {} a full spool goes in through the back, {}, with {} "
                   "beside its flanges; it then has {} of play along its axis",
                   text(part.spools.stub + part.spools.play, 1),
                   abs(worse.slant) < 1 * deg
                       ? std::string("straight")
                       : fmt::format("slanted by {}°", fixed(abs(worse.slant) / deg, 0)),
                   text(worse.free), text(2 * part.spools.play, 1)),
       {},
       {}});
}

}  // namespace

void find_insert(const Assembly& a, InsertStudy& s) {
  std::vector<Finding>& out = s.findings;
  const Place& place = a.plan.insert->place;
  for (const MissingMeasurement& m : s.missing) {
    out.push_back(
        {"measure-first",
         Weight::warning,
         place,
         fmt::format("'{}' is not known: {}; no insert is made", m.key, m.how),
         {},
         {fmt::format("measure it and write it under [{}]", m.key.substr(0, m.key.rfind('.')))}});
  }
  if (!s.from_memory.empty()) {
    out.push_back({"from-memory",
                   Weight::warning,
                   place,
                   "from memory, not looked up: " + joined(s.from_memory),
                   {},
                   {"measure before the insert is printed"}});
  }
  if (s.part) {
    const std::vector<PartFault> list = faults(*s.part);
    for (const PartFault& f : list) {
      out.push_back(
          {f.id, Weight::blocker, place, "the insert can't be made: " + f.text, {}, {f.remedy}});
    }
    find_bed(a, *s.part, out);
    find_meetings(s, out);
    if (list.empty()) find_loading_way(a, *s.part, out);
    if (s.path.window && !s.part->window) {
      out.push_back({"window-left-out",
                     Weight::note,
                     place,
                     "the window's place has no room for a tube that keeps its light off the rolls",
                     {},
                     {"wind by the table of turns"}});
    }
  }
  // The path's own; what it says of the chamber's parts is said above with the body in mind.
  for (const Finding& f : s.path.findings) {
    if (s.part && (f.id == "take-out" || f.id == "notch-the-body")) continue;
    out.push_back(f);
  }
  std::ranges::stable_sort(out, {}, &Finding::weight);
}

std::optional<InsertStudy> study_insert(const Assembly& a, const Catalogue& catalogue) {
  if (a.method() != Method::insert || !a.plan.insert || !a.plan.insert->film_goes) return {};
  if (!a.camera.chamber || !a.plan.printer || !a.spool) return {};
  InsertStudy s;
  Diagnostics diagnostics;
  if (!path_can_be_studied(a, diagnostics)) {
    for (const Diagnostic& d : diagnostics.list()) {
      s.findings.push_back({"path-does-not-fit", Weight::blocker, d.place, d.text, {}, {}});
    }
    return s;
  }
  s.path = path_study(a, catalogue);
  const bool beside = [&] {
    if (!a.plan.insert->knob) return true;
    const CameraWall wall = *a.plan.insert->knob->wall;
    const bool vertical =
        s.path.design.goes == FilmTravel::up || s.path.design.goes == FilmTravel::down;
    return vertical == (wall == CameraWall::left || wall == CameraWall::right);
  }();
  if (!beside) {
    s.findings.push_back({"knob-in-the-way",
                          Weight::blocker,
                          a.plan.insert->knob->wall.place,
                          "the knob's wall lies at an end of the film; the spools' axes point at "
                          "the walls beside it",
                          {},
                          {"choose a wall beside the film"}});
  } else if (s.path.layout) {
    design_insert(a, s);
  }
  find_insert(a, s);
  return s;
}

}  // namespace backfit
