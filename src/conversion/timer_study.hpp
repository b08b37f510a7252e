// SPDX-License-Identifier: MIT
// The shutter timed by hand: its law from the trials, a switch with resistors, and how far off each
// speed may be.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/assembly.hpp"
#include "conversion/finding.hpp"
#include "timer/fit.hpp"
#include "timer/netlist.hpp"
#include "timer/photocell.hpp"
#include "timer/spread.hpp"

namespace backfit {

// Why a speed is not on the switch.
enum class Lack { none, too_fast, too_slow, no_part };

struct TimerSpeed {
  Time marked, meant;
  Lack lack = Lack::none;
  std::string why;  // in a sentence without a full stop, when there is a lack
  // The rest where there is none.
  std::size_t position = 0;  // in TimerStudy::design
  SpeedSpread spread;
  std::optional<Stops> by_leak;        // what the leak adds; it is in the time already
  std::optional<Stops> by_low_supply;  // at the lowest supply, if the threshold is fixed
  std::optional<Stops> by_cold;        // by the sag of cells at -10 degrees Celsius, likewise
  std::optional<Trimmer> trimmer;      // where the yield is poor
  std::optional<Simulated> simulated;  // the time its circuit takes, without the fixed one
};

struct TimerStudy {
  std::optional<TimerFit> fit;  // empty: too little is known, and so is everything below
  SwitchWiring wiring = SwitchWiring::one_each;
  ResistorSeries series = ResistorSeries::e24;
  bool from_stock = false;
  double tolerance = 0;  // of the resistors, a fraction
  Stops allowed;
  std::vector<TimerSpeed> speeds;  // as asked, fastest first
  ResistorSwitch design;           // one position for each speed without a lack
  double odds_all = 0;             // that every position is within what is allowed
  std::optional<TrialAdvice> advice;
  std::optional<Time> slowest;  // beyond it the leak times the shutter
  std::optional<PhotocellLaw> cell;
};

// What is wrong with the numbers on the timer in both files, as errors.
void check_timer(const Camera& camera, const Plan& plan, Diagnostics& diagnostics);

// Law, switch and spread. Empty unless a photocell times the shutter and
// the camera file says something of that timer. Requires check_timer() without errors.
std::optional<TimerStudy> study_timer(const Assembly& assembly);

// Simulates the circuit of every position that can be had.
void simulate_circuits(TimerStudy& study);

// The circuit of one position as it is simulated. Requires study.fit.
TimingCircuit circuit_of(const TimerStudy& study, std::size_t position);

// The trial that the law can be compared with worst: its difference over its uncertainty is
// greatest. Null without trials.
const TrialResidual* worst_trial(const TimerFit& fit);

// Findings on the timer, for check, make and timer alike.
void find_timer(const Assembly& assembly, const TimerStudy& study, std::vector<Finding>& out);

}  // namespace backfit
