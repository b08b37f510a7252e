// SPDX-License-Identifier: MIT
// Resistors for a list of speeds, out of a stock: one a speed, one or two a speed, or one chain
// with a tap a speed.
#pragma once
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "timer/model.hpp"

namespace backfit {

// Resistors of one value at hand.
struct StockItem {
  Resistance value;
  int count = std::numeric_limits<int>::max();
};

enum class Joint { series, parallel };

// A position of the switch: the parts that its contact puts into the shutter's circuit.
struct SwitchPosition {
  Time wanted;
  Joint joint = Joint::series;
  std::vector<std::size_t> parts;  // places in ResistorSwitch::parts
};

// A switch with its resistors. Positions of a chain share parts.
struct ResistorSwitch {
  std::vector<Resistance> parts;
  std::vector<SwitchPosition> positions;
};

// The position's resistance if its parts have `values`: their sum, or 1 over the sum of 1/value.
Resistance total_of(const SwitchPosition& position, std::span<const Resistance> values);

// For each wanted time the part that comes nearest in stops, or the two parts where they come
// nearer by more than `worth_a_part` (never, if empty). In the order of `wanted`, each from what
// the ones before have left. A time that no resistor of this law gives, and a time for which
// nothing is left, gets a position without parts. Requires a stock in rising order without repeats,
// times > 0.
ResistorSwitch resistors_each(const TimerLaw& law, std::span<const Time> wanted,
                              std::span<const StockItem> stock,
                              std::optional<Stops> worth_a_part = std::nullopt);

// One chain for all: the first link gives the fastest speed, each further link the next. Of all
// chains the one whose worst error in stops is least and, among those, the one with the least sum
// of squares; both to a hundredth of that worst error or 1e-4 stop. Where counts of the stock are
// limited, a good one that keeps to them. Empty when no chain is within two stops everywhere.
// Requires wanted times that rise and that the law can give, a stock in rising order.
std::optional<ResistorSwitch> resistor_chain(const TimerLaw& law, std::span<const Time> wanted,
                                             std::span<const StockItem> stock);

}  // namespace backfit
