// SPDX-License-Identifier: MIT
// What the numbers of the holder in the pack's place mean at the bench.
#include <fmt/format.h>

#include <algorithm>

#include "conversion/finding_words.hpp"
#include "conversion/pack_design.hpp"
#include "conversion/plate_design.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

void find_slit(const Assembly& a, std::vector<Finding>& out) {
  const auto& slit = a.camera.pack->slit;
  if (!a.pack_holder->slide) {
    out.push_back({"dark-bag",
                   Weight::warning,
                   slit ? slit->place : a.camera.pack->place,
                   slit ? std::string("without a dark slide the holder is changed in a dark bag, "
                                      "camera and all: one sheet for each visit to it")
                        : std::string("the camera has no slit for a dark slide: the holder is "
                                      "changed in a dark bag, camera and all"),
                   {},
                   {}});
    return;
  }
  const SlitMeeting m = slit_meeting(a);
  if (abs(m.behind) > m.most + 0.001 * mm) {
    out.push_back(
        {"slide-misses-slit",
         Weight::blocker,
         slit->behind_film.place,
         fmt::format("the dark slide lies {} {} the middle of the slit, which lets it lie "
                     "{} off",
                     text(abs(m.behind)), m.behind < 0 * mm ? "before" : "behind", text(m.most)),
         {},
         {fmt::format("widen the slit to {}",
                      text(2 * abs(m.behind) + a.pack_holder->slide->thickness, 1)),
          "or write dark_slide = false under [pack_holder], and change it in a dark bag"}});
  }
  const Length spare = m.slit_length - m.slide_width;
  if (spare < 2 * a.pack_holder->gap - 0.001 * mm) {
    out.push_back({"slide-too-wide",
                   Weight::blocker,
                   slit->length.place,
                   fmt::format("the dark slide is {} wide; the slit is {} long",
                               text(m.slide_width), text(m.slit_length)),
                   {},
                   {"write dark_slide = false under [pack_holder], and change it in a dark bag"}});
  }
}

}  // namespace

void find_pack_holder(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  if (!a.pack_holder) return;
  const PackHolder& h = *a.pack_holder;
  const Place place = a.plan.pack_holder ? a.plan.pack_holder->place : a.camera.pack->place;
  const std::vector<PartFault> list = faults(h);
  for (const PartFault& f : list) {
    out.push_back(
        {f.id, Weight::blocker, place, "the pack holder can't be made: " + f.text, {}, {f.remedy}});
  }
  find_slit(a, out);
  const Measured<Length>& depth = *a.camera.pack->depth;
  const Length spare = depth.value - depth.half_width - h.thickness();
  if (spare < 0 * mm) {
    out.push_back({"pack-holder-too-thick",
                   Weight::blocker,
                   a.camera.pack->depth.place,
                   fmt::format("the pack holder is {} thick; the closed back leaves {}",
                               text(h.thickness()), text(depth.value - depth.half_width)),
                   {},
                   {"thinner walls, or a holder without a dark slide"}});
  } else {
    out.push_back({"pack-holder-pressed",
                   Weight::note,
                   a.camera.pack->depth.place,
                   fmt::format("behind the pack holder, {} thick, {} are left to the closed back",
                               text(h.thickness()), text(depth.value - h.thickness())),
                   {},
                   {"springs or foam there press it on the face that the pack lay on"}});
  }
  const Printer& printer = *a.plan.printer;
  const FrameSize size = h.slide ? FrameSize{h.width, std::max(h.length, h.slide_length())}
                                 : FrameSize{h.width, h.length};
  if (!fits_bed(size, printer)) {
    out.push_back(
        {"bed-too-small",
         Weight::blocker,
         printer.bed_width.place,
         fmt::format("the pack holder measures {} × {} mm; the bed takes {} × {} mm",
                     fixed(size.width / mm, 1), fixed(size.height / mm, 1),
                     fixed(*printer.bed_width / mm, 1), fixed(*printer.bed_depth / mm, 1)),
         {},
         {"have it printed on a larger one"}});
  }
}

}  // namespace backfit
