// SPDX-License-Identifier: MIT
// What each study's numbers mean at the bench.
#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "conversion/finding_words.hpp"
#include "conversion/plate_design.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string size_text(const FrameSize& size) {
  return fmt::format("{} × {} mm", fixed(size.width / mm, 1), fixed(size.height / mm, 1));
}

void find_register(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  const RegisterStudy& reg = r.register_;
  const Focusing& focusing = a.camera.focusing;
  const Length u = reg.set_back.standard_uncertainty;
  Finding f{"register-short",
            weight_of(reg.odds_infinity, Weight::blocker),
            focusing.room_behind_infinity.place,
            {},
            limit_of(reg.spare_room.budget),
            {}};
  const bool back = reg.set_back.value >= 0 * mm, fast = *focusing.moves == LensMotion::fixed;
  const std::string distance = text_with_u(abs(reg.set_back.value), u);
  const std::string moved =
      fmt::format("the film moves {} {}", back ? "back" : "forward", distance);
  const std::string room = text(focusing.room_behind_infinity->value, 1);
  const bool stays = abs(reg.set_back.value) < 0.005 * mm;
  if (f.weight == Weight::note && fast) {
    f.id = "register-reached";
    f.text =
        fmt::format("{}; the lens sits fast and at {} gives {}: infinity is sharp enough (odds {})",
                    moved, text(r.focus.aperture), text(reg.give), odds_text(reg.odds_infinity));
    f.remedies.push_back(stays ? std::string("leave the lens where it is")
                               : fmt::format("set the lens {} farther {} at its mount", distance,
                                             back ? "back" : "forward"));
  } else if (f.weight == Weight::note) {
    f.id = "register-reached";
    f.text = fmt::format(
        "{}; the standard follows within the {} behind its infinity stop: infinity is reached "
        "(odds {})",
        moved, room, odds_text(reg.odds_infinity));
    f.remedies.push_back(stays ? std::string("leave the infinity stop where it is")
                               : fmt::format("set the infinity stop {} farther {}", distance,
                                             back ? "back" : "forward"));
  } else {
    f.text =
        fmt::format("{}; the {} {} behind {}: {} (odds of infinity {})", moved,
                    fast ? "lens has" : "bed has", room, fast ? "its mount" : "the infinity stop",
                    reg.farthest_focus ? fmt::format("does not reach infinity, farthest focus {}",
                                                     distance_text(*reg.farthest_focus))
                                       : std::string("infinity is in doubt"),
                    odds_text(reg.odds_infinity));
    // Enough less set-back for the odds to be on the safe side: 1.645 standard uncertainties.
    const Length excess =
        1.645 * reg.spare_room.standard_uncertainty - reg.spare_room.value - reg.give;
    std::string less = fmt::format("take {} out of the set-back", text(excess));
    if (a.method() == Method::back_on_seat || a.adapter) {
      less += fmt::format(": a plate of {} instead of {}", text(a.plate_thickness - excess, 1),
                          text(a.plate_thickness, 1));
    }
    f.remedies.push_back(std::move(less));
    f.remedies.push_back(fmt::format("or make {} more room behind the {}", text(excess),
                                     fast ? "lens's mount" : "infinity stop"));
  }
  out.push_back(std::move(f));

  out.push_back({"nearest-focus",
                 Weight::note,
                 focusing.travel_forward.place,
                 fast ? "the lens sits fast; sharp " + sharp_distances(r.depth_of_field)
                      : fmt::format("nearest focus {} from the lens, with the full travel forward",
                                    distance_text(reg.nearest_focus)),
                 {},
                 {}});
}

