// SPDX-License-Identifier: MIT
#include "documents/made_sets.hpp"

#include <fmt/format.h>

#include "conversion/cover_design.hpp"
#include "conversion/gauge_design.hpp"
#include "conversion/holder_design.hpp"
#include "conversion/lens_spacer_design.hpp"
#include "conversion/mask_design.hpp"
#include "conversion/pack_design.hpp"
#include "conversion/plate_design.hpp"
#include "conversion/ring_design.hpp"
#include "conversion/timer_box_design.hpp"
#include "documents/camera_bodies.hpp"
#include "documents/insert_set.hpp"
#include "parts/adapter_plate.hpp"
#include "parts/clearance_gauge.hpp"
#include "parts/meetings.hpp"

namespace backfit {
namespace {

constexpr Length meeting_reach = 1 * mm;  // farther apart nothing slides or presses

class Maker {
 public:
  explicit Maker(const Report& report) : r_(report), a_(report.assembly) {}

  std::vector<PieceSet> sets() && {
    add_carriers();
    if (!sets_.empty()) sets_.insert(sets_.begin(), gauge_set(usual_gauge()));
    const Plan& plan = a_.plan;
    if (plan.focus_gauge) add(focus_gauge(r_), room_of(*plan.focus_gauge->lies_on));
    if (plan.depth_gauge) {
      const bool on_seat = *plan.depth_gauge->lies_on == BridgeRest::seat;
      // A holder is measured off the camera.
      add(depth_gauge(r_), on_seat ? Around::seat : Around::none);
    }
    add(gate_mask(r_), Around::gate);
    if (const auto s = lens_spacer(r_); s && s->thickness() > Length{}) add(s, Around::lens_board);
    for (const AttachmentRing& ring : attachment_rings(r_)) add(std::optional(ring), Around::none);
    add(window_cover(r_.assembly), Around::none);
    add(blank_cover(r_), Around::seat);
    add_timer_box();
    return std::move(sets_);
  }

 private:
  void put(PieceSet set, Around room) {
    set.around = bodies_of(r_, room);
    // The camera's back is shut after all screws are in.
    for (std::size_t i = 0; i < set.around.size(); ++i) {
      if (set.around[i].name != closed_back) continue;
      for (SetScrew& screw : set.screws) screw.later.push_back(set.pieces.size() + i);
    }
    sets_.push_back(std::move(set));
  }

  template <class Part>
  void add(const std::optional<Part>& part, Around room) {
    if (part && faults(*part).empty()) put(set_of(*part), room);
  }
  template <class Part, class Pose>
  void add(const std::optional<Part>& part, const Pose& pose, Around room) {
    if (part && faults(*part).empty()) put(set_of(*part, pose), room);
  }

  static Around room_of(GaugeRest rest) {
    switch (rest) {
      case GaugeRest::rails:
        break;
      case GaugeRest::seat:
        return Around::seat;
      case GaugeRest::gate:
        return Around::gate;
    }
    return Around::none;
  }

  // What holds the film.
  void add_carriers() {
    if (r_.insert && r_.insert->can_be_made()) put(insert_set(r_), Around::chamber);
    if (a_.plate && a_.sheet_holder) add(a_.sheet_holder, pose_of_holder(a_), Around::back_plate);
    if (a_.glass_frame) add(a_.glass_frame, pose_of_holder(a_), Around::back_plate);
    if (a_.pack_holder) add(a_.pack_holder, pose_of_pack_holder(a_), Around::pack);
    add(a_.adapter, Around::seat);
  }

  void add_timer_box() {
    if (!r_.timer) return;
    const auto box = timer_box(a_, *r_.timer);
    if (!box) return;
    const Printer& printer = *a_.plan.printer;
    if (!faults(*box, smallest_wall(printer), *printer.nozzle).empty()) return;
    // Hung under the camera's gate, clear of every back.
    const Length below = -a_.camera.gate.height->value - box->height;
    put(set_of(*box, {{}, below, {}}), Around::none);
  }

  const Report& r_;
  const Assembly& a_;
  std::vector<PieceSet> sets_;
};

// The back plate where it sits. Its screws to the seat go in on the camera, before any holder;
// those of the fence on the bench.
PieceSet plate_on_seat(const Report& r, const Solid& plate) {
  const Assembly& a = r.assembly;
  const BackPlate& p = *a.plate;
  const Length seat = a.camera.seat->behind_film->value;
  PieceSet set{"back plate", {}, {}};
  set.pieces.push_back({"back plate", {translated(plate, {{}, {}, seat})}, plate, plate, {}});
  for (const PlatePoint& s : p.screws.places) {
    set.screws.push_back({"screw of the back plate",
                          {s.x, s.y, seat + p.thickness},
                          p.screws.head_diameter,
                          true,
                          true});
  }
  for (const PlatePoint& s : p.fence.places) {
    set.screws.push_back({"fence screw", {s.x, s.y, seat}, p.fence.head_diameter, false, false});
  }
  set.around = bodies_of(r, Around::seat);
  return set;
}

// Pieces that take up the same place don't go together, however sound each is.
void demand_room(const PieceSet& set) {
  for (const PieceMeeting& m : set.meetings) {
    if (m.second < set.pieces.size() && m.common > negligible) {
      throw SolidFailure(fmt::format("of the {}, {} and {} run into each other", set.name,
                                     set.pieces[m.first].name, set.pieces[m.second].name));
    }
  }
}

}  // namespace

std::vector<PieceSet> sets_of(const Report& r) { return Maker(r).sets(); }

MadeParts made_parts(const Report& r) {
  MadeParts parts;
  if (r.assembly.plate) {
    parts.plate = solid_of(*r.assembly.plate);
    parts.plate_set = plate_on_seat(r, *parts.plate);
    parts.plate_set->meetings = meetings_of(*parts.plate_set, meeting_reach);
  }
  parts.sets = sets_of(r);
  for (PieceSet& set : parts.sets) {
    set.meetings = meetings_of(set, meeting_reach);
    demand_room(set);
  }
  return parts;
}

}  // namespace backfit
