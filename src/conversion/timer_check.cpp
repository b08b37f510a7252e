// SPDX-License-Identifier: MIT
// Slips of the unit in what the files say of a timer: no circuit in a camera has such numbers.
#include <fmt/format.h>

#include <algorithm>

#include "conversion/timer_study.hpp"
#include "conversion/timer_words.hpp"

namespace backfit {
namespace {

constexpr std::size_t most_speeds = 24, most_trials = 100, most_stock = 500;

template <class Q>
void check_range(const Place& place, Q value, Q half_width, Q least, Q most, Q unit,
                 std::string_view unit_name, Diagnostics& diagnostics) {
  if (value >= least && value + half_width <= most) return;
  diagnostics.error(place,
                    fmt::format("{:g} {} is out of range; {:g} to {:g} {} are taken", value / unit,
                                unit_name, least / unit, most / unit, unit_name));
}

class Check {
 public:
  explicit Check(Diagnostics& diagnostics) : diagnostics_(diagnostics) {}

  void operator()(const Place& place, const Measured<Resistance>& r) {
    check_range(place, r.value, r.half_width, 0.1 * ohm, 1e6 * Mohm, kohm, "kΩ", diagnostics_);
  }
  void operator()(const Place& place, const Measured<Time>& t) {
    check_range(place, t.value, t.half_width, 1 * us, 3600 * second, second, "s", diagnostics_);
  }
  void operator()(const Place& place, const Measured<Capacitance>& c) {
    check_range(place, c.value, c.half_width, 1e-6 * uF, 1e6 * uF, uF, "µF", diagnostics_);
  }
  void operator()(const Place& place, const Measured<Voltage>& v) {
    check_range(place, v.value, v.half_width, 1e-3 * volt, 1000 * volt, volt, "V", diagnostics_);
  }
  void operator()(const Place& place, const Measured<Current>& c) {
    check_range(place, c.value, c.half_width, 1e-6 * mA, 100 * ampere, mA, "mA", diagnostics_);
  }
  template <class Q>
  void operator()(const std::optional<Stated<Measured<Q>>>& stated) {
    if (stated) (*this)(stated->place, stated->value);
  }