void find_frame(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  const FrameStudy& s = r.frame;
  const Gate& gate = a.camera.gate;
  if (s.limited_by.empty()) {
    out.push_back(
        {"frame-clear",
         Weight::note,
         gate.width.place,
         fmt::format("nothing between lens and film trims the {} picture", size_text(s.window)),
         {},
         {}});
    return;
  }
  const std::vector<NamedScreen> screens = a.screens();
  const auto screen = std::ranges::find(screens, s.limited_by, &NamedScreen::name);
  const std::string_view shaded = shaded_name(*a.film.kind);
  Finding f{
      screen->is_old_gate ? "gate-shadows-frame" : "opening-shadows-frame",
      Weight::warning,
      screen->place,
      fmt::format("the {} shadows the {}: of {} it lights ({}) × ({}) mm, {} of it without shadow",
                  s.limited_by, shaded, size_text(s.window),
                  mm_with_u(s.picture_width.value, s.picture_width.standard_uncertainty),
                  mm_with_u(s.picture_height.value, s.picture_height.standard_uncertainty),
                  size_text(s.whole)),
      limit_of(s.picture_width.budget),
      {}};
  if (screen->screen.obstacle) {
    f.remedies.push_back(fmt::format("take the {} out, if nothing needs it", s.limited_by));
  } else if (!screen->is_old_gate) {
    f.remedies.push_back(fmt::format("widen the {}", s.limited_by));
  } else {
    f.remedies.push_back(fmt::format("open the gate to {} to light the whole {} at this set-back",
                                     size_text(s.gate_to_open), shaded));
  }
  if (screen->is_old_gate && s.clearing_set_back && a.camera.seat) {
    const Length room = a.camera.focusing.room_behind_infinity->value;
    f.remedies.push_back(fmt::format(
        "or a set-back of {} clears the gate; the standard must then move back as far; the bed has "
        "{} "
        "behind the infinity stop: {}",
        text_with_u(s.clearing_set_back->value, s.clearing_set_back->standard_uncertainty),
        text(room, 1),
        s.farthest_focus_if_clear ? fmt::format("does not reach infinity, farthest focus {}",
                                                distance_text(*s.farthest_focus_if_clear))
                                  : std::string("still reaches infinity")));
  }
  f.remedies.push_back(fmt::format("or take {} as the picture", size_text(s.picture)));
  out.push_back(std::move(f));
}

void find_circle(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  const CircleStudy& s = r.circle;
  const Place place = s.grade == CircleGrade::prescription ? a.camera.lens.prescription->place
                      : s.grade == CircleGrade::measured   ? a.camera.lens.image_circle->place
                                                           : a.camera.lens.kind.place;
  Finding f{"circle-covers",
            weight_of(s.odds_covered, Weight::warning),
            place,
            {},
            limit_of(s.circle.budget),
            {}};
  const std::string basis = s.grade == CircleGrade::prescription
                                ? "to two stops of light, by its prescription"
                            : s.grade == CircleGrade::measured
                                ? "as measured"
                                : fmt::format("by the usual angle of a {}", *a.lens_kind.name);
  const std::string circle = text_with_u(s.circle.value, s.circle.standard_uncertainty);
  f.text = fmt::format(
      "the picture's corners need an image circle of {}; the lens gives {}, {} (odds {})",
      text(s.needed, 1), circle, basis, odds_text(s.odds_covered));
  if (f.weight != Weight::note) {
    f.id = "circle-short";
    if (s.covered.width < r.frame.picture.width) {
      f.remedies.push_back(
          fmt::format("expect soft, dark corners outside {}", size_text(s.covered)));
    }
    if (s.grade == CircleGrade::lens_kind) {
      f.remedies.push_back(
          "measure the image circle on a ground glass and write image_circle under [lens]");
    }
  }
  out.push_back(std::move(f));
}

// A prescription of a lens like it stands in for the lens itself: does its exit pupil lie where the
// lens's was measured?
void find_stand_in(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  if (!a.prescription || !a.camera.lens.exit_pupil_before_film) return;
  const Measured<Length>& measured = a.camera.lens.exit_pupil_before_film->value;
  const Length traced = a.traced_pupil_distance();
  if (abs(traced - measured.value) <= measured.half_width) return;
  out.push_back(
      {"stand-in-differs",
       Weight::warning,
       a.camera.lens.prescription->place,
       fmt::format("the prescription's exit pupil lies {} before the film, that of the "
                   "lens was measured at {} ± {}: where the gate shades, traced light "
                   "and measured shadow don't agree",
                   text(traced, 1), text(measured.value, 1), text(measured.half_width, 1)),
       {},
       {"leave exit_pupil_before_film out to go by the prescription, or leave "
        "prescription out to go by the measurement"}});
}

void find_falloff(const Report& r, std::vector<Finding>& out) {
  for (const FrameStudy::Loss& l : r.frame.losses) {
    if (l.where != "corner of the frame without shadow") continue;
    out.push_back(
        {"corner-falloff",
         Weight::note,
         r.assembly.camera.lens.focal.place,
         l.lost ? fmt::format(
                      "the corner of the frame without shadow gets {} stops less than the centre, "
                      "{}",
                      fixed(l.lost->value, 1),
                      r.assembly.prescription
                          ? "by its traced lens, old gate and openings"
                          : "by the cosine law alone; the lens's own vignetting comes on top")
                : std::string("no light reaches the corner of the frame"),
         {},
         {}});
  }
}

