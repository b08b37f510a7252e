// SPDX-License-Identifier: MIT
#include "conversion/report.hpp"

#include <algorithm>

#include "conversion/plate_design.hpp"
#include "optics/focus.hpp"
#include "optics/paraxial.hpp"

namespace backfit {
namespace {

constexpr Length rounding = 1e-6 * mm;

FrameSize smaller(const FrameSize& a, const FrameSize& b) {
  return {std::min(a.width, b.width), std::min(a.height, b.height)};
}

// The picture's side on the film: what the old gate lights, with all that was measured about it,
// and no more than `others` leave.
Estimate<Length> picture_side(const Assembly& a, InputRef<Length> gate, Length others,
                              Length moved) {
  const MeasuredInputs& in = a.inputs;
  return estimate<Length>(in.all, [&](const Draw& at) {
    const ExitPupil pupil{0 * mm, moved - at(in.pupil_distance)};
    const RectangularOpening opening{at(gate), at(gate), -at(in.gate_before_film)};
    return std::min(others, lit_frame(pupil, opening, a.set_back(at), Edge::half).width);
  });
}

std::optional<Estimate<Length>> clearing_estimate(const Assembly& a, FNumber aperture) {
  const MeasuredInputs& in = a.inputs;
  const auto clearing = [&](const Draw& at) {
    const Length distance = at(in.pupil_distance);
    return clearing_set_back({exit_pupil_radius(distance, aperture), -distance},
                             {at(in.gate_width), at(in.gate_height), -at(in.gate_before_film)},
                             a.window);
  };
  std::vector<double> estimates;
  for (const Input& input : in.all.list()) estimates.push_back(input.value);
  if (!clearing(Draw(estimates))) return {};
  return estimate<Length>(in.all, [&](const Draw& at) { return clearing(at).value_or(Length{}); });
}

FrameStudy study_frame(const Assembly& a, const RegisterStudy& reg) {
  FrameStudy f;
  f.window = a.window;
  f.whole = f.picture = a.window;
  const FNumber aperture = *a.plan.focus.aperture;
  const ExitPupil pupil = a.pupil(aperture, reg.standard_moves);
  const Length film = reg.set_back.value;
  const std::vector<NamedScreen> named = a.screens();
  const LensLight disc = LensLight::disc(pupil);
  std::vector<RectangularOpening> openings;
  std::vector<Screen> screens;
  FrameSize others = a.window;  // what everything but the old gate leaves of the picture
  for (const NamedScreen& o : named) {
    screens.push_back(o.screen);
    FrameStudy::Screen screen{o.name, {}, {}};
    if (o.rectangle) {
      openings.push_back(*o.rectangle);
      screen.whole = lit_frame(pupil, *o.rectangle, film, Edge::whole);
      screen.half = lit_frame(pupil, *o.rectangle, film, Edge::half);
    } else {
      screen.whole = lit_frame(a.window, film, 1, disc, o.screen);
      screen.half = lit_frame(a.window, film, 0.5, disc, o.screen);
    }
    // A gate mask leaves exactly the picture that is wanted.
    if (screen.half.width < f.picture.width - rounding ||
        screen.half.height < f.picture.height - rounding) {
      f.limited_by = o.name;
    }
    f.whole = smaller(f.whole, screen.whole);
    f.picture = smaller(f.picture, screen.half);
    if (!o.is_old_gate) others = smaller(others, screen.half);
    f.screens.push_back(screen);
  }
  f.picture_width = picture_side(a, a.inputs.gate_width, others.width, reg.standard_moves);
  f.picture_height = picture_side(a, a.inputs.gate_height, others.height, reg.standard_moves);

  const Gate& gate = a.camera.gate;
  const RectangularOpening old_gate{gate.width->value, gate.height->value,
                                    -gate.before_film->value};
  f.clearing_set_back = clearing_estimate(a, aperture);
  if (f.clearing_set_back) {
    f.farthest_focus_if_clear =
        subject_for(a.camera.lens.focal->value,
                    f.clearing_set_back->value - a.camera.focusing.room_behind_infinity->value);
  }
  // The gate whose whole-pupil frame is the window: lit_frame() solved for the opening.
  const double ratio = (film - old_gate.z) / (film - pupil.z);
  const auto opened = [&](Length side) { return side * (1 - ratio) + 2 * ratio * pupil.radius; };
  f.gate_to_open = {std::max(old_gate.width, opened(a.window.width)),
                    std::max(old_gate.height, opened(a.window.height))};

  std::optional<LensLight> light;
  if (a.prescription) {
    light = a.lens_light(aperture, reg.standard_moves, film, a.window.diagonal());
  } else if (openings.size() < screens.size()) {
    light = disc;
  }
  const auto loss = [&](std::string where, Length x, Length y) {
    const FilmPoint p{x, y, film};
    f.losses.push_back({std::move(where), x, y,
                        light ? stops_lost(p, *light, screens) : light_lost(p, pupil, openings)});
  };
  loss("centre", 0 * mm, 0 * mm);
  loss("corner of the old picture", old_gate.width / 2, old_gate.height / 2);
  loss("middle of a long side", f.picture.width / 2, 0 * mm);
  loss("middle of a short side", 0 * mm, f.picture.height / 2);
  loss("corner of the frame without shadow", f.whole.width / 2, f.whole.height / 2);
  loss("corner of the picture", f.picture.width / 2, f.picture.height / 2);
  return f;
}

// Diameter of the circle that the traced lens lights to within two stops of its centre, at the
// plan's stop.
Length lit_circle(const Assembly& a) {
  constexpr double least = 0.25;
  constexpr int azimuths = 48;
  const LensModel lens = a.traced_lens(*a.plan.focus.aperture);
  const FirstOrder first = *first_order(lens);
  Length good;
  Length bad = 1.5 * first.focal;
  while (bad - good > 0.05 * mm) {
    const Length middle = (good + bad) / 2;
    const auto light = relative_illumination(lens, first.back_focal, middle, azimuths);
    (light && *light >= least ? good : bad) = middle;
  }
  return 2 * good;
}

CircleStudy study_circle(const Assembly& a, const FrameSize& picture) {
  CircleStudy c;
  c.needed = picture.diagonal();
  Inputs in = a.inputs.all;
  std::function<Length(const Draw&)> circle;
  if (a.prescription) {
    c.grade = CircleGrade::prescription;
    const FNumber aperture = *a.plan.focus.aperture;
    const bool known = a.lit_circle && a.lit_circle->aperture == aperture;
    const Length lit = known ? a.lit_circle->diameter : lit_circle(a);
    const Length focal = a.camera.lens.focal->value;
    circle = [&a, lit, focal](const Draw& at) { return lit * (at(a.inputs.focal) / focal); };
  } else if (a.camera.lens.image_circle) {
    c.grade = CircleGrade::measured;
    const auto ref = in.add("measured image circle", a.camera.lens.image_circle->value);
    circle = [ref](const Draw& at) { return at(ref); };
  } else {
    const auto angle = in.add("angle covered by the lens kind", a.lens_kind.coverage.value.value);
    circle = [&a, angle](const Draw& at) { return image_circle(at(a.inputs.focal), at(angle)); };
  }
  c.circle = estimate<Length>(in, circle);
  c.odds_covered = probability(
      in, [&](const Draw& at) { return circle(at) >= c.needed; }, a.draws);
  const double scale = std::min(1.0, c.circle.value / c.needed);
  c.covered = {scale * picture.width, scale * picture.height};
  return c;
}

}  // namespace

std::string_view name_of(CircleGrade grade) {
  switch (grade) {
    case CircleGrade::lens_kind:
      return "angle of the lens kind";
    case CircleGrade::measured:
      return "measured image circle";
    case CircleGrade::prescription:
      break;
  }
  return "prescription";
}

bool Report::has_blockers() const {
  return std::ranges::any_of(findings,
                             [](const Finding& f) { return f.weight == Weight::blocker; });
}

bool Report::can_be_made() const {
  if (assembly.adapter) return faults(*assembly.adapter).empty();
  if (assembly.method() != Method::back_on_seat) return true;
  return assembly.plate && faults(*assembly.plate, smallest_wall(*assembly.plan.printer)).empty();
}

Report report_on(Assembly assembly, Scope scope) {
  Report r{std::move(assembly), {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}};
  const Assembly& a = r.assembly;
  r.register_ = study_register(a);
  r.focus = study_focus(a, r.register_);
  r.depth_of_field = study_depth_of_field(a, r.register_);
  r.finder = study_finder(a, r.register_, r.focus.depth_of_focus);
  r.stop = study_stop(a);
  r.frame = study_frame(a, r.register_);
  r.circle = study_circle(a, r.frame.picture);
  r.hand.reversed = laterally_reversed(0, *a.film.viewed == ViewedFace::same, *a.film.transfers);
  r.print = study_print(a, r.focus, r.frame.picture);
  r.accessories = study_accessories(a, r.register_, r.frame.picture);
  r.spools = study_spools(a);
  if (scope != Scope::without_timer) r.timer = study_timer(a);
  if (r.timer && scope == Scope::with_simulation) simulate_circuits(*r.timer);
  r.findings = findings_of(r);
  r.verdict = verdict_of(r.findings, !a.missing.empty());
  return r;
}

void add_insert(Report& r, const Catalogue& catalogue) {
  r.insert = study_insert(r.assembly, catalogue);
  if (!r.insert) return;
  // Its rails are the insert's own.
  if (r.insert->part)
    std::erase_if(r.findings, [](const Finding& f) { return f.id == "film-needs-rails"; });
  r.findings.insert(r.findings.end(), r.insert->findings.begin(), r.insert->findings.end());
  std::ranges::stable_sort(r.findings, {}, &Finding::weight);
  r.verdict = verdict_of(r.findings, !r.assembly.missing.empty());
}

}  // namespace backfit
