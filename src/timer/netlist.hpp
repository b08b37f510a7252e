// SPDX-License-Identifier: MIT
// The timing circuit as a netlist for circuit simulators, and what one makes of it.
#pragma once
#include <optional>
#include <string>

#include "timer/resistors.hpp"

namespace backfit {

// A circuit to simulate: all resistors of a switch wired as they will be, the contact closed at one
// position, and the shutter's capacitor, empty, that fills through them from the supply.
struct TimingCircuit {
  ResistorSwitch design;
  std::size_t position = 0;  // into design.positions; that one has parts
  TimerLaw law;              // its fixed time is the mechanism's, and no part of the circuit
  Voltage supply = 1 * volt;
};

// A SPICE netlist that runs in any simulator of that family and measures `closing`, when the
// capacitor's voltage has reached the threshold. Parts that several positions share stand in it
// once. The capacitance is per_ohm / ln(1/(1-k)). The run is cut off at `until`, in steps of at
// most a thousandth of it.
std::string netlist_of(const TimingCircuit& circuit, Time until);

// What the simulator found: when the threshold was reached, or why there is no answer, in a
// sentence without a full stop.
struct Simulated {
  std::optional<Time> closing;
  std::string fault;
};

// Runs a netlist that measures `closing` in the circuit-simulation library, in this process. One
// at a time: the library has one circuit. A netlist that it can't use, a run that fails and a
// threshold that isn't reached are faults, never exceptions; after a failure that the library calls
// fatal it isn't called again.
Simulated simulated(const std::string& netlist);

// The same for a circuit, cut off at 1.5 times the law's own answer.
Simulated simulated(const TimingCircuit& circuit);

}  // namespace backfit
