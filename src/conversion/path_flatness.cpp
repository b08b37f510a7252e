// SPDX-License-Identifier: MIT
// How flat the film lies in the gate, against the depth of focus there.
#include <algorithm>

#include "conversion/finding_words.hpp"
#include "conversion/path_study.hpp"
#include "optics/focus.hpp"
#include "transport/flatness.hpp"

namespace backfit {
namespace {

// Film and paper want to be bent so, towards the emulsion: along the film by what the roll has left
// in them, from nothing to a radius of 40 mm; across it from a slight bend backwards in damp air to
// a radius of 67 mm in dry air. FROM MEMORY, and wide: dry and old film may lie outside.
constexpr Measured<Curvature> curl_along{0.0125 / mm, 0.0125 / mm};
constexpr Measured<Curvature> curl_across{0.005 / mm, 0.010 / mm};
// Stiffness and pull as the path counts with them, FROM MEMORY, by this share.
constexpr double stiffness_doubt = 0.5, pull_doubt = 0.5;
constexpr double cross_strain = 0.38;  // polyester-film-properties in data/sources.toml (READ)
// Where no printer makes the channel: as much as its maker leaves.
constexpr Measured<Length> channel_error{0 * mm, 0.05 * mm};
constexpr std::size_t draws = 4000;
constexpr double level = 0.95;

}  // namespace

GateFlatness gate_flatness(const Assembly& a, const PathStudy& s) {
  const PathDesign& d = s.design;
  const LayoutProblem& p = d.problem;
  const Force pull = s.first.tensions[s.layout->gate];
  Inputs in = d.inputs;
  const auto along = in.add("curl along the film", curl_along);
  const auto across = in.add("curl across the film", curl_across);
  const auto stiffness =
      in.add("stiffness of film and paper", Measured<double>{1, stiffness_doubt});
  const auto pulled = in.add("pull on the film", Measured<double>{1, pull_doubt});
  const auto made = in.add("depth of the film channel",
                           a.plan.printer ? a.plan.printer->error.value : channel_error);
  const auto play = [&](const Draw& at) {
    return std::max(0 * mm, d.seat + at(made) - at(d.paper) - at(d.film));
  };
  const auto middle = [&](const Draw& at) {
    const GateFilm film{p.gate.frame, a.film.image_width->value->value,
                        at(stiffness) * p.strip.stiffness, cross_strain, at(pulled) * pull};
    return bow_before_plate(film, {at(along), at(across)}, play(at));
  };
  const BaseSample sample = monte_carlo(
      in, [&](const Draw& at) { return middle(at).base(); }, draws);
  const auto odds_within = [&](Length depth) {
    return sample.probability_up_to(depth.base()) - sample.probability_up_to(-depth.base());
  };
  GateFlatness f;
  f.middle = Length::of_base(sample.mean);
  f.standard_uncertainty = Length::of_base(sample.standard_uncertainty);
  const BaseSample::Interval range = sample.symmetric(level);
  f.low = Length::of_base(range.low);
  f.high = Length::of_base(range.high);
  f.play = std::max(0 * mm, d.seat - p.strip.thickness);
  f.aperture = *a.plan.focus.aperture;
  const Length circle = *a.plan.focus.circle_of_confusion;
  f.depth_of_focus = depth_of_focus(f.aperture, circle, 0, 1);
  f.odds = odds_within(f.depth_of_focus);
  for (const Stated<FNumber>& stop : a.camera.lens.apertures) {
    if (*stop < f.aperture || odds_within(depth_of_focus(*stop, circle, 0, 1)) < level) continue;
    f.surely_at = *stop;
    break;
  }
  f.limit = limit_of(estimate<Length>(in, middle).budget);
  return f;
}

}  // namespace backfit
