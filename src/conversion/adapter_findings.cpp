// SPDX-License-Identifier: MIT
// What an instant back does on the camera: where its picture leaves, what is in its way.
#include <fmt/format.h>

#include "conversion/adapter_design.hpp"
#include "conversion/finding_words.hpp"
#include "conversion/plate_design.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string_view side(CameraWall wall) {
  for (const auto& [name, value] : choices_of<CameraWall>()) {
    if (value == wall) return name;
  }
  return {};
}

std::string_view moved(CameraWall towards) {
  switch (towards) {
    case CameraWall::top:
      return "rise";
    case CameraWall::bottom:
      return "go down";
    case CameraWall::left:
      return "go to the left";
    case CameraWall::right:
      break;
  }
  return "go to the right";
}

std::vector<std::string> remedies(std::string_view remedy) {
  if (remedy.empty()) return {};
  return {std::string(remedy)};
}

std::string size_text(Length width, Length height) {
  return fmt::format("{} × {} mm", fixed(width / mm, 1), fixed(height / mm, 1));
}

void find_sound(const Assembly& a, std::vector<Finding>& out) {
  const MountingPlan& m = *a.plan.back->mounting;
  for (const PartFault& f : faults(*a.adapter)) {
    out.push_back({f.id,
                   Weight::blocker,
                   m.place,
                   "the adapter can't be made: " + f.text,
                   {},
                   remedies(f.remedy)});
  }
  const Printer& printer = *a.plan.printer;
  const AdapterPlate& p = *a.adapter;
  if (!fits_bed({p.width, p.height}, printer)) {
    out.push_back(
        {"bed-too-small",
         Weight::blocker,
         printer.bed_width.place,
         fmt::format("the adapter measures {}; the bed takes {}", size_text(p.width, p.height),
                     size_text(*printer.bed_width, *printer.bed_depth)),
         {},
         {"have it printed on a larger one"}});
  }
  if (m.trap) return;
  out.push_back({"adapter-without-trap",
                 Weight::warning,
                 m.place,
                 "the instant back has neither tongue nor groove in this plan: only felt between "
                 "two flat faces keeps the light out",
                 {},
                 {"measure its tongue or groove and write [back.mounting.trap]"}});
}

void find_meetings(const Assembly& a, const MountingStudy& s, std::vector<Finding>& out) {
  if (a.camera.seat->neighbours.empty()) {
    out.push_back(
        {"neighbours-unknown",
         Weight::warning,
         a.camera.seat->place,
         "what stands beside the seat is not surveyed: nobody knows whether the back clears bed, "
         "latches and finder",
         {},
         {"measure the middle and size of each from the axis, seen from behind, and how far it "
          "stands behind the seat; write [[seat.neighbours]] in the camera file"}});
    return;
  }
  for (const BackMeets& met : s.meets) {
    const Neighbour& n = *met.neighbour;
    const bool to_eye = n.looked_through && **n.looked_through;
    Finding f{met.by_picture ? "picture-blocked"
              : to_eye       ? "finder-hidden"
                             : "back-blocked",
              Weight::warning,
              n.place,
              {},
              {},
              {}};
    const std::string name = *n.name;
    if (met.by_picture) {
      f.text = fmt::format(
          "the picture leaves at the {}, {} behind the seat, and runs into the {} there",
          side(s.picture_leaves), text(s.film_behind_seat, 1), name);
      f.remedies = {"turn the back by half: change 'stands'",
                    fmt::format("or the {} may reach {} less far back", name, text(met.by, 1))};
    } else {
      f.text = to_eye ? fmt::format("the back stands before the {}, seen from behind", name)
                      : fmt::format("the back runs into the {}", name);
      f.remedies = {fmt::format("the {} must {} by {}, the worst of all ± in it", name,
                                moved(met.towards), text(met.by, 1))};
      if (to_eye) f.remedies.emplace_back("or a finder elsewhere on the camera");
    }
    out.push_back(std::move(f));
  }
}

}  // namespace

void find_adapter(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  if (!a.adapter) return;
  find_sound(a, out);
  const MountingPlan& m = *a.plan.back->mounting;
  const MountingStudy s = study_mounting(r);
  find_meetings(a, s, out);
  out.push_back(
      {"picture-leaves",
       Weight::note,
       m.picture_leaves.place,
       fmt::format("seen from behind, the picture leaves at the {}, its wide border first; with "
                   "the subject upright that border lies at the {}",
                   side(s.picture_leaves), side(s.border)),
       {},
       {fmt::format("stands = \"{}\" turns both round",
                    *m.stands == BackStands::upright ? "inverted" : "upright")}});
}

}  // namespace backfit
