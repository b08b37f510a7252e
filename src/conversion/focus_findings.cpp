// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "conversion/finding_words.hpp"
#include "optics/focus.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string within_95(Length standard_uncertainty) {
  return text(coverage_95 * standard_uncertainty);
}

std::string estimated(const Estimate<Length>& e) {
  return text_with_u(e.value, e.standard_uncertainty);
}

void find_plane(const Report& r, std::vector<Finding>& out) {
  const FocusStudy& s = r.focus;
  const FocusPlan& plan = r.assembly.plan.focus;
  const Length short_by = r.register_.set_back.value - r.register_.standard_moves;
  Finding f{
      plan.film_bulge ? "film-bulge" : "focus-depth",
      weight_of(s.odds_sharp, Weight::warning),
      plan.film_bulge ? plan.film_bulge->place : plan.aperture.place,
      fmt::format(
          "at {} the film may lie {} before or behind the sharp image; its plane is known to ±{} "
          "(95 %)",
          text(s.aperture), text(s.depth_of_focus), within_95(s.plane_error.standard_uncertainty)),
      limit_of(s.plane_error.budget),
      {}};
  if (short_by > 0 * mm) {
    f.text += fmt::format(", the standard stops {} short of infinity", text(short_by));
  }
  if (plan.film_bulge) {
    f.text += fmt::format(", and its middle stands {} nearer the lens than its edges",
                          text(plan.film_bulge->value.value));
  }
  f.text += fmt::format(": infinity is sharp {}with odds {}", plan.film_bulge ? "all over " : "",
                        odds_text(s.odds_sharp));
  if (f.weight != Weight::note) {
    if (s.shared_bulge && s.shared_bulge->odds_sharp > s.odds_sharp) {
      f.remedies.push_back(
          fmt::format("set the infinity stop {} less far back, half of the bulge: odds {}",
                      text(s.shared_bulge->forward), odds_text(s.shared_bulge->odds_sharp)));
    }
    if (s.holds_at) {
      f.remedies.push_back(fmt::format("stop down to {} for far subjects", text(*s.holds_at)));
    }
    if (short_by == 0 * mm && !plan.film_bulge) {
      f.remedies.emplace_back(
          "set the infinity stop by a ground glass at the holder's plane, not by calculation");
    }
  }
  out.push_back(std::move(f));
}

void find_ground_glass(const Report& r, std::vector<Finding>& out) {
  if (!r.focus.glass) return;
  const FocusStudy::GlassCheck& s = *r.focus.glass;
  const GroundGlass& glass = *r.assembly.plan.focus.ground_glass;
  const bool turned = *glass.matt_side == MattSide::to_eye;
  Finding f{
      turned ? "ground-glass-turned" : "ground-glass-depth",
      weight_of(s.odds_sharp, Weight::warning),
      turned ? glass.matt_side.place : glass.depth.place,
      fmt::format(
          "what is sharp on the ground glass lies {} {} the film{}; at {} {} either "
          "way are sharp: the glass can be trusted with odds {}",
          text_with_u(abs(s.error.value), s.error.standard_uncertainty),
          s.error.value < 0 * mm ? "behind" : "before",
          turned ? fmt::format(", {} of it because the matt side faces the eye", text(s.by_turning))
                 : std::string(),
          text(r.focus.aperture), text(r.focus.depth_of_focus), odds_text(s.odds_sharp)),
      limit_of(s.error.budget),
      {}};
  if (turned || f.weight != Weight::note) {
    const Length deeper = s.right_depth - glass.depth->value;
    std::string remedy = turned ? "turn the glass round, matt side to the lens" : "";
    if (abs(deeper) >= 0.005 * mm) {
      remedy += fmt::format("{}set {} {} than now, {} deep", turned ? ", " : "the glass must be ",
                            text(abs(deeper)), deeper > 0 * mm ? "deeper" : "less deep",
                            text(s.right_depth));
    }
    f.remedies.push_back(std::move(remedy));
  }
  out.push_back(std::move(f));
}

// Only where what the focal length leaves open is more than the film allows.
void find_scale(const Report& r, std::vector<Finding>& out) {
  if (*r.assembly.camera.focusing.moves != LensMotion::standard) return;
  const Lens& lens = r.assembly.camera.lens;
  const Length focal = lens.focal->value;
  for (const RegisterStudy::Mark& m : r.register_.marks) {
    if (!m.from_new_stop) continue;
    const Length depth =
        depth_of_focus(r.focus.aperture, r.depth_of_field.circle,
                       magnification(focal, *extension_for(focal, m.engraved)),
                       lens.pupil_magnification ? lens.pupil_magnification->value.value : 1);
    const Length u = m.from_new_stop->standard_uncertainty;
    if (coverage_95 * u <= depth) continue;
    out.push_back(
        {"scale-in-doubt",
         Weight::note,
         lens.focal.place,
         fmt::format("a new scale puts the mark {} at {} from the stop; at {} {} either way are "
                     "sharp",
                     distance_text(m.engraved), estimated(*m.from_new_stop), text(r.focus.aperture),
                     text(depth)),
         limit_of(m.from_new_stop->budget),
         {"lay it beside the engraved scale: the marks of both must lie equally far apart"}});
    return;
  }
}

