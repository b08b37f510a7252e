// SPDX-License-Identifier: MIT
#include "documents/made_sets.hpp"

#include "documents/insert_set.hpp"
#include "parts/adapter_plate.hpp"
#include "parts/clearance_gauge.hpp"

namespace backfit {

std::vector<PieceSet> sets_of(const Report& report) {
  std::vector<PieceSet> sets;
  if (report.insert && report.insert->can_be_made()) sets.push_back(insert_set(report));
  if (const auto& adapter = report.assembly.adapter; adapter && faults(*adapter).empty()) {
    sets.push_back(set_of(*adapter));
  }
  if (!sets.empty()) sets.insert(sets.begin(), gauge_set(usual_gauge()));
  return sets;
}

}  // namespace backfit
