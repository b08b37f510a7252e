// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "conversion/cover_design.hpp"
#include "conversion/finding_words.hpp"
#include "conversion/gauge_design.hpp"
#include "conversion/lens_spacer_design.hpp"
#include "conversion/mask_design.hpp"
#include "conversion/plate_design.hpp"
#include "conversion/ring_design.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string size_text(Length width, Length height) {
  return fmt::format("{} × {} mm", fixed(width / mm, 1), fixed(height / mm, 1));
}

class Finder {
 public:
  Finder(const Report& report, std::vector<Finding>& out) : r_(report), out_(out) {}

  void all() {
    const Plan& plan = r_.assembly.plan;
    if (const auto g = focus_gauge(r_); g && sound(*g, "focus gauge", plan.focus_gauge->place)) {
      need_bed("focus gauge", g->width, g->height);
      find_focus_gauge(*g);
    }
    if (const auto g = depth_gauge(r_); g && sound(*g, "depth gauge", plan.depth_gauge->place)) {
      need_bed("depth gauge", g->length, g->width);
    }
    if (const auto m = gate_mask(r_); m && sound(*m, "gate mask", plan.gate_mask->place)) {
      need_bed("gate mask", m->width, m->height);
      note("gate-mask", plan.gate_mask->place,
           fmt::format("an opening of {} in the old gate leaves {} on the film, its edges {} soft",
                       size_text(m->opening_width, m->opening_height),
                       size_text(m->picture_width, m->picture_height), text(m->soft)));
    }
    if (plan.lens_spacer) find_lens_spacer(*plan.lens_spacer);
    const std::vector<AttachmentRing> rings = attachment_rings(r_);
    for (std::size_t i = 0; i < rings.size(); ++i) {
      const AttachmentRing& ring = rings[i];
      if (!sound(ring, "ring for the " + ring.name, plan.attachment_rings[i].place)) continue;
      const Length wide = std::max(ring.rim_bore(), ring.attachment_bore()) + 2 * ring.wall;
      need_bed("ring for the " + ring.name, wide, wide);
    }
    if (const auto c = window_cover(r_.assembly);
        c && sound(*c, "window cover", plan.window_cover->place)) {
      need_bed("window cover", 2 * c->half_width(), c->high() - c->low());
    }
    if (const auto c = blank_cover(r_); c && sound(*c, "blank cover", plan.blank_cover->place)) {
      need_bed("blank cover", c->width, c->height);
    }
  }

 private:
  // The conversion itself does not hang on these: what can't be made is left out with a warning.
  template <class Part>
  bool sound(const Part& part, const std::string& name, const Place& place) {
    const std::vector<PartFault> list = faults(part);
    for (const PartFault& f : list) {
      out_.push_back(
          {f.id,
           Weight::warning,
           place,
           fmt::format("the {} can't be made and is left out: {}", name, f.text),
           {},
           f.remedy.empty() ? std::vector<std::string>{} : std::vector<std::string>{f.remedy}});
    }
    return list.empty();
  }

  void need_bed(const std::string& name, Length width, Length height) {
    const Printer& printer = *r_.assembly.plan.printer;
    if (fits_bed({width, height}, printer)) return;
    out_.push_back(
        {"bed-too-small",
         Weight::warning,
         printer.bed_width.place,
         fmt::format("the {} measures {}; the bed takes {}", name, size_text(width, height),
                     size_text(*printer.bed_width, *printer.bed_depth)),
         {},
         {"have it printed on a larger one"}});
  }

  void note(const char* id, const Place& place, std::string text) {
    out_.push_back({id, Weight::note, place, std::move(text), {}, {}});
  }

  void find_focus_gauge(const FocusGauge& g) {
    const FocusGaugePlan& plan = *r_.assembly.plan.focus_gauge;
    if (*plan.lies_on == GaugeRest::rails) {
      note("focus-gauge", plan.place,
           fmt::format("the focus gauge's {} lies itself on the rails, in the film's plane",
                       g.tape ? "frosted tape" : "ground glass"));
      return;
    }
    const Length doubt = coverage_95 * plane_doubt(r_, g);
    const Length depth = r_.focus.depth_of_focus;
    note("focus-gauge", plan.place,
         fmt::format("the focus gauge's matt face lies in the film's plane with packing of {}, to "
                     "± {} by print and glass; the depth of focus is {} at {}",
                     text(g.packing()), text(doubt), text(depth),
                     text(*r_.assembly.plan.focus.aperture)));
  }

  void find_lens_spacer(const LensSpacerPlan& plan) {
    const Length wanted = lens_forward(r_);
    const auto s = lens_spacer(r_);
    if (!s) {
      out_.push_back(
          {"lens-spacer-not-needed",
           Weight::warning,
           plan.place,
           wanted < -smallest_detail
               ? fmt::format("the lens must move {} towards the film; a spacer moves it away: none "
                             "is made",
                             text(-wanted))
               : std::string("the lens stays where it is: no spacer is made"),
           {},
           {wanted < -smallest_detail && r_.register_.odds_infinity >= sure_enough
                ? "set the infinity stop back; take lens_spacer out"
                : "write forward under [lens_spacer] if you know better"}});
      return;
    }
    if (!sound(*s, "lens spacer", plan.place)) return;
    if (s->printed == Length{} && s->shims.empty()) {
      out_.push_back(
          {"lens-spacer-not-needed",
           Weight::warning,
           plan.place,
           fmt::format("the lens moves {} away from the film: less than a print of three "
                       "layers and than any shim of the plan",
                       text(wanted)),
           {},
           {"write the shims at hand as shims under [focus]"}});
      return;
    }
    need_bed("lens spacer", s->width, s->height);
    std::string stack;
    if (s->printed > Length{}) stack = fmt::format("a printed spacer of {}", text(s->printed));
    for (std::size_t i = 0; i < s->shims.size(); ++i) {
      const bool first = i == 0, last = i + 1 == s->shims.size();
      if (first) stack += stack.empty() ? "" : " and ";
      if (first) stack += last ? "a shim of " : "shims of ";
      if (!first) stack += last ? " and " : ", ";
      stack += text(s->shims[i]);
    }
    if (!s->shims.empty()) stack += fmt::format(", cut from {} sheet", s->shim_sheet);
    const Length left = wanted - s->thickness();
    out_.push_back(
        {"lens-spacer",
         Weight::note,
         plan.place,
         fmt::format("the lens moves {} away from the film: {}{}; the stack is known to ± {}",
                     text(wanted), stack,
                     abs(left) < 0.005 * mm ? std::string()
                                            : fmt::format("; {} are {}", text(abs(left)),
                                                          left > Length{} ? "left" : "too much"),
                     text(coverage_95 * s->doubt())),
         {},
         {}});
  }

  const Report& r_;
  std::vector<Finding>& out_;
};

}  // namespace

void find_extras(const Report& report, std::vector<Finding>& out) { Finder(report, out).all(); }

}  // namespace backfit
