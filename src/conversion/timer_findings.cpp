// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "conversion/finding_words.hpp"
#include "conversion/plate_design.hpp"
#include "conversion/timer_box_design.hpp"
#include "conversion/timer_study.hpp"
#include "conversion/timer_words.hpp"
#include "quantity/notation.hpp"
#include "timer/speeds.hpp"

namespace backfit {
namespace {

// Simulation and closed form may differ by this much of the time. The tests hold it too.
constexpr double circuit_agreement = 1e-3;
constexpr double good_yield = 0.9;  // common practice
// A shift of a speed that is worth a word, in stops. Common practice.
constexpr double noticed = 0.1;

std::string listed(const std::vector<std::string>& words) {
  std::string list;
  for (const std::string& w : words) list += (list.empty() ? "" : ", ") + w;
  return list;
}

std::string advice_words(const TimerStudy& s) {
  return fmt::format(
      "a trial with {}, about {}, would lower the law's worst doubt from {:.2f} to {:.2f} stop "
      "(95 %)",
      resistance_text(s.advice->resistor), time_text(s.advice->expected),
      coverage_95 * s.advice->before.value, coverage_95 * s.advice->after.value);
}

// Trials with more than one resistor.
bool compares_resistors(const ShutterTimer& timer) {
  return std::ranges::any_of(timer.trials, [&](const ShutterTrial& t) {
    return t.resistor->value != timer.trials.front().resistor->value;
  });
}

void find_law(const ShutterTimer& timer, const TimerStudy& s, std::vector<Finding>& out) {
  if (!s.fit && compares_resistors(timer)) {
    out.push_back(
        {"timer-unknown",
         Weight::warning,
         timer.trials.front().resistor.place,
         "the shutter's law is not known: by these trials more resistance gives no longer "
         "time, or the time without a resistor can't be told",
         {},
         {"time the trials again, and look whether times and resistors are swapped"}});
    return;
  }
  if (!s.fit) {
    out.push_back({"timer-unknown",
                   Weight::warning,
                   timer.place,
                   "the shutter's law is not known: two numbers are needed, the time without a "
                   "resistor and what a kilohm adds",
                   {},
                   {"time the shutter with two resistors in the photocell's place, such as 10 kΩ "
                    "and 470 kΩ",
                    "or write fixed_time, capacitance and threshold"}});
    return;
  }
  const TimerFit& fit = *s.fit;
  Finding law{
      "timer-law",
      Weight::note,
      timer.place,
      fmt::format("the shutter stays open for {} (95 %), by {}", law_text(fit), basis_text(fit)),
      {},
      {}};
  if (s.advice && s.advice->after.value < 0.8 * s.advice->before.value) {
    law.remedies.push_back(advice_words(s));
  }
  out.push_back(law);
  if (fit.widened) {
    const TrialResidual* worst = worst_trial(fit);
    Finding f{
        "timer-lack-of-fit",
        Weight::warning,
        timer.place,
        fmt::format("the facts disagree by more than their ± allow: chance {}; all doubts are "
                    "widened until they agree",
                    odds_text(fit.lack_of_fit->probability)),
        {},
        {"measure resistor and times again there, and look for a leak: its trials lie late at "
         "the largest resistors"}};
    if (worst != nullptr) {
      f.limit =
          fmt::format("the trial with {} lies {} {} the law, {:.1f} times its doubt",
                      resistance_text(worst->resistor), time_text(abs(worst->mean - worst->by_law)),
                      worst->mean > worst->by_law ? "above" : "below",
                      abs(worst->mean - worst->by_law) / worst->standard_uncertainty);
    }
    out.push_back(std::move(f));
  }
}

void find_speeds(const Place& place, const TimerStudy& s, std::vector<Finding>& out) {
  for (const TimerSpeed& speed : s.speeds) {
    if (speed.lack == Lack::none) continue;
    Finding f{"timer-speed-missing",
              Weight::warning,
              place,
              fmt::format("{} can't be had: {}", speed_text(speed.marked), speed.why),
              {},
              {}};
    if (speed.lack == Lack::no_part) f.remedies.emplace_back("take more values, or two a speed");
    out.push_back(std::move(f));
  }
  std::vector<std::string> poor, trimmed;
  for (const TimerSpeed& speed : s.speeds) {
    if (speed.lack != Lack::none || speed.spread.yield >= good_yield) continue;
    poor.push_back(fmt::format("{} ({})", speed_text(speed.marked), odds_text(speed.spread.yield)));
    if (speed.trimmer) {
      trimmed.push_back(
          fmt::format("{}: {}", speed_text(speed.marked), trimmer_text(*speed.trimmer)));
    }
  }
  if (poor.empty()) return;
  Finding f{
      "timer-yield",
      Weight::warning,
      place,
      fmt::format("odds of lying within {:.2g} stop are poor at {}", s.allowed.value, listed(poor)),
      {},
      {}};
  if (!trimmed.empty()) {
    f.remedies.push_back("set these by a recording, with a trimmer: " + listed(trimmed));
  }
  if (s.advice && s.advice->after.value < 0.8 * s.advice->before.value) {
    f.remedies.push_back(advice_words(s));
  }
  out.push_back(std::move(f));
}

void find_supply(const ShutterTimer& timer, const TimerStudy& s, std::vector<Finding>& out) {
  const TimerSpeed* worst = nullptr;
  const auto shift = [](const TimerSpeed& t) {
    return std::max(t.by_low_supply.value_or(Stops{}).value, t.by_cold.value_or(Stops{}).value);
  };
  for (const TimerSpeed& speed : s.speeds) {
    if (speed.lack == Lack::none && (worst == nullptr || shift(speed) > shift(*worst))) {
      worst = &speed;
    }
  }
  const bool told = timer.threshold_follows_supply.has_value();
  if (worst == nullptr || !(shift(*worst) > noticed)) {
    if (!told) {
      out.push_back({"timer-supply",
                     Weight::note,
                     timer.place,
                     "whether the threshold follows the supply is not known, so neither is what "
                     "failing cells do",
                     {},
                     {"time one trial again at a lower supply; if the time stays, write "
                      "threshold_follows_supply = true"}});
    }
    return;
  }
  std::vector<std::string> parts;
  const auto part = [&](const std::optional<Stops>& by, std::string_view when) {
    if (!by) return;
    parts.push_back(std::isinf(by->value) ? fmt::format("{} it never closes", when)
                                          : fmt::format("{} {} is {:.2f} stop longer", when,
                                                        speed_text(worst->marked), by->value));
  };
  part(worst->by_low_supply, "with worn cells");
  part(worst->by_cold, "at -10 °C");
  out.push_back(
      {"timer-supply",
       shift(*worst) > s.allowed.value ? Weight::warning : Weight::note,
       timer.supply ? timer.supply->place : timer.place,
       fmt::format("{}: {}",
                   told ? "the threshold is a fixed voltage"
                        : "if the threshold is a fixed voltage and not a share of the supply",
                   listed(parts)),
       {},
       {"fresh cells, kept warm; or a regulated supply"}});
}

void find_circuit(const Place& place, const TimerStudy& s, std::vector<Finding>& out) {
  for (const TimerSpeed& speed : s.speeds) {
    if (speed.lack != Lack::none || !speed.simulated) continue;
    const Simulated& found = *speed.simulated;
    const Time expected = speed.spread.time - s.fit->law.fixed;
    if (!found.closing) {
      out.push_back({"timer-circuit",
                     Weight::warning,
                     place,
                     fmt::format("the circuit of {} could not be checked: {}",
                                 speed_text(speed.marked), found.fault),
                     {},
                     {}});
    } else if (std::abs(*found.closing / expected - 1) > circuit_agreement) {
      out.push_back(
          {"timer-circuit",
           Weight::warning,
           place,
           fmt::format("the circuit of {}, simulated, times {}; by the formula it is {}",
                       speed_text(speed.marked), time_text(*found.closing), time_text(expected)),
           {},
           {}});
    }
  }
}

void find_box(const Assembly& a, const TimerStudy& s, std::vector<Finding>& out) {
  const auto box = timer_box(a, s);
  if (!box) return;
  const Printer& printer = *a.plan.printer;
  for (const std::string& fault : faults(*box, smallest_wall(printer), *printer.nozzle)) {
    out.push_back({"timer-box-impossible",
                   Weight::blocker,
                   a.plan.timer->box->place,
                   "the timer's box can't be made: " + fault,
                   {},
                   {}});
  }
  if (!fits_bed({box->width, box->height}, printer)) {
    out.push_back({"bed-too-small",
                   Weight::blocker,
                   printer.bed_width.place,
                   fmt::format("the timer's box measures {} × {}; the bed takes {} × {}",
                               text(box->width, 1), text(box->height, 1),
                               text(*printer.bed_width, 0), text(*printer.bed_depth, 0)),
                   {},
                   {}});
  }
}

}  // namespace

void find_timer(const Assembly& a, const TimerStudy& s, std::vector<Finding>& out) {
  const ShutterTimer& timer = *a.camera.shutter.timer;
  const Place& place = a.plan.timer ? a.plan.timer->place : timer.place;
  find_law(timer, s, out);
  if (!s.fit) return;
  find_speeds(place, s, out);
  find_supply(timer, s, out);
  find_circuit(place, s, out);
  find_box(a, s, out);
}

}  // namespace backfit
