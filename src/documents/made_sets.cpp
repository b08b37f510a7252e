// SPDX-License-Identifier: MIT
#include "documents/made_sets.hpp"

#include "conversion/holder_design.hpp"
#include "conversion/pack_design.hpp"
#include "documents/insert_set.hpp"
#include "parts/clearance_gauge.hpp"

namespace backfit {

std::vector<PieceSet> sets_of(const Report& r) {
  const Assembly& a = r.assembly;
  std::vector<PieceSet> sets;
  if (r.insert && r.insert->can_be_made()) sets.push_back(insert_set(r));
  if (a.sheet_holder && a.plate && faults(*a.sheet_holder).empty()) {
    sets.push_back(set_of(*a.sheet_holder, pose_of_holder(a)));
  }
  if (a.glass_frame && faults(*a.glass_frame).empty()) {
    sets.push_back(set_of(*a.glass_frame, pose_of_holder(a)));
  }
  if (a.pack_holder && faults(*a.pack_holder).empty()) {
    sets.push_back(set_of(*a.pack_holder, pose_of_pack_holder(a)));
  }
  if (!sets.empty()) sets.insert(sets.begin(), gauge_set(usual_gauge()));
  return sets;
}

}  // namespace backfit
