// SPDX-License-Identifier: MIT
// A shutter's law from trial resistors and measured times, from what is known of its circuit, or
// from both, and how sure it is. Derivation: docs/derivations/timer.md.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "quantity/estimate.hpp"
#include "timer/model.hpp"

namespace backfit {

// A resistor put in the cell's place, and each open time measured with it.
struct Trial {
  Measured<Resistance> resistor;
  std::vector<Measured<Time>> times;
};

// What is known of the circuit beforehand; each may be missing.
struct TimerKnowledge {
  std::optional<Measured<Time>> fixed;
  std::optional<Measured<Capacitance>> capacitance;
  std::optional<Measured<double>> threshold;    // counts for nothing without a capacitance or leak
  std::optional<Measured<Resistance>> leakage;  // counts only with a threshold
};

// How one trial's mean time compares with the law.
struct TrialResidual {
  Resistance resistor;
  Time mean, by_law;
  Time standard_uncertainty;  // of the mean, with what the resistor's own adds
};

// More disagreement than the uncertainties allow? `probability` is the chance of this much or more
// if the law and the uncertainties hold.
struct LackOfFit {
  double chi_square = 0;
  int degrees_of_freedom = 0;
  double probability = 1;
};

struct TimerFit {
  TimerLaw law;
  Time fixed_u;
  Capacitance per_ohm_u;
  double correlation = 0;  // of fixed and per_ohm
  // Of these uncertainties: infinite when they come from the stated ± alone.
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  std::vector<TrialResidual> residuals;
  // Spread of repeated times over what their ± allow, and how many repeats tell it. Above 1 it
  // widens all of them.
  double repeat_spread = 1;
  int repeats = 0;
  std::optional<LackOfFit> lack_of_fit;  // needs more than two facts
  bool widened = false;  // lack of fit below 5 %: the uncertainties are widened until it is usual
  TimerKnowledge known;
  bool by_circuit_alone = false;  // there were no trials
};

// Weighted least squares of time = fixed + per_ohm counting_resistance over the means of the
// trials, weights 1/u^2 with u^2 = u_time^2 / n + (per_ohm u_resistor)^2, where what is known of
// `fixed` and of C ln(1/(1-k)) counts as one more fact each. Empty when the facts don't determine
// both, or give a per_ohm <= 0. Requires times and uncertainties > 0.
std::optional<TimerFit> fitted(std::span<const Trial> trials, const TimerKnowledge& known);

// The law's standard uncertainty at one resistor: that of open_time, the resistor taken as exact
// and the leak as known. Requires a resistor at which the shutter closes.
Time law_uncertainty(const TimerFit& fit, Resistance resistor);

// The same law as measured inputs that are independent of each other: by the circuit alone what is
// known of it, each evenly within its ±; else the time at the resistor where it is known best and
// the time per ohm. Threshold and leak in both.
struct TimerInputs {
  Inputs all;
  InputRef<Time> pivot_time;
  InputRef<Capacitance> per_ohm;  // by the circuit alone: the capacitance
  InputRef<double> threshold;
  std::optional<InputRef<Resistance>> leakage;
  Resistance pivot;
  bool by_circuit_alone = false;

  TimerLaw law(const Draw& at) const;
};
TimerInputs inputs_of(const TimerFit& fit);

// The one further trial that helps most: the resistor among `candidates` that, measured `per_time`
// of its time well, leaves the least doubt at the worst of `wanted`, and that doubt before and
// after (one standard uncertainty). Empty without candidates that close the shutter. Requires
// wanted times > 0 that the law can give, per_time > 0.
struct TrialAdvice {
  Resistance resistor;
  Time expected;
  Stops before, after;
};
std::optional<TrialAdvice> best_next_trial(const TimerFit& fit, std::span<const Time> wanted,
                                           std::span<const Resistance> candidates, double per_time);

}  // namespace backfit
