// SPDX-License-Identifier: MIT
#include "timer/spread.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "quantity/notation.hpp"

namespace backfit {
namespace {

// The least of 1, 2, 5, 10 ... ohms that is not below `value`.
Resistance round_up(Resistance value) {
  const double decade = std::pow(10, std::floor(std::log10(value / ohm)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (step * decade * ohm >= value * (1 - 1e-12)) return step * decade * ohm;
  }
  return 10 * decade * ohm;
}

// Every part longer or shorter by `relative` lengthens a series and a parallel pair alike.
Time time_at(const TimerLaw& law, Resistance total, double relative) {
  // A resistor at the leak's end never closes the shutter: then no time is long enough.
  return open_time(law, total * (1 + relative))
      .value_or(Time::of_base(std::numeric_limits<double>::infinity()));
}

SpeedSpread first_order(const SwitchPosition& position, std::span<const Resistance> parts,
                        const TimerFit& fit, double tolerance) {
  SpeedSpread s;
  s.resistance = total_of(position, parts);
  s.time = *open_time(fit.law, s.resistance);
  s.error = stops_over(s.time, position.wanted);
  const Time law_u = law_uncertainty(fit, s.resistance);
  const Time far = coverage_factor(0.95, fit.degrees_of_freedom) * law_u;
  s.worst_over = stops_over(time_at(fit.law, s.resistance, tolerance) + far, position.wanted);
  const Time least = time_at(fit.law, s.resistance, -tolerance) - far;
  s.worst_under = least > Time{} ? stops_over(least, position.wanted)
                                 : Stops{-std::numeric_limits<double>::infinity()};
  // Each part's own share of the total, evenly within its tolerance.
  double squares = 0;
  for (const std::size_t i : position.parts) {
    const double share =
        position.joint == Joint::series ? parts[i] / s.resistance : s.resistance / parts[i];
    squares += share * share;
  }
  const Time slope = time_at(fit.law, s.resistance, 1e-6) - s.time;
  const Time parts_u = 1e6 * slope * (tolerance / std::sqrt(3) * std::sqrt(squares));
  s.standard_uncertainty = {hypot(law_u, parts_u) / s.time / std::log(2)};
  return s;
}

}  // namespace

SwitchSpread spread_of(const ResistorSwitch& design, const TimerFit& fit, double tolerance,
                       Band band, std::size_t draws, std::uint64_t seed) {
  assert(tolerance >= 0 && tolerance < 1);
  SwitchSpread result;
  TimerInputs in = inputs_of(fit);
  std::vector<InputRef<Resistance>> refs;
  for (const Resistance part : design.parts) {
    refs.push_back(in.all.add("resistor", Measured<Resistance>{part, tolerance * part}));
  }
  for (const SwitchPosition& position : design.positions) {
    result.positions.push_back(first_order(position, design.parts, fit, tolerance));
  }
  std::vector<std::size_t> within(design.positions.size());
  std::vector<Resistance> parts(design.parts.size());
  result.all = probability(
      in.all,
      [&](const Draw& at) {
        const TimerLaw law = in.law(at);
        for (std::size_t i = 0; i < parts.size(); ++i) parts[i] = at(refs[i]);
        bool all = true;
        for (std::size_t i = 0; i < within.size(); ++i) {
          const SwitchPosition& position = design.positions[i];
          const auto time = open_time(law, total_of(position, parts));
          const bool good =
              time && *time > Time{} && band.holds(stops_over(*time, position.wanted));
          within[i] += good ? 1 : 0;
          all = all && good;
        }
        return all;
      },
      draws, seed);
  for (std::size_t i = 0; i < within.size(); ++i) {
    result.positions[i].yield = double(within[i]) / double(draws);
  }
  return result;
}

Trimmer trimmer_over(Resistance least, Resistance most, std::span<const StockItem> stock,
                     double tolerance) {
  assert(least >= Resistance{} && least < most);
  constexpr double sure_of_trimmer = 0.8;
  std::optional<Resistance> fixed;
  for (const StockItem& item : stock) {
    if (item.count > 0 && item.value * (1 + tolerance) <= least) fixed = item.value;
  }
  const Resistance below = fixed ? *fixed * (1 - tolerance) : Resistance{};
  return {fixed, round_up((most - below) / sure_of_trimmer)};
}

std::optional<ResistanceRange> resistance_range(const TimerFit& fit, Time wanted) {
  const auto resistor = resistor_for(fit.law, wanted);
  if (!resistor) return {};
  const Time far = coverage_factor(0.95, fit.degrees_of_freedom) * law_uncertainty(fit, *resistor);
  const auto least = resistor_for(fit.law, wanted - far);
  const auto most = resistor_for(fit.law, wanted + far);
  if (!most) return {};
  return ResistanceRange{least.value_or(Resistance{}), *most};
}

}  // namespace backfit
