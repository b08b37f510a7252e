// SPDX-License-Identifier: MIT
#include "documents/made_sets.hpp"

#include "conversion/cover_design.hpp"
#include "conversion/gauge_design.hpp"
#include "conversion/lens_spacer_design.hpp"
#include "conversion/mask_design.hpp"
#include "conversion/plate_design.hpp"
#include "conversion/ring_design.hpp"
#include "conversion/timer_box_design.hpp"

namespace backfit {
namespace {

template <class Part>
void add(std::vector<PieceSet>& sets, const std::optional<Part>& part) {
  if (part && faults(*part).empty()) sets.push_back(set_of(*part));
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
