// SPDX-License-Identifier: MIT
#include "documents/made_sets.hpp"

#include "conversion/cover_design.hpp"
#include "conversion/gauge_design.hpp"
#include "conversion/holder_design.hpp"
#include "conversion/lens_spacer_design.hpp"
#include "conversion/mask_design.hpp"
#include "conversion/pack_design.hpp"
#include "conversion/plate_design.hpp"
#include "conversion/ring_design.hpp"
#include "conversion/timer_box_design.hpp"
#include "documents/insert_set.hpp"
#include "parts/adapter_plate.hpp"
#include "parts/clearance_gauge.hpp"

namespace backfit {
namespace {

template <class Part>
void add(std::vector<PieceSet>& sets, const std::optional<Part>& part) {
  if (part && faults(*part).empty()) sets.push_back(set_of(*part));
}

// What holds the film, after the gauge that tells the printer's clearance.
void add_carriers(std::vector<PieceSet>& sets, const Report& r) {
  const Assembly& a = r.assembly;
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
  if (a.adapter && faults(*a.adapter).empty()) sets.push_back(set_of(*a.adapter));
  if (!sets.empty()) sets.insert(sets.begin(), gauge_set(usual_gauge()));
}

void add_timer_box(std::vector<PieceSet>& sets, const Report& r) {
  if (!r.timer) return;
  const auto box = timer_box(r.assembly, *r.timer);
  if (!box) return;
  const Printer& printer = *r.assembly.plan.printer;
  if (!faults(*box, smallest_wall(printer), *printer.nozzle).empty()) return;
  // Hung under the camera's gate, clear of every back.
  const Length below = -r.assembly.camera.gate.height->value - box->height;
  sets.push_back(set_of(*box, {{}, below, {}}));
}

}  // namespace

std::vector<PieceSet> sets_of(const Report& r) {
  std::vector<PieceSet> sets;
  add_carriers(sets, r);
  add(sets, focus_gauge(r));
  add(sets, depth_gauge(r));
  add(sets, gate_mask(r));
  if (const auto s = lens_spacer(r); s && s->thickness() > Length{}) add(sets, s);
  for (const AttachmentRing& ring : attachment_rings(r)) add(sets, std::optional(ring));
  add(sets, window_cover(r));
  add(sets, blank_cover(r));
  add_timer_box(sets, r);
  return sets;
}

}  // namespace backfit