void find_finder(const Report& r, std::vector<Finding>& out) {
  if (!r.finder) return;
  const Rangefinder& rangefinder = *r.assembly.camera.rangefinder;
  const FinderStudy& s = *r.finder;
  const FNumber stop = r.focus.aperture;
  if (abs(r.register_.set_back.value) < 0.005 * mm) {
    out.push_back({"rangefinder-kept",
                   Weight::note,
                   rangefinder.coupled_to.place,
                   "the rangefinder stays right: film and lens stay where they were",
                   {},
                   {}});
  } else if (*rangefinder.coupled_to == FinderCoupling::standard) {
    std::string effect;
    const auto farthest = std::ranges::max_element(s.checks, {}, &FinderStudy::Check::subject);
    if (farthest != s.checks.end() && farthest->focuses) {
      effect = fmt::format(", and set on {} it focuses {}", distance_text(farthest->subject),
                           distance_text(*farthest->focuses));
    }
    out.push_back(
        {"rangefinder-offset",
         Weight::warning,
         rangefinder.coupled_to.place,
         fmt::format("the coupled rangefinder is driven {} too far {} by the moved lens{}",
                     text(abs(s.late)), s.late < 0 * mm ? "forward" : "back", effect),
         {},
         {fmt::format("move its cam or arm {} {} on the standard, within {} for {}, then set "
                      "it on a far subject",
                      text_with_u(abs(r.register_.set_back.value),
                                  r.register_.set_back.standard_uncertainty),
                      s.late < 0 * mm ? "back" : "forward", text(r.focus.depth_of_focus),
                      text(stop))}});
  } else {
    out.push_back({"rangefinder-kept",
                   Weight::note,
                   rangefinder.coupled_to.place,
                   "the rangefinder follows the turning front element, which the set-back of the "
                   "whole lens leaves alone",
                   {},
                   {}});
  }
  if (s.base && s.base->there < s.base->needed) {
    const double enough = stop.value * (s.base->needed / s.base->there);
    out.push_back({"rangefinder-base-short",
                   Weight::warning,
                   rangefinder.base->place,
                   fmt::format("one minute of arc of misalignment moves the image {}; at {} {} "
                               "either way are sharp: base times magnification is {}, {} would do",
                               text(s.base->film_error), text(stop), text(r.focus.depth_of_focus),
                               text(s.base->there, 1), text(s.base->needed, 1)),
                   {},
                   {fmt::format("trust it from f/{} on, and the ground glass before",
                                fixed(std::ceil(10 * enough) / 10, 1))}});
  }
}

void find_stop(const Report& r, std::vector<Finding>& out) {
  if (!r.stop) return;
  const StopStudy& s = *r.stop;
  const StopTest& test = *r.assembly.plan.focus.stop_test;
  const Length error = s.error.value;
  const bool near = error > 0 * mm;
  const bool sharp = abs(error) <= r.focus.depth_of_focus;
  Finding f{sharp ? "stop-right" : "stop-off",
            sharp ? Weight::note : Weight::warning,
            test.travel.place,
            fmt::format("by the test the lens at its stop stands {} too {}; at {} {} either way "
                        "are sharp",
                        text_with_u(abs(error), s.error.standard_uncertainty),
                        near ? "near the film" : "far forward to reach infinity",
                        text(r.focus.aperture), text(r.focus.depth_of_focus)),
            limit_of(s.error.budget),
            {}};
  if (abs(error) <= coverage_95 * s.error.standard_uncertainty) {
    f.remedies.emplace_back("leave it: the test can't tell the difference");
  } else if (s.stack.shims.empty()) {
    f.remedies.push_back(fmt::format("{} {} the stop", near ? "put shims of" : "take off",
                                     text(abs(error)) + (near ? " under" : " from")));
  } else {
    std::string shims;
    for (const Length shim : s.stack.shims) {
      shims += (shims.empty() ? "" : " + ") + text(shim);
    }
    f.remedies.push_back(fmt::format("{} shims of {} {} the stop: {} {}", near ? "put" : "take",
                                     shims, near ? "under" : "from", text(abs(s.stack.left)),
                                     s.stack.left < 0 * mm ? "too much" : "stay"));
  }
  out.push_back(std::move(f));
}

}  // namespace

void find_focus(const Report& report, std::vector<Finding>& out) {
  find_finder(report, out);
  find_plane(report, out);
  find_ground_glass(report, out);
  find_stop(report, out);
  find_scale(report, out);
}

}  // namespace backfit
