// SPDX-License-Identifier: MIT
// What a printed insert takes: its pieces by weight and price, and what is bought for it.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/report.hpp"

namespace backfit::paper {

// Printed solid, by the spool's density or else the material's; empty when neither is known.
std::optional<Mass> printed_mass_of(const Assembly& assembly, const Solid& solid);

struct NeededItem {
  std::string what;
  int count = 1;
  std::optional<double> price;
};

// The printed `pieces` of report.insert as one item, and rods, screws, felt, foam and filter with
// their sizes. Requires report.insert->can_be_made().
std::vector<NeededItem> needed_for_insert(const Report& report, const std::vector<Piece>& pieces);

}  // namespace backfit::paper
