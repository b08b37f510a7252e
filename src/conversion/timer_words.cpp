// SPDX-License-Identifier: MIT
#include "conversion/timer_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "quantity/notation.hpp"

namespace backfit {
namespace {

// "(3.62 ± 0.21) ms", the ± with two figures.
std::string with_half_width(double value, double half_width, std::string_view unit) {
  if (!(half_width > 0)) return fmt::format("{:.4g} {}", value, unit);
  const int decimals = std::clamp(1 - static_cast<int>(std::floor(std::log10(half_width))), 0, 9);
  return fmt::format("({} ± {}) {}", fixed(value, decimals), fixed(half_width, decimals), unit);
}

// Three figures, zeros kept.
std::string three_figures(double value) {
  const double size = std::abs(value);
  if (!(size > 0)) return "0";
  // 0.9996 rounds up into the next decade.
  const double rounded_up = size * 1.0005;
  return fixed(value, std::clamp(2 - static_cast<int>(std::floor(std::log10(rounded_up))), 0, 9));
}

}  // namespace

std::string resistance_text(Resistance r) {
  if (r >= 0.99995 * Mohm) return fmt::format("{:.4g} MΩ", r / Mohm);
  if (r >= 0.99995 * kohm) return fmt::format("{:.4g} kΩ", r / kohm);
  return fmt::format("{:.4g} Ω", r / ohm);
}

std::string time_text(Time time) {
  return abs(time) < 0.9995 * second ? three_figures(time / ms) + " ms"
                                     : three_figures(time / second) + " s";
}

std::string range_text(Resistance least, Resistance most) {
  const auto unit = most >= 1 * Mohm   ? std::pair(Mohm, "MΩ")
                    : most >= 1 * kohm ? std::pair(kohm, "kΩ")
                                       : std::pair(ohm, "Ω");
  const auto figures = [&](Resistance r) {
    const double value = r / unit.first;
    return fixed(value, value < 10 ? 3 : value < 100 ? 2 : 1);
  };
  return fmt::format("{} to {} {}", figures(least), figures(most), unit.second);
}

std::string signed_stops(Stops stops) {
  std::string digits = fixed(std::abs(stops.value), 2);
  if (digits == "0.00") return digits;
  return (stops.value < 0 ? "−" : "+") + digits;
}

std::string law_text(const TimerFit& fit) {
  const double k = coverage_factor(0.95, fit.degrees_of_freedom);
  return fmt::format("{} + {} × R",
                     with_half_width(fit.law.fixed / ms, k * (fit.fixed_u / ms), "ms"),
                     with_half_width(fit.law.per_ohm / uF, k * (fit.per_ohm_u / uF), "ms/kΩ"));
}

std::string basis_text(const TimerFit& fit) {
  const std::size_t trials = fit.residuals.size();
  if (trials == 0) return "the circuit alone";
  const bool circuit = fit.known.fixed || (fit.known.capacitance && fit.known.threshold);
  return fmt::format("{} trial{}{}", trials, trials == 1 ? "" : "s",
                     circuit ? " and what is known of the circuit" : "");
}

std::string trimmer_text(const Trimmer& t) {
  if (!t.fixed) return fmt::format("a trimmer of {} alone", resistance_text(t.trimmer));
  return fmt::format("{} and a trimmer of {} in series", resistance_text(*t.fixed),
                     resistance_text(t.trimmer));
}

std::string parts_text(const TimerStudy& s, std::size_t position) {
  const SwitchPosition& p = s.design.positions[position];
  const auto part = [&](std::size_t i) { return resistance_text(s.design.parts[p.parts[i]]); };
  if (s.wiring == SwitchWiring::chain) {
    return (p.parts.size() > 1 ? "+ " : "") + part(p.parts.size() - 1);
  }
  if (p.parts.size() == 1) return part(0);
  return part(0) + (p.joint == Joint::series ? " + " : " ∥ ") + part(1);
}

std::string values_text(const TimerStudy& s) {
  if (s.from_stock) return "stock";
  constexpr std::string_view names[] = {"E6", "E12", "E24", "E48", "E96"};
  return std::string(names[static_cast<int>(s.series)]);
}

std::string wiring_text(SwitchWiring wiring) {
  switch (wiring) {
    case SwitchWiring::one_each:
      return "one resistor a speed";
    case SwitchWiring::two_each:
      return "up to two resistors a speed";
    case SwitchWiring::chain:
      break;
  }
  return "one chain with a tap a speed";
}

}  // namespace backfit
