// SPDX-License-Identifier: MIT
#include "conversion/timer_study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "conversion/timer_words.hpp"
#include "timer/preferred.hpp"
#include "timer/speeds.hpp"
#include "timer/supply.hpp"

namespace backfit {
namespace {

// Per cents of a yield are told; of this many draws their standard error is 0.35 % at most.
constexpr std::size_t draws = 20'000;
// Common practice at the bench, no source.
constexpr double usual_tolerance = 0.01;
constexpr Stops usual_allowed{1.0 / 3};
constexpr Stops worth_a_part{0.01};
constexpr double good_yield = 0.9;
constexpr double cold_celsius = -10, warm_celsius = 20;
// What shops keep.
constexpr Resistance least_part = 10 * ohm, most_part = 10 * Mohm;

std::vector<StockItem> stock_of(const TimerPlan& plan, ResistorSeries series) {
  std::vector<StockItem> list;
  for (const StockedResistor& s : plan.stock) {
    const int count = s.count ? s.count->value : std::numeric_limits<int>::max();
    const auto same = std::ranges::find(list, *s.resistor, &StockItem::value);
    if (same == list.end()) {
      list.push_back({*s.resistor, count});
    } else if (same->count < std::numeric_limits<int>::max() - count) {
      same->count += count;
    } else {
      same->count = std::numeric_limits<int>::max();
    }
  }
  if (list.empty()) {
    constexpr Series by_name[] = {Series::e6, Series::e12, Series::e24, Series::e48, Series::e96};
    for (const Resistance r :
         preferred_resistors(by_name[static_cast<int>(series)], least_part, most_part)) {
      list.push_back({r});
    }
  }
  std::ranges::sort(list, {}, &StockItem::value);
  return list;
}

TimerKnowledge knowledge_of(const ShutterTimer& timer) {
  TimerKnowledge k;
  if (timer.fixed_time) k.fixed = timer.fixed_time->value;
  if (timer.capacitance) k.capacitance = timer.capacitance->value;
  if (timer.threshold) k.threshold = timer.threshold->value;
  if (timer.leakage) k.leakage = timer.leakage->value;
  return k;
}

std::vector<Trial> trials_of(const ShutterTimer& timer) {
  std::vector<Trial> list;
  for (const ShutterTrial& t : timer.trials) {
    Trial trial{*t.resistor, {}};
    for (const Stated<Measured<Time>>& time : t.times) trial.times.push_back(*time);
    list.push_back(std::move(trial));
  }
  return list;
}

std::vector<TimerSpeed> speeds_of(const TimerPlan& plan) {
  std::vector<Time> marked;
  for (const Stated<Time>& s : plan.speeds) marked.push_back(*s);
  if (marked.empty()) marked = usual_speeds();
  std::ranges::sort(marked);
  std::vector<TimerSpeed> list;
  for (const Time m : marked) {
    TimerSpeed speed;
    speed.marked = m;
    speed.meant = meant_by(m);
    list.push_back(speed);
  }
  return list;
}

void lack(TimerSpeed& speed, Lack lack, std::string why) {
  speed.lack = lack;
  speed.why = std::move(why);
}

// Marks what no resistor whatever gives.
void judge_reach(TimerStudy& s) {
  const TimerLaw& law = s.fit->law;
  s.slowest = slowest_real(law, s.allowed);
  for (TimerSpeed& speed : s.speeds) {
    if (!resistor_for(law, speed.meant) && speed.meant <= law.fixed) {
      lack(speed, Lack::too_fast,
           fmt::format("the shutter takes {} with no resistance at all", time_text(law.fixed)));
    } else if (s.slowest && speed.meant > *s.slowest) {
      lack(speed, Lack::too_slow,
           fmt::format("past {} the leak times the shutter, not the resistor",
                       time_text(*s.slowest)));
    } else if (!resistor_for(law, speed.meant)) {
      lack(speed, Lack::too_slow, "beside the leak no resistor closes the shutter so late");
    }
  }
}

std::vector<TimerSpeed*> reachable(TimerStudy& s) {
  std::vector<TimerSpeed*> list;
  for (TimerSpeed& speed : s.speeds) {
    if (speed.lack == Lack::none) list.push_back(&speed);
  }
  return list;
}

ResistorSwitch chosen(const TimerStudy& s, const std::vector<TimerSpeed*>& speeds,
                      const std::vector<StockItem>& stock) {
  std::vector<Time> wanted;
  wanted.reserve(speeds.size());
  for (const TimerSpeed* speed : speeds) wanted.push_back(speed->meant);
  if (s.wiring == SwitchWiring::chain) {
    return resistor_chain(s.fit->law, wanted, stock).value_or(ResistorSwitch{});
  }
  return resistors_each(
      s.fit->law, wanted, stock,
      s.wiring == SwitchWiring::two_each ? std::optional(worth_a_part) : std::nullopt);
}

Stops error_of(const TimerStudy& s, std::size_t position) {
  const SwitchPosition& p = s.design.positions[position];
  return stops_over(*open_time(s.fit->law, total_of(p, s.design.parts)), p.wanted);
}

// Chooses parts for all speeds that can be had; a speed that the parts miss by more than is
// allowed, the worst first, is taken out and the rest chosen anew.
void choose(TimerStudy& s, const std::vector<StockItem>& stock) {
  for (;;) {
    const std::vector<TimerSpeed*> speeds = reachable(s);
    s.design = {};
    if (speeds.empty()) return;
    s.design = chosen(s, speeds, stock);
    if (s.design.positions.empty()) {  // no chain: the slowest speed needs the rarest links
      lack(*speeds.back(), Lack::no_part, "no chain of these resistors reaches it");
      continue;
    }
    TimerSpeed* worst = nullptr;
    double most = s.allowed.value;
    for (std::size_t i = 0; i < speeds.size(); ++i) {
      speeds[i]->position = i;
      const bool empty = s.design.positions[i].parts.empty();
      const double off =
          empty ? std::numeric_limits<double>::infinity() : std::abs(error_of(s, i).value);
      if (off > most) {
        most = off;
        worst = speeds[i];
      }
    }
    if (worst == nullptr) return;
    lack(*worst, Lack::no_part,
         std::isinf(most) ? "no resistor is left for it"
                          : fmt::format("the nearest resistors miss it by {:.2f} stop", most));
  }
}

std::optional<Stops> at_ratio(const TimerLaw& law, Resistance r, double ratio) {
  const auto sagged = at_supply(law, ratio);
  const auto late = sagged ? open_time(*sagged, r) : std::nullopt;
  // A threshold out of reach: the shutter stays open.
  if (!late) return Stops{std::numeric_limits<double>::infinity()};
  return stops_over(*late, *open_time(law, r));
}

void judge_supply(TimerStudy& s, const ShutterTimer& timer) {
  const bool follows = timer.threshold_follows_supply && **timer.threshold_follows_supply;
  if (follows || !timer.threshold || !timer.supply) return;
  const Voltage fresh = timer.supply->value.value;
  for (TimerSpeed* speed : reachable(s)) {
    const Resistance r = speed->spread.resistance;
    if (timer.supply_low) {
      speed->by_low_supply = at_ratio(s.fit->law, r, timer.supply_low->value.value / fresh);
    }
    if (timer.cells && timer.current) {
      const Resistance more =
          alkaline_cell_resistance(cold_celsius) - alkaline_cell_resistance(warm_celsius);
      const Voltage lost = sag(**timer.cells, more, timer.current->value.value);
      if (lost < fresh) speed->by_cold = at_ratio(s.fit->law, r, 1 - lost / fresh);
    }
  }
}

void judge_spread(TimerStudy& s, const std::vector<StockItem>& stock) {
  const SwitchSpread spread =
      spread_of(s.design, *s.fit, s.tolerance, {s.allowed, s.allowed}, draws);
  s.odds_all = spread.all;
  for (TimerSpeed* speed : reachable(s)) {
    speed->spread = spread.positions[speed->position];
    if (s.fit->law.leakage) {
      TimerLaw tight = s.fit->law;
      tight.leakage.reset();
      speed->by_leak = stops_over(speed->spread.time, *open_time(tight, speed->spread.resistance));
    }
    if (speed->spread.yield >= good_yield) continue;
    if (const auto range = resistance_range(*s.fit, speed->meant)) {
      speed->trimmer = trimmer_over(range->least, range->most, stock, s.tolerance);
    }
  }
}

void advise_trial(TimerStudy& s) {
  std::vector<Time> wanted;
  for (const TimerSpeed* speed : reachable(s)) wanted.push_back(speed->meant);
  if (wanted.empty()) return;
  const auto reach = preferred_resistors(Series::e6, least_part, most_part);
  std::vector<Resistance> candidates;
  for (const Resistance r : reach) {
    const auto time = open_time(s.fit->law, r);
    // Trials far longer than any speed are no use, nor patience.
    if (time && *time <= 1.5 * wanted.back()) candidates.push_back(r);
  }
  s.advice = best_next_trial(*s.fit, wanted, candidates, timing_skill(*s.fit));
}

}  // namespace

std::optional<TimerStudy> study_timer(const Assembly& a) {
  if (!a.camera.shutter.timer || *a.camera.shutter.timing != ShutterTiming::photocell) return {};
  const ShutterTimer& timer = *a.camera.shutter.timer;
  const TimerPlan plan = a.plan.timer.value_or(TimerPlan{});
  TimerStudy s;
  if (plan.wiring) s.wiring = **plan.wiring;
  if (plan.series) s.series = **plan.series;
  s.from_stock = !plan.stock.empty();
  s.tolerance = plan.tolerance_percent ? **plan.tolerance_percent / 100 : usual_tolerance;
  s.allowed = plan.allowed_stops ? Stops{**plan.allowed_stops} : usual_allowed;
  s.speeds = speeds_of(plan);
  std::vector<CellReading> cell;
  cell.reserve(timer.cell_readings.size());
  for (const ShutterCell& c : timer.cell_readings) cell.push_back({*c.light, *c.resistance});
  s.cell = photocell_law(cell);
  const std::vector<Trial> trials = trials_of(timer);
  s.fit = fitted(trials, knowledge_of(timer));
  if (!s.fit) return s;
  const std::vector<StockItem> stock = stock_of(plan, s.series);
  judge_reach(s);
  choose(s, stock);
  if (!s.design.positions.empty()) judge_spread(s, stock);
  judge_supply(s, timer);
  advise_trial(s);
  return s;
}

void simulate_circuits(TimerStudy& s) {
  if (!s.fit) return;
  for (TimerSpeed* speed : reachable(s)) {
    speed->simulated = simulated(circuit_of(s, speed->position));
  }
}

TimingCircuit circuit_of(const TimerStudy& study, std::size_t position) {
  return {study.design, position, study.fit->law, 1 * volt};
}

const TrialResidual* worst_trial(const TimerFit& fit) {
  if (fit.residuals.empty()) return nullptr;
  return &*std::ranges::max_element(fit.residuals, {}, [](const TrialResidual& r) {
    return abs(r.mean - r.by_law) / r.standard_uncertainty;
  });
}

}  // namespace backfit
