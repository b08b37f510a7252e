// SPDX-License-Identifier: MIT
#include "documents/extras_json.hpp"

#include "conversion/cover_design.hpp"
#include "conversion/gauge_design.hpp"
#include "conversion/lens_spacer_design.hpp"
#include "conversion/mask_design.hpp"
#include "conversion/ring_design.hpp"

namespace backfit::json {
namespace {

Json focus_gauge_of(const Report& r, const FocusGauge& g) {
  return {{"can_be_made", faults(g).empty()},
          {"width_mm", mm_of(g.width)},
          {"height_mm", mm_of(g.height)},
          {"rest_z_mm", mm_of(g.rest)},
          {"film_z_mm", mm_of(g.film)},
          {"ledge_z_mm", mm_of(g.ledge)},
          {"glass_width_mm", mm_of(g.glass_width)},
          {"glass_height_mm", mm_of(g.glass_height)},
          {"glass_thickness_mm", mm_of(g.glass_thickness)},
          {"packing_mm", mm_of(g.packing())},
          {"plane_mm_u", mm_of(plane_doubt(r, g))}};
}

Json depth_gauge_of(const DepthGauge& g) {
  Json j{{"can_be_made", faults(g).empty()},
         {"length_mm", mm_of(g.length)},
         {"thickness_mm", mm_of(g.thickness)},
         {"readings", Json::array()}};
  for (const DepthReading& reading : g.readings) {
    j["readings"].push_back({{"face", reading.face}, {"reading_mm", mm_of(reading.reading)}});
  }
  return j;
}

Json gate_mask_of(const GateMask& m) {
  return {{"can_be_made", faults(m).empty()},
          {"opening_width_mm", mm_of(m.opening_width)},
          {"opening_height_mm", mm_of(m.opening_height)},
          {"picture_width_mm", mm_of(m.picture_width)},
          {"picture_height_mm", mm_of(m.picture_height)},
          {"soft_edge_mm", mm_of(m.soft)}};
}

Json lens_spacer_of(const Report& r) {
  Json j{
      {"forward_mm", mm_of(lens_forward(r))}, {"printed_mm", nullptr}, {"shims_mm", Json::array()}};
  if (const auto s = lens_spacer(r)) {
    j["printed_mm"] = mm_of(s->printed);
    for (const Length shim : s->shims) j["shims_mm"].push_back(mm_of(shim));
    if (!s->shims.empty()) j["shim_sheet"] = s->shim_sheet;
    j["left_mm"] = mm_of(s->wanted - s->thickness());
    j["left_mm_u"] = mm_of(s->doubt());
  }
  return j;
}

}  // namespace

Json extras_of(const Report& r) {
  Json j = Json::object();
  if (const auto g = focus_gauge(r)) j["focus_gauge"] = focus_gauge_of(r, *g);
  if (const auto g = depth_gauge(r)) j["depth_gauge"] = depth_gauge_of(*g);
  if (const auto m = gate_mask(r)) j["gate_mask"] = gate_mask_of(*m);
  if (r.assembly.plan.lens_spacer) j["lens_spacer"] = lens_spacer_of(r);
  for (const AttachmentRing& ring : attachment_rings(r)) {
    j["attachment_rings"].push_back({{"name", ring.name},
                                     {"can_be_made", faults(ring).empty()},
                                     {"opening_mm", mm_of(ring.opening())}});
  }
  if (const auto c = window_cover(r.assembly)) {
    j["window_cover"] = {{"can_be_made", faults(*c).empty()},
                         {"width_mm", mm_of(2 * c->half_width())},
                         {"length_mm", mm_of(c->high() - c->low())},
                         {"height_mm", mm_of(c->height() + c->grip)}};
  }
  if (const auto c = blank_cover(r)) {
    j["blank_cover"] = {{"can_be_made", faults(*c).empty()}, {"thickness_mm", mm_of(c->thickness)}};
  }
  return j;
}

}  // namespace backfit::json
