// SPDX-License-Identifier: MIT
#include "conversion/trap_study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "lighttrap/transmission.hpp"

namespace backfit {
namespace {

using Gap = TrapQuestions::Gap;
using Hole = TrapQuestions::Hole;

GapProfile profile_of(const Gap& gap, Length width) { return {width, gap.arms, gap.turns}; }

// The measurements, and what passes at one draw of them.
struct Model {
  const TrapQuestions& asked;
  Inputs inputs;
  InputRef<Length> width, length;
  InputRef<double> reflectance;

  explicit Model(const TrapQuestions& questions) : asked(questions) {
    if (const auto* gap = std::get_if<Gap>(&asked.way)) {
      width = inputs.add("gap", gap->gap);
    } else {
      const Hole& hole = std::get<Hole>(asked.way);
      width = inputs.add("bore", hole.diameter);
      length = inputs.add("length of the bore", hole.length);
    }
    reflectance = inputs.add("reflectance", asked.reflectance);
  }

  Transmission operator()(const Draw& at) const {
    const Wall wall{std::clamp(at(reflectance), 0.0, 1.0), asked.gloss_index};
    const auto* gap = std::get_if<Gap>(&asked.way);
    return gap ? transmission(profile_of(*gap, at(width)), wall, asked.seam.value_or(endless))
               : transmission(Bore{at(width), at(length)}, wall);
  }
};

Area mouth_of(const TrapQuestions& asked) {
  if (const auto* hole = std::get_if<Hole>(&asked.way)) {
    return std::numbers::pi / 4 * (hole->diameter.value * hole->diameter.value);
  }
  return std::get<Gap>(asked.way).gap.value * *asked.seam;
}

// Both ends of what was measured must be ways that light can go.
std::optional<std::string> fault_of(const Measured<Length>& width, const auto& fault_at) {
  for (const double side : {0.0, -1.0, 1.0}) {
    if (auto fault = fault_at(width.value + side * width.half_width)) return fault;
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> refusal(const TrapQuestions& asked) {
  const double r = asked.reflectance.value;
  if (!(r >= 0 && r <= 1)) {
    return fmt::format("walls reflect from 0 to 100 % of the light, found {:g} %", 100 * r);
  }
  if (const auto* gap = std::get_if<Gap>(&asked.way)) {
    if (asked.gloss_index > 1 && !asked.seam) {
      return "faces that mirror send light along the seam, to its ends: say how long it is with "
             "--seam";
    }
    return fault_of(gap->gap, [&](Length width) { return fault_of(profile_of(*gap, width)); });
  }
  const Hole& hole = std::get<Hole>(asked.way);
  const Length narrowest = hole.diameter.value - hole.diameter.half_width;
  if (!(narrowest > Length{})) return "the bore may be no wider than nothing";
  if (!(hole.length.value > hole.length.half_width))
    return "the bore may be no longer than nothing";
  const double diameters = (hole.length.value + hole.length.half_width) / narrowest;
  if (diameters > 1000) {
    return fmt::format("the bore may be {:g} diameters long, up to 1000 can be worked out",
                       diameters);
  }
  return std::nullopt;
}

TrapStudy study_of(const TrapQuestions& asked) {
  TrapStudy s;
  s.asked = asked;
  const Model model(asked);
  std::vector<double> measured;
  for (const Input& input : model.inputs.list()) measured.push_back(input.value);
  const Transmission passed = model(Draw(measured));
  s.through = passed.through;
  s.mesh_error = passed.mesh_error;
  s.attenuation =
      propagate(model.inputs, [&](const Draw& at) { return attenuation(model(at).through).value; });
  if (s.through > 0) {
    const double mesh = s.mesh_error / s.through / std::numbers::ln2;
    s.stops_u = std::hypot(s.attenuation.standard_uncertainty, mesh);
  }
  s.through_u = s.through * std::numbers::ln2 * s.stops_u;
  s.sees_through =
      !std::holds_alternative<Gap>(asked.way) ||
      sees_through(profile_of(std::get<Gap>(asked.way), std::get<Gap>(asked.way).gap.value));
  constexpr Time hour = 3600 * second;
  s.an_hour = s.through * full_sun.value * hour;
  if (asked.seam || std::holds_alternative<Hole>(asked.way)) {
    s.an_hour_inside = s.an_hour * mouth_of(asked);
  }
  s.fog = {time_to_fog(asked.film, {0.02}, s.through, s.through_u),
           time_to_fog(asked.film, {0.10}, s.through, s.through_u)};
  return s;
}

}  // namespace backfit
