// SPDX-License-Identifier: MIT
#include "documents/carriers_json.hpp"

#include "conversion/adapter_design.hpp"
#include "conversion/strap_design.hpp"

namespace backfit::json {
namespace {

std::string side_of(CameraWall wall) {
  for (const auto& [name, value] : choices_of<CameraWall>()) {
    if (value == wall) return std::string(name);
  }
  return {};
}

Json adapter_of(const Report& r) {
  const AdapterPlate& p = *r.assembly.adapter;
  const MountingStudy s = study_mounting(r);
  Json j{{"can_be_made", faults(p).empty()},
         {"thickness_mm", mm_of(p.thickness)},
         {"film_behind_seat_mm", mm_of(s.film_behind_seat)},
         {"picture_leaves", side_of(s.picture_leaves)},
         {"border_at", side_of(s.border)},
         {"meets", Json::array()}};
  for (const BackMeets& met : s.meets) {
    j["meets"].push_back(
        {{"what", *met.neighbour->name},
         {"by_picture", met.by_picture},
         {"by_mm", mm_of(met.by)},
         {"towards", met.by_picture ? Json(nullptr) : Json(side_of(met.towards))}});
  }
  return j;
}

Json insert_of(const InsertStudy& s) {
  const RollInsert& i = *s.part;
  Json j{{"can_be_made", s.can_be_made()},
         {"length_mm", mm_of(2 * i.half_length())},
         {"width_mm", mm_of(2 * i.half_width())},
         {"depth_mm", mm_of(i.lid_top() - i.gate.front)},
         {"gap_mm", mm_of(i.gap)},
         {"taken_out", Json::array()},
         {"notched", Json::array()},
         {"knob_hole", nullptr}};
  for (const ChamberMeeting& m : s.meetings) j[m.taken_out ? "taken_out" : "notched"] += m.name;
  if (s.hole) {
    j["knob_hole"] = {{"x_mm", mm_of(s.hole->middle.x)},
                      {"y_mm", mm_of(s.hole->middle.y)},
                      {"z_mm", mm_of(s.hole->middle.z)},
                      {"diameter_mm", mm_of(s.hole->diameter)}};
  }
  return j;
}

Json holder_of(const Assembly& a) {
  const SheetHolder& h = *a.sheet_holder;
  return {{"can_be_made", faults(h).empty()},
          {"asked_depth_mm", mm_of(a.asked_depth->value)},
          {"depth_mm", mm_of(h.depth())},
          {"depth_mm_u", mm_of(a.holder->depth.value->standard_uncertainty())},
          {"sheet_slot_mm", mm_of(h.film_slot)},
          {"width_mm", mm_of(h.width)},
          {"length_mm", mm_of(h.top + h.bottom)},
          {"thickness_mm", mm_of(h.thickness())},
          {"slide_travel_mm", mm_of(h.travel())},
          {"rib_from_centre_mm", mm_of(h.rib.from_middle)}};
}

Json straps_of(const Assembly& a) {
  const StrapLugs& lugs = *a.plate->lugs;
  Json j{{"count", lugs.at.size()}, {"lug_out_mm", mm_of(lugs.out())}, {"ring_mm", nullptr}};
  if (const auto way = strap_way(a)) {
    j["ring_mm"] = mm_of(way->ring);
    j["ring_least_mm"] = mm_of(way->least);
    j["ring_most_mm"] = mm_of(way->most);
    j["press_over_strand"] = rounded(way->press_factor, 3);
  }
  return j;
}

Json pack_holder_of(const Assembly& a) {
  const PackHolder& h = *a.pack_holder;
  return {{"can_be_made", faults(h).empty()},
          {"dark_slide", h.slide.has_value()},
          {"lips_mm", mm_of(a.lips->depth.value)},
          {"lips_mm_u", mm_of(a.lips->depth.standard_uncertainty())},
          {"sheet_slot_mm", mm_of(h.sheet_slot)},
          {"thickness_mm", mm_of(h.thickness())},
          {"width_mm", mm_of(h.width)},
          {"length_mm", mm_of(h.length)}};
}

}  // namespace

void add_carriers(Json& j, const Report& r) {
  const Assembly& a = r.assembly;
  if (a.adapter) j["adapter"] = adapter_of(r);
  if (r.insert && r.insert->part) j["insert"] = insert_of(*r.insert);
  if (a.plate && a.plate->lugs) j["straps"] = straps_of(a);
  if (a.sheet_holder) j["holder"] = holder_of(a);
  if (a.glass_frame) {
    j["glass_frame"] = {{"can_be_made", faults(*a.glass_frame).empty()},
                        {"depth_mm", mm_of(a.glass_frame->depth)},
                        {"width_mm", mm_of(a.glass_frame->width)},
                        {"length_mm", mm_of(a.glass_frame->top + a.glass_frame->bottom)}};
  }
  if (a.pack_holder) j["pack_holder"] = pack_holder_of(a);
}

}  // namespace backfit::json