void find_hand(const Report& r, std::vector<Finding>& out) {
  const Film& film = r.assembly.film;
  out.push_back({r.hand.reversed ? "mirror-image" : "right-reading",
                 r.hand.reversed ? Weight::warning : Weight::note,
                 r.assembly.plan.film.place,
                 r.hand.reversed ? fmt::format("{} gives a mirror image of the subject", *film.name)
                                 : fmt::format("{} gives a right-reading picture, {}", *film.name,
                                               *film.viewed == ViewedFace::opposite
                                                   ? "seen through its base"
                                                   : "printed by contact, face to face"),
                 {},
                 {}});
  if (r.hand.reversed) {
    out.back().remedies.emplace_back(
        *film.kind == FilmKind::integral
            ? "photograph text to see it; only a mirror before the lens turns it back"
            : "photograph text to see it; a contact print turns it back");
  }
}

void find_doubts(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  for (const MissingMeasurement& m : a.missing) {
    out.push_back(
        {"measure-first",
         Weight::blocker,
         a.plan.back ? a.plan.back->place : a.plan.method.place,
         fmt::format("'{}' is not known: {}", m.key, m.how),
         {},
         {fmt::format("measure it and write it under [{}]", m.key.substr(0, m.key.find('.')))}});
  }
  if (!a.from_memory.empty()) {
    std::string list;
    for (const std::string& m : a.from_memory) list += (list.empty() ? "" : "; ") + m;
    out.push_back(
        {"from-memory",
         Weight::note,
         a.plan.film.place,
         fmt::format("the catalogue has these from memory, nobody looked them up: {}", list),
         {},
         {"measure them on your own material before you cut"}});
  }
}

void find_part(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  if (!a.plate) return;
  const Printer& printer = *a.plan.printer;
  for (const std::string& fault : faults(*a.plate, smallest_wall(printer))) {
    out.push_back({"plate-impossible",
                   Weight::blocker,
                   a.plan.back->place,
                   "the back plate can't be made: " + fault,
                   {},
                   {}});
  }
  const FrameSize plate{a.plate->overall_width(), a.plate->overall_height()};
  if (!fits_bed(plate, printer)) {
    out.push_back({"bed-too-small",
                   Weight::blocker,
                   printer.bed_width.place,
                   fmt::format("the back plate measures {}; the bed takes {}", size_text(plate),
                               size_text({*printer.bed_width, *printer.bed_depth})),
                   {},
                   {}});
  }
}

}  // namespace

Weight weight_of(double odds, Weight when_missed) {
  if (odds >= sure_enough) return Weight::note;
  return odds < 1 - sure_enough ? when_missed : Weight::warning;
}

std::string limit_of(const std::vector<Contribution>& budget) {
  if (budget.empty() || !(budget.front().share > 0)) return {};
  return fmt::format("{} makes {} % of the doubt", budget.front().name,
                     fixed(100 * budget.front().share, 0));
}

std::string sharp_distances(const DepthOfFieldStudy& study) {
  if (study.rows.empty()) return {};
  const std::vector<SharpRange>& ranges = study.rows.front().ranges;
  std::string words;
  for (std::size_t i = 0; i < ranges.size(); i += std::max<std::size_t>(1, ranges.size() - 1)) {
    words += fmt::format(
        "{}from {} {} at {}", words.empty() ? "" : ", ", distance_text(ranges[i].near),
        ranges[i].far ? "to " + distance_text(*ranges[i].far) : "on", text(study.apertures[i]));
  }
  return words;
}

std::vector<Finding> findings_of(const Report& report) {
  std::vector<Finding> out;
  find_doubts(report, out);
  find_part(report, out);
  find_holder(report, out);
  find_glass_frame(report, out);
  find_pack_holder(report, out);
  find_adapter(report, out);
  find_straps(report, out);
  find_loading(report, out);
  find_register(report, out);
  find_focus(report, out);
  find_frame(report, out);
  find_circle(report, out);
  find_falloff(report, out);
  find_stand_in(report, out);
  find_hand(report, out);
  find_extras(report, out);
  if (report.timer) find_timer(report.assembly, *report.timer, out);
  std::ranges::stable_sort(out, {}, &Finding::weight);
  return out;
}

std::vector<Finding> timer_findings(const Report& report) {
  std::vector<Finding> out;
  find_timer(report.assembly, *report.timer, out);
  std::ranges::stable_sort(out, {}, &Finding::weight);
  return out;
}

void add_findings(Report& report, std::vector<Finding> findings) {
  std::ranges::move(findings, std::back_inserter(report.findings));
  std::ranges::stable_sort(report.findings, {}, &Finding::weight);
  report.verdict = verdict_of(report.findings, !report.assembly.missing.empty());
}

Verdict verdict_of(const std::vector<Finding>& findings, bool missing_measurements) {
  if (missing_measurements) return Verdict::cannot_tell_yet;
  Verdict verdict = Verdict::fits;
  for (const Finding& f : findings) {
    if (f.weight == Weight::blocker) return Verdict::does_not_fit;
    if (f.weight == Weight::warning) verdict = Verdict::fits_with_work;
  }
  return verdict;
}

}  // namespace backfit
