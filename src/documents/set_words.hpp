// SPDX-License-Identifier: MIT
// What is said of a set's pieces on every paper: names of files, mass, time to print.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/report.hpp"
#include "parts/piece.hpp"

namespace backfit::paper {

// "parts/sheet-holder-dark-slide", without an ending.
std::string file_of(const PieceSet& set, const Piece& piece);

// Printed solid, by the spool's density or else the material's; empty when neither is known.
std::optional<Mass> printed_mass_of(const Assembly& assembly, const Solid& solid);

// How long the nozzle takes to lay down `volume`: its width times the layer's height times
// 40 mm/s on average. Common practice for small parts with their turns; no machine keeps its top
// speed, and a factor of two either way is usual. Requires a printer in the plan.
Time printing_time(const Printer& printer, Volume volume);
// "25 min", "1 h 40 min": rounded to what such a guess is worth.
std::string duration(Time time);

struct NeededItem {
  std::string what;
  int count = 1;
  std::optional<double> price;
};
// Its printed pieces as one item, then the sheet that others are cut from, then what is bought.
// Requires a printer in the plan.
std::vector<NeededItem> needed_for(const PieceSet& set, const Assembly& assembly);

}  // namespace backfit::paper
