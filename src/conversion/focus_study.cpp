// SPDX-License-Identifier: MIT
#include "conversion/focus_study.hpp"

#include <algorithm>
#include <limits>

#include "optics/focus.hpp"
#include "optics/plane_glass.hpp"
#include "optics/rangefinder.hpp"

namespace backfit {
namespace {

// Of glass for windows, soda-lime-glass in data/sources.toml (READ): the fit gives 1.523 at 588 nm;
// the ± takes in optical crown and thin old glass.
constexpr Measured<double> window_glass_index{1.523, 0.02};

// To which the eye sets two images on each other. Common practice, no source.
constexpr Angle finder_alignment = deg / 60;

constexpr Length infinitely_far = std::numeric_limits<double>::infinity() * mm;

constexpr Length usual_marks[] = {1 * metre, 1.2 * metre, 1.5 * metre, 2 * metre,
                                  3 * metre, 5 * metre,   10 * metre};

std::vector<Length> scale_distances(const Assembly& a, Length nearest) {
  std::vector<Length> list;
  for (const Stated<Length>& mark : a.camera.focusing.marks) list.push_back(*mark);
  if (!list.empty()) return list;
  for (const Length mark : usual_marks) {
    if (mark >= nearest && mark > 2 * a.camera.lens.focal->value) list.push_back(mark);
  }
  return list;
}

double pupil_magnification(const Assembly& a) {
  return a.camera.lens.pupil_magnification ? a.camera.lens.pupil_magnification->value.value : 1;
}

FocusStudy::GlassCheck check_glass(const Assembly& a, Inputs in,
                                   const std::function<Length(const Draw&)>& bulge, Length depth) {
  const GroundGlass& glass = *a.plan.focus.ground_glass;
  const auto glass_depth = in.add("depth of the ground glass", *glass.depth);
  const auto thickness = in.add("thickness of the ground glass", *glass.thickness);
  const auto index = in.add("refractive index of the ground glass", window_glass_index);
  const bool turned = *glass.matt_side == MattSide::to_eye;
  const auto by_turning = [=](const Draw& at) {
    return turned ? turned_ground_glass_error({at(thickness), at(index)}) : 0 * mm;
  };
  const auto edge = [&](const Draw& at) {
    return a.behind_plate(at) - at(glass_depth) - by_turning(at);
  };
  const auto middle = [&](const Draw& at) { return edge(at) - bulge(at); };
  FocusStudy::GlassCheck check;
  check.error = estimate<Length>(in, middle);
  check.odds_sharp = probability(
      in, [&](const Draw& at) { return std::max(abs(edge(at)), abs(middle(at))) <= depth; },
      a.draws);
  if (turned) {
    check.by_turning =
        turned_ground_glass_error({glass.thickness->value, window_glass_index.value});
  }
  const Length half_bulge =
      a.plan.focus.film_bulge ? a.plan.focus.film_bulge->value.value / 2 : 0 * mm;
  check.right_depth = glass.depth->value + check.error.value + half_bulge + check.by_turning;
  return check;
}

}  // namespace

Length sharp_plane(const GroundGlass& glass) {
  const Length depth = glass.depth->value;
  if (*glass.matt_side == MattSide::to_lens) return depth;
  return depth + turned_ground_glass_error({glass.thickness->value, window_glass_index.value});
}

RegisterStudy study_register(const Assembly& a) {
  RegisterStudy r;
  const MeasuredInputs& in = a.inputs;
  r.set_back = estimate<Length>(in.all, [&](const Draw& at) { return a.set_back(at); });
  const auto spare = [&](const Draw& at) { return at(in.room_behind) - a.set_back(at); };
  r.spare_room = estimate<Length>(in.all, spare);
  const Focusing& focusing = a.camera.focusing;
  if (*focusing.moves == LensMotion::fixed) {
    r.give = depth_of_focus(*a.plan.focus.aperture, *a.plan.focus.circle_of_confusion, 0, 1);
  }
  r.odds_infinity = probability(
      in.all, [&](const Draw& at) { return spare(at) >= -r.give; }, a.draws);

  const Length focal = a.camera.lens.focal->value;
  const Length set_back = r.set_back.value;
  const Length room = focusing.room_behind_infinity->value;
  r.standard_moves = std::min(set_back, room);
  const Length at_stop = set_back - r.standard_moves;  // extension that stays at the new stop
  if (at_stop > r.give) r.farthest_focus = subject_for(focal, at_stop);
  const Length most_forward = set_back + focusing.travel_forward->value;
  r.nearest_focus = subject_for(focal, most_forward).value_or(infinitely_far);
  for (const Stated<Length>& mark : focusing.marks) {
    RegisterStudy::Mark m{*mark, {}, subject_at_mark(focal, *mark, set_back)};
    const Length extension = *extension_for(focal, *mark);
    if (at_stop <= extension && extension <= most_forward) {
      m.from_new_stop = estimate<Length>(
          in.all, [&](const Draw& at) { return *extension_for(at(in.focal), *mark) - at_stop; });
    }
    r.marks.push_back(m);
  }
  return r;
}

FocusStudy study_focus(const Assembly& a, const RegisterStudy& reg) {
  FocusStudy f;
  f.aperture = *a.plan.focus.aperture;
  const Length circle = *a.plan.focus.circle_of_confusion;
  f.depth_of_focus = depth_of_focus(f.aperture, circle, 0, 1);
  Inputs in = a.inputs.all;
  std::function<Length(const Draw&)> bulge = [](const Draw&) { return 0 * mm; };
  if (a.plan.focus.film_bulge) {
    const auto ref = in.add("bulge of the film", **a.plan.focus.film_bulge);
    bulge = [ref](const Draw& at) { return at(ref); };
  }
  // The lens follows the film as calculated, or as far as there is room.
  const auto edge = [&](const Draw& at) {
    return a.set_back(at) - std::min(reg.set_back.value, at(a.inputs.room_behind)) +
           at(a.inputs.stop_setting);
  };
  f.plane_error = estimate<Length>(in, [&](const Draw& at) { return edge(at) - bulge(at); });
  const auto worst = [&](Length forward) {
    return monte_carlo(
        in,
        [&, forward](const Draw& at) {
          const Length e = edge(at) + forward;
          return std::max(abs(e), abs(e - bulge(at))).base();
        },
        a.draws);
  };
  const BaseSample as_calculated = worst(0 * mm);
  f.odds_sharp = as_calculated.probability_up_to(f.depth_of_focus.base());
  for (const Stated<FNumber>& stop : a.camera.lens.apertures) {
    if (*stop < f.aperture) continue;
    const Length depth = depth_of_focus(*stop, circle, 0, 1);
    if (as_calculated.probability_up_to(depth.base()) < sure_enough) continue;
    f.holds_at = *stop;
    break;
  }
  if (a.plan.focus.film_bulge) {
    const Length half = a.plan.focus.film_bulge->value.value / 2;
    f.shared_bulge = {half, worst(half).probability_up_to(f.depth_of_focus.base())};
  }
  if (a.plan.focus.ground_glass) f.glass = check_glass(a, in, bulge, f.depth_of_focus);
  return f;
}

DepthOfFieldStudy study_depth_of_field(const Assembly& a, const RegisterStudy& reg) {
  DepthOfFieldStudy d;
  d.circle = *a.plan.focus.circle_of_confusion;
  if (*a.camera.focusing.moves == LensMotion::fixed) {
    d.rows.push_back({reg.farthest_focus.value_or(infinitely_far), {}});
  } else {
    for (const Length subject : scale_distances(a, reg.nearest_focus)) {
      d.rows.push_back({subject, {}});
    }
  }
  for (const Stated<FNumber>& stop : a.camera.lens.apertures) {
    const Sharpness sharpness{a.camera.lens.focal->value, *stop, d.circle, pupil_magnification(a)};
    d.apertures.push_back(*stop);
    d.hyperfocal.push_back(hyperfocal_distance(sharpness));
    for (DepthOfFieldStudy::Row& row : d.rows) {
      row.ranges.push_back(sharp_range(sharpness, row.subject));
    }
  }
  return d;
}

std::optional<FinderStudy> study_finder(const Assembly& a, const RegisterStudy& reg,
                                        Length depth_of_focus) {
  const std::optional<Rangefinder>& finder = a.camera.rangefinder;
  if (!finder || *finder->coupled_to == FinderCoupling::none) return {};
  const Length focal = a.camera.lens.focal->value;
  const bool by_standard = *finder->coupled_to == FinderCoupling::standard;
  FinderStudy f;
  f.late = by_standard ? reg.set_back.value : reg.set_back.value - reg.standard_moves;
  f.pose = by_standard ? f.late : 0 * mm;
  for (const Length subject : scale_distances(a, reg.nearest_focus)) {
    f.checks.push_back({subject, finder_reading(focal, subject, f.late),
                        focused_by_finder(focal, subject, f.late)});
  }
  if (finder->base) {
    const double magnification = finder->magnification ? finder->magnification->value.value : 1;
    const Length base = (*finder->base)->value;
    f.base = {film_error({base, magnification, finder_alignment}, focal, {}),
              needed_base(focal, finder_alignment, depth_of_focus), base * magnification};
  }
  return f;
}

std::optional<StopStudy> study_stop(const Assembly& a) {
  const FocusPlan& plan = a.plan.focus;
  if (!plan.stop_test) return {};
  Inputs in = a.inputs.all;
  const auto distance = in.add("distance of the test subject", *plan.stop_test->distance);
  const auto travel = in.add("travel to the test subject", *plan.stop_test->travel);
  StopStudy s;
  s.error = estimate<Length>(in, [&](const Draw& at) {
    const Length focal = at(a.inputs.focal);
    return *stop_error(focal, *subject_before_lens(focal, at(distance), 0 * mm), at(travel));
  });
  std::vector<Length> stock;
  for (const Stated<Length>& shim : plan.shims) stock.push_back(*shim);
  s.stack = shim_stack(abs(s.error.value), stock, most_shims);
  return s;
}

}  // namespace backfit
