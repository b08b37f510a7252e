// SPDX-License-Identifier: MIT
#include "documents/timer_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "conversion/timer_words.hpp"
#include "documents/json_numbers.hpp"
#include "documents/padded.hpp"
#include "quantity/notation.hpp"
#include "timer/speeds.hpp"

namespace backfit {
namespace {

using namespace json;

std::string shift_text(const std::optional<Stops>& shift) {
  if (!shift) return "-";
  return std::isinf(shift->value) ? "stuck" : signed_stops(*shift);
}

std::string odd_times_text(const TrialResidual& r) {
  return signed_stops({(r.mean - r.by_law) / r.standard_uncertainty});
}

std::string cell_line(const PhotocellLaw& cell) {
  return fmt::format(
      "photocell: {} at 10 lx, slope {:.2f} ± {:.2f}; over five stops less light the automatic "
      "gives "
      "{:.1f} stops too little\n",
      resistance_text(cell.at_ten_lux), cell.slope, coverage_95 * cell.slope_u,
      -automatic_error(cell, {5}).value);
}

std::string trial_lines(const TimerFit& fit) {
  if (fit.residuals.empty()) return {};
  std::string out = fmt::format("{}{}{}{}\n", padded("trial", -11), padded("time", 10),
                                padded("by law", 10), padded("off, of its doubt", 20));
  for (const TrialResidual& r : fit.residuals) {
    out += fmt::format("{}{}{}{}\n", padded(resistance_text(r.resistor), -11),
                       padded(time_text(r.mean), 10), padded(time_text(r.by_law), 10),
                       padded(odd_times_text(r), 20));
  }
  return out + "\n";
}

std::string speed_lines(const TimerStudy& s) {
  std::string out = fmt::format("{}{}{}{}{}{}{}{}{}  {}\n", padded("speed", -9),
                                padded("resistance", 11), padded("time", 9), padded("error", 7),
                                padded("worst case", 15), padded("odds", 12), padded("leak", 7),
                                padded("worn", 7), padded("cold", 7), "parts");
  for (const TimerSpeed& t : s.speeds) {
    out += padded(speed_text(t.marked), -9);
    if (t.lack != Lack::none) {
      out += "  can't be had: " + t.why + "\n";
      continue;
    }
    const SpeedSpread& p = t.spread;
    out += fmt::format(
        "{}{}{}{}{}{}{}{}  {}\n", padded(resistance_text(p.resistance), 11),
        padded(time_text(p.time), 9), padded(signed_stops(p.error), 7),
        padded(fmt::format("{} to {}",
                           std::isinf(p.worst_under.value) ? "−∞" : signed_stops(p.worst_under),
                           std::isinf(p.worst_over.value) ? "∞" : signed_stops(p.worst_over)),
               15),
        padded(odds_text(p.yield), 12), padded(shift_text(t.by_leak), 7),
        padded(shift_text(t.by_low_supply), 7), padded(shift_text(t.by_cold), 7),
        parts_text(s, t.position));
  }
  return out + padded("B", -9) + "  the contact left open: no resistor, no end\n";
}

Json fit_of(const TimerFit& fit) {
  Json j{{"fixed_ms", figures(fit.law.fixed / ms)},
         {"fixed_ms_u", figures(fit.fixed_u / ms)},
         {"per_kohm_ms", figures(fit.law.per_ohm / uF)},
         {"per_kohm_ms_u", figures(fit.per_ohm_u / uF)},
         {"correlation", share_of(fit.correlation)},
         {"degrees_of_freedom", figures(fit.degrees_of_freedom)},
         {"threshold", share_of(fit.law.threshold)},
         {"leakage_kohm", fit.law.leakage ? figures(*fit.law.leakage / kohm) : Json(nullptr)},
         {"repeat_spread", fit.repeats > 0 ? share_of(fit.repeat_spread) : Json(nullptr)}};
  if (fit.lack_of_fit) {
    j["lack_of_fit"] = {{"chi_square", share_of(fit.lack_of_fit->chi_square)},
                        {"degrees_of_freedom", fit.lack_of_fit->degrees_of_freedom},
                        {"probability", figures(fit.lack_of_fit->probability)},
                        {"widened", fit.widened}};
  } else {
    j["lack_of_fit"] = nullptr;
  }
  j["trials"] = Json::array();
  for (const TrialResidual& r : fit.residuals) {
    j["trials"].push_back({{"resistor_kohm", figures(r.resistor / kohm)},
                           {"time_ms", figures(r.mean / ms)},
                           {"time_ms_u", figures(r.standard_uncertainty / ms)},
                           {"by_law_ms", figures(r.by_law / ms)}});
  }
  return j;
}

std::string_view name_of(Lack lack) {
  switch (lack) {
    case Lack::too_fast:
      return "too fast";
    case Lack::too_slow:
      return "too slow";
    case Lack::no_part:
      return "no part";
    case Lack::none:
      break;
  }
  return "";
}

Json speed_of(const TimerStudy& s, const TimerSpeed& t) {
  Json j{{"marked_s", figures(t.marked / second)},
         {"wanted_s", figures(t.meant / second)},
         {"lack", t.lack == Lack::none ? Json(nullptr) : Json(name_of(t.lack))}};
  if (t.lack != Lack::none) {
    j["why"] = t.why;
    return j;
  }
  const SwitchPosition& p = s.design.positions[t.position];
  Json parts = Json::array();
  for (const std::size_t i : p.parts) parts.push_back(figures(s.design.parts[i] / kohm));
  j["parts_kohm"] = parts;
  j["joint"] = p.joint == Joint::series ? "series" : "parallel";
  j["resistance_kohm"] = figures(t.spread.resistance / kohm);
  j["time_s"] = figures(t.spread.time / second);
  j["error_stops"] = stops_of(t.spread.error);
  j["error_stops_u"] = stops_of(t.spread.standard_uncertainty);
  j["worst_under_stops"] = stops_of(t.spread.worst_under);
  j["worst_over_stops"] = stops_of(t.spread.worst_over);
  j["odds"] = share_of(t.spread.yield);
  j["by_leak_stops"] = stops_of(t.by_leak);
  j["by_low_supply_stops"] = stops_of(t.by_low_supply);
  j["by_cold_stops"] = stops_of(t.by_cold);
  if (t.trimmer) {
    j["trimmer"] = {
        {"fixed_kohm", t.trimmer->fixed ? figures(*t.trimmer->fixed / kohm) : Json(nullptr)},
        {"trimmer_kohm", figures(t.trimmer->trimmer / kohm)}};
  } else {
    j["trimmer"] = nullptr;
  }
  j["simulated_s"] = t.simulated && t.simulated->closing
                         ? figures((s.fit->law.fixed + *t.simulated->closing) / second)
                         : Json(nullptr);
  return j;
}

}  // namespace

std::string timer_summary(const Report& report) {
  const TimerStudy& s = *report.timer;
  const std::string& camera = *report.assembly.camera.name;
  if (!s.fit) return fmt::format("{}: the shutter's law is not known yet\n", camera);
  std::string out =
      fmt::format("{}: open for {} (95 %), by {}\n", camera, law_text(*s.fit), basis_text(*s.fit));
  if (s.fit->law.leakage) {
    out += fmt::format("  beside a leak of {}, with a threshold of {:.3g} %\n",
                       resistance_text(*s.fit->law.leakage), 100 * s.fit->law.threshold);
  }
  if (s.slowest) {
    out += fmt::format("  from {} to {}; past that the leak times it\n",
                       time_text(s.fit->law.fixed), time_text(*s.slowest));
  } else {
    out += fmt::format("  from {} up; no leak is known that would end it\n",
                       time_text(s.fit->law.fixed));
  }
  out += fmt::format("  {}, {}, {:g} %: all within {:.2g} stop with odds {}\n\n",
                     wiring_text(s.wiring), values_text(s), 100 * s.tolerance, s.allowed.value,
                     odds_text(s.odds_all));
  if (s.cell) out += cell_line(*s.cell) + "\n";
  out += trial_lines(*s.fit) + speed_lines(s);
  if (s.advice) {
    out += fmt::format(
        "\nnext trial: {}, about {}; the law's worst doubt falls from {:.2f} to "
        "{:.2f} stop (95 %)\n",
        resistance_text(s.advice->resistor), time_text(s.advice->expected),
        coverage_95 * s.advice->before.value, coverage_95 * s.advice->after.value);
  }
  return out;
}

std::string timer_json(const Report& report) {
  const TimerStudy& s = *report.timer;
  Json j{{"schema", "backfit.timer/1"}, {"camera", *report.assembly.camera.name}};
  j["law"] = s.fit ? fit_of(*s.fit) : Json(nullptr);
  if (s.cell) {
    j["photocell"] = {{"at_10_lx_kohm", figures(s.cell->at_ten_lux / kohm)},
                      {"slope", figures(s.cell->slope)},
                      {"slope_u", figures(s.cell->slope_u)},
                      {"error_per_stop_darker", stops_of(automatic_error(*s.cell, {1}))}};
  }
  if (s.fit) {
    j["fastest_ms"] = figures(s.fit->law.fixed / ms);
    j["slowest_s"] = s.slowest ? figures(*s.slowest / second) : Json(nullptr);
    j["wiring"] = s.wiring == SwitchWiring::chain      ? "chain"
                  : s.wiring == SwitchWiring::two_each ? "two each"
                                                       : "one each";
    j["values"] = values_text(s);
    j["tolerance"] = share_of(s.tolerance);
    j["allowed_stops"] = stops_of(s.allowed);
    j["odds_all"] = share_of(s.odds_all);
    j["speeds"] = Json::array();
    for (const TimerSpeed& t : s.speeds) j["speeds"].push_back(speed_of(s, t));
    if (s.advice) {
      j["next_trial"] = {{"resistor_kohm", figures(s.advice->resistor / kohm)},
                         {"time_s", figures(s.advice->expected / second)},
                         {"doubt_before_stops_u", stops_of(s.advice->before)},
                         {"doubt_after_stops_u", stops_of(s.advice->after)}};
    } else {
      j["next_trial"] = nullptr;
    }
  }
  return j.dump(2) + "\n";
}

}  // namespace backfit