 private:
  Diagnostics& diagnostics_;
};

void check_threshold(const ShutterTimer& timer, Diagnostics& diagnostics) {
  if (!timer.threshold) {
    if (timer.leakage) {
      diagnostics.error(timer.leakage->place,
                        "what a leak does depends on the threshold, which is not given",
                        "write a threshold such as threshold = \"50 % ± 20\"");
    }
    return;
  }
  const Measured<double>& k = timer.threshold->value;
  if (k.value - k.half_width <= 0 || k.value + k.half_width >= 1) {
    diagnostics.error(
        timer.threshold->place,
        fmt::format("the threshold may be {:g} % to {:g} % of the supply; it must lie "
                    "between 0 and 100 %",
                    100 * (k.value - k.half_width), 100 * (k.value + k.half_width)));
  }
}

void check_supply(const ShutterTimer& timer, Diagnostics& diagnostics) {
  if (timer.supply_low && timer.supply &&
      timer.supply_low->value.value > timer.supply->value.value) {
    diagnostics.error(
        timer.supply_low->place,
        fmt::format("the lowest supply, {:g} V, is above that of fresh cells, {:g} V",
                    timer.supply_low->value.value / volt, timer.supply->value.value / volt));
  }
}

// A trial that was timed must be one that can end: beside a leak the capacitor fills to a share of
// the supply only, below the threshold from one resistance on.
void check_leak(const ShutterTimer& timer, Diagnostics& diagnostics) {
  if (!timer.leakage || !timer.threshold) return;
  TimerLaw law;
  const Measured<double>& k = timer.threshold->value;
  if (k.value - k.half_width <= 0 || k.value + k.half_width >= 1) return;  // said already
  law.threshold = k.value;
  law.leakage = timer.leakage->value.value;
  const Resistance greatest = *greatest_resistance(law);
  for (const ShutterTrial& trial : timer.trials) {
    if (trial.resistor->value < greatest) continue;
    const std::string resistor = resistance_text(trial.resistor->value);
    diagnostics.add(
        {Severity::error,
         trial.resistor.place,
         fmt::format(
             "this trial was timed with {}, but beside a leak of {} and with a threshold of "
             "{:g} % the shutter never closes from {} on",
             resistor, resistance_text(*law.leakage), 100 * law.threshold,
             resistance_text(greatest)),
         fmt::format("measure the leak again: it must be above {}, or leave it out; or check this "
                     "resistor and the threshold",
                     resistance_text(trial.resistor->value / (1 / law.threshold - 1))),
         {{timer.leakage->place, "the leak is given here"}}});
  }
}

// A fixed time may be so unsure that nothing is known of it, but a trial's time may not.
void check_trials(const ShutterTimer& timer, Check& check, Diagnostics& diagnostics) {
  if (timer.trials.size() > most_trials) {
    diagnostics.error(
        timer.trials[most_trials].place,
        fmt::format("{} trials; {} at most are looked through", timer.trials.size(), most_trials));
  }
  for (const ShutterTrial& trial : timer.trials) {
    check(trial.resistor.place, *trial.resistor);
    for (const Stated<Measured<Time>>& time : trial.times) check(time.place, *time);
  }
}

void check_cell(const ShutterTimer& timer, Check& check, Diagnostics& diagnostics) {
  std::vector<CellReading> readings;
  for (const ShutterCell& c : timer.cell_readings) {
    check(c.resistance.place, *c.resistance);
    readings.push_back({*c.light, *c.resistance});
  }
  if (readings.empty() || photocell_law(readings)) return;
  diagnostics.error(timer.cell_readings.back().place,
                    "the photocell's resistance must fall with the light, over two lights at least",
                    "read it in lamp light and in daylight indoors, 10 and 1000 lx say");
}

void check_plan(const TimerPlan& plan, Check& check, Diagnostics& diagnostics) {
  if (plan.speeds.size() > most_speeds) {
    diagnostics.error(
        plan.speeds[most_speeds].place,
        fmt::format("{} speeds; a switch has {} at most", plan.speeds.size(), most_speeds));
  }
  std::vector<Time> seen;
  for (const Stated<Time>& speed : plan.speeds) {
    check(speed.place, exactly(*speed));
    const auto same = [&](Time t) { return abs(t - *speed) < 1e-3 * *speed; };
    if (std::ranges::any_of(seen, same)) {
      diagnostics.error(speed.place, "this speed is asked for twice");
    }
    seen.push_back(*speed);
  }
  if (plan.stock.size() > most_stock) {
    diagnostics.error(plan.stock[most_stock].place,
                      fmt::format("{} values in stock; {} at most are looked through",
                                  plan.stock.size(), most_stock));
  }
  for (const StockedResistor& s : plan.stock) check(s.resistor.place, exactly(*s.resistor));
  if (plan.tolerance_percent && **plan.tolerance_percent > 50) {
    diagnostics.error(plan.tolerance_percent->place,
                      fmt::format("a tolerance of {:g} % is out of range; 0 to 50 % are taken",
                                  **plan.tolerance_percent));
  }
  if (plan.allowed_stops && (**plan.allowed_stops > 2 || **plan.allowed_stops < 0.01)) {
    diagnostics.error(
        plan.allowed_stops->place,
        fmt::format("{:g} stops are out of range; 0.01 to 2 are taken", **plan.allowed_stops));
  }
}

}  // namespace

void check_timer(const Camera& camera, const Plan& plan, Diagnostics& diagnostics) {
  Check check(diagnostics);
  if (const auto& timer = camera.shutter.timer) {
    if (*camera.shutter.timing != ShutterTiming::photocell) {
      diagnostics.add({Severity::warning,
                       timer->place,
                       "no photocell times this shutter, so what is said of its timer is not used",
                       "write timing = \"photocell\" under [shutter] if one does",
                       {}});
    }
    check(timer->fixed_time);
    check(timer->capacitance);
    check(timer->leakage);
    check(timer->supply);
    check(timer->supply_low);
    check(timer->current);
    check_threshold(*timer, diagnostics);
    check_leak(*timer, diagnostics);
    check_supply(*timer, diagnostics);
    check_trials(*timer, check, diagnostics);
    check_cell(*timer, check, diagnostics);
  } else if (plan.timer) {
    diagnostics.error(plan.timer->place, "the camera file says nothing of the shutter's timer",
                      "write [shutter.timer] and its trials into the camera file");
  }
  if (plan.timer) check_plan(*plan.timer, check, diagnostics);
  if (plan.timer && plan.timer->box && !plan.printer) {
    diagnostics.error(plan.timer->box->place, "a box to print needs the printer",
                      "add [printer] with its nozzle, layers, bed and clearance");
  }
}

}  // namespace backfit
