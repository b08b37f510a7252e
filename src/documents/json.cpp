// SPDX-License-Identifier: MIT
#include "documents/json.hpp"

#include "documents/carriers_json.hpp"
#include "documents/extras_json.hpp"
#include "documents/json_numbers.hpp"
#include "documents/light_json.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

using namespace json;

void put(Json& j, const std::string& key, const Estimate<Length>& e) {
  j[key + "_mm"] = mm_of(e.value);
  j[key + "_mm_u"] = mm_of(e.standard_uncertainty);
}

void put(Json& j, const std::string& key, const std::optional<Estimate<Length>>& e) {
  if (e) return put(j, key, *e);
  j[key + "_mm"] = nullptr;
}

void put(Json& j, const std::string& key, const FrameSize& size) {
  j[key + "_width_mm"] = mm_of(size.width);
  j[key + "_height_mm"] = mm_of(size.height);
}

Json budget_of(const std::vector<Contribution>& budget) {
  Json list = Json::array();
  for (const Contribution& c : budget) {
    if (!(c.share > 0)) continue;
    list.push_back({{"input", c.name},
                    {"contribution_mm", mm_of(Length::of_base(c.contribution))},
                    {"share", share_of(c.share)}});
  }
  return list;
}

Json place_of(const Place& place) {
  if (!place) return nullptr;
  return {{"file", place.source->path().string()},
          {"line", place.line},
          {"column", place.column},
          {"length", place.length}};
}

Json register_of(const RegisterStudy& s) {
  Json j;
  put(j, "set_back", s.set_back);
  j["set_back_budget"] = budget_of(s.set_back.budget);
  put(j, "spare_room", s.spare_room);
  j["odds_infinity"] = share_of(s.odds_infinity);
  if (s.give > 0 * mm) j["give_mm"] = mm_of(s.give);
  j["standard_moves_mm"] = mm_of(s.standard_moves);
  j["farthest_focus_mm"] = mm_of(s.farthest_focus);
  j["nearest_focus_mm"] = mm_of(s.nearest_focus);
  j["marks"] = Json::array();
  for (const RegisterStudy::Mark& m : s.marks) {
    Json k{{"engraved_mm", mm_of(m.engraved)}};
    put(k, "from_new_stop", m.from_new_stop);
    k["uncorrected_focus_mm"] = mm_of(m.uncorrected);
    j["marks"].push_back(k);
  }
  return j;
}

Json focus_of(const FocusStudy& s) {
  Json j{{"f_number", s.aperture.value}, {"depth_of_focus_mm", mm_of(s.depth_of_focus)}};
  put(j, "plane_error", s.plane_error);
  j["plane_error_budget"] = budget_of(s.plane_error.budget);
  j["odds_sharp"] = share_of(s.odds_sharp);
  j["holds_at_f_number"] = s.holds_at ? Json(s.holds_at->value) : Json(nullptr);
  if (s.shared_bulge) {
    j["bulge_shared"] = {{"stop_forward_mm", mm_of(s.shared_bulge->forward)},
                         {"odds_sharp", share_of(s.shared_bulge->odds_sharp)}};
  }
  if (s.glass) {
    Json& glass = j["ground_glass"];
    put(glass, "error", s.glass->error);
    glass["error_budget"] = budget_of(s.glass->error.budget);
    glass["error_by_turning_mm"] = mm_of(s.glass->by_turning);
    glass["odds_sharp"] = share_of(s.glass->odds_sharp);
    glass["right_depth_mm"] = mm_of(s.glass->right_depth);
  }
  return j;
}

Json depth_of_field_of(const DepthOfFieldStudy& s) {
  Json j{{"circle_mm", mm_of(s.circle)}, {"stops", Json::array()}};
  for (std::size_t i = 0; i < s.apertures.size(); ++i) {
    Json stop{{"f_number", s.apertures[i].value},
              {"hyperfocal_mm", mm_of(s.hyperfocal[i])},
              {"subjects", Json::array()}};
    for (const DepthOfFieldStudy::Row& row : s.rows) {
      stop["subjects"].push_back({{"subject_mm", mm_of(row.subject)},
                                  {"near_mm", mm_of(row.ranges[i].near)},
                                  {"far_mm", mm_of(row.ranges[i].far)}});
    }
    j["stops"].push_back(stop);
  }
  return j;
}

Json finder_of(const FinderStudy& s) {
  Json j{{"late_mm", mm_of(s.late)}, {"pose_mm", mm_of(s.pose)}, {"uncorrected", Json::array()}};
  for (const FinderStudy::Check& c : s.checks) {
    j["uncorrected"].push_back({{"subject_mm", mm_of(c.subject)},
                                {"finder_reads_mm", mm_of(c.reads)},
                                {"lens_focuses_mm", mm_of(c.focuses)}});
  }
  if (s.base) {
    j["misalignment_on_film_mm"] = mm_of(s.base->film_error);
    j["base_needed_mm"] = mm_of(s.base->needed);
    j["base_there_mm"] = mm_of(s.base->there);
  }
  return j;
}

Json stop_of(const StopStudy& s) {
  Json j;
  put(j, "error", s.error);
  j["error_budget"] = budget_of(s.error.budget);
  j["shims_mm"] = Json::array();
  for (const Length shim : s.stack.shims) j["shims_mm"].push_back(mm_of(shim));
  j["left_mm"] = mm_of(s.stack.left);
  return j;
}

Json frame_of(const FrameStudy& s) {
  Json j;
  put(j, "window", s.window);
  put(j, "picture_width", s.picture_width);
  put(j, "picture_height", s.picture_height);
  put(j, "without_shadow", s.whole);
  j["limited_by"] = s.limited_by.empty() ? Json(nullptr) : Json(s.limited_by);
  j["screens"] = Json::array();
  for (const FrameStudy::Screen& screen : s.screens) {
    Json k{{"name", screen.name}};
    put(k, "without_shadow", screen.whole);
    put(k, "half_lit", screen.half);
    j["screens"].push_back(k);
  }
  put(j, "clearing_set_back", s.clearing_set_back);
  j["farthest_focus_if_clear_mm"] = mm_of(s.farthest_focus_if_clear);
  put(j, "gate_to_open", s.gate_to_open);
  j["loss"] = Json::array();
  for (const FrameStudy::Loss& l : s.losses) {
    j["loss"].push_back({{"where", l.where},
                         {"x_mm", mm_of(l.x)},
                         {"y_mm", mm_of(l.y)},
                         {"loss_stops", stops_of(l.lost)}});
  }
  return j;
}

Json circle_of(const CircleStudy& s) {
  Json j{{"grade", name_of(s.grade)}};
  put(j, "circle", s.circle);
  j["needed_mm"] = mm_of(s.needed);
  j["odds_covered"] = share_of(s.odds_covered);
  put(j, "covered", s.covered);
  return j;
}

Json contrast_of(const PrintStudy& s) {
  Json list = Json::array();
  for (std::size_t i = 0; i < s.places.size(); ++i) {
    const auto& light = s.traced->points[i].light;
    Json k{{"where", s.places[i]}, {"lit", light.has_value()}, {"film_off", Json::array()}};
    for (std::size_t shift = 0; light && shift < s.traced->shifts.size(); ++shift) {
      const auto& c = s.traced->at(light->by_waves, shift, 0);
      k["film_off"].push_back({{"film_shift_mm", mm_of(s.traced->shifts[shift])},
                               {"sagittal", share_of(c.sagittal)},
                               {"tangential", share_of(c.tangential)}});
    }
    list.push_back(k);
  }
  return list;
}

Json print_of(const PrintStudy& s) {
  const auto put_print = [](Json& j, const PrintStudy::Print& print) {
    j["enlargement"] = share_of(print.enlargement);
    put(j, "print", print.size);
  };
  Json j{{"viewing_mm", mm_of(s.viewing)}, {"circle_mm", mm_of(s.circle)}};
  put_print(j, s.by_circle);
  j["plane_error_95_mm"] = mm_of(s.plane_error);
  j["sharpest_f_number"] = rounded(s.sharpest.value, 1);
  j["stops"] = Json::array();
  for (const PrintStudy::Row& row : s.rows) {
    Json k{{"f_number", row.aperture.value}, {"blur_mm", mm_of(row.blur)}};
    put_print(k, row.print);
    j["stops"].push_back(k);
  }
  j["line_pairs_per_mm"] = s.traced ? rounded(1 / s.circle / lp_per_mm, 4) : Json(nullptr);
  j["best_flat_film_mm"] = s.traced ? mm_of(s.flat_film_from_middle) : Json(nullptr);
  j["contrast"] = s.traced ? contrast_of(s) : Json(nullptr);
  return j;
}

Json spools_of(const SpoolStudy& s) {
  Json j;
  put(j, "spare_length", s.spare_length);
  put(j, "spare_diameter", s.spare_diameter);
  j["odds_fit"] = share_of(s.odds_fit);
  return j;
}

Json accessory_of(const AccessoryStudy& s) {
  Json j{{"name", s.name}};
  put(j, "focal", s.focal);
  j["diagonal_angle_deg"] = rounded(s.angle / deg, 2);
  j["marks"] = Json::array();
  for (const AccessoryStudy::Mark& m : s.marks) {
    j["marks"].push_back({{"set_mm", mm_of(m.set)},
                          {"focuses_mm", mm_of(m.focuses)},
                          {"magnification", share_of(m.magnification)}});
  }
  return j;
}

Json finding_of(const Finding& f) {
  return {{"id", f.id},
          {"severity", name_of(f.weight)},
          {"place", place_of(f.place)},
          {"text", f.text},
          {"limit", f.limit.empty() ? Json(nullptr) : Json(f.limit)},
          {"remedies", f.remedies}};
}

// A cited number under `key`, which bears the unit; 1 of the unit is `unit`.
template <class Q>
void put_cited(Json& j, const std::string& key, const Cited<Measured<Q>>& cited, Q unit) {
  const Measured<Q>& m = *cited.value;
  j[key] = rounded(m.value / unit, 4);
  j[key + "_u"] = rounded(m.standard_uncertainty() / unit, 4);
  j[key + "_source"] = *cited.source;
  j[key + "_from_memory"] = cited.doubtful();
}
template <class Q>
void put_cited(Json& j, const std::string& key, const std::optional<Cited<Measured<Q>>>& cited,
               Q unit) {
  if (cited) put_cited(j, key, *cited, unit);
}

std::string ended(const Json& json) { return json.dump(2) + "\n"; }

}  // namespace

std::string report_json(const Report& r) {
  const Assembly& a = r.assembly;
  Json j{{"schema", "backfit.report/1"},
         {"camera", *a.camera.name},
         {"film", *a.film.id},
         {"method", name_of(a.method())},
         {"verdict", name_of(r.verdict)}};
  j["register"] = register_of(r.register_);
  j["focus"] = focus_of(r.focus);
  j["depth_of_field"] = depth_of_field_of(r.depth_of_field);
  j["rangefinder"] = r.finder ? finder_of(*r.finder) : Json(nullptr);
  j["stop_test"] = r.stop ? stop_of(*r.stop) : Json(nullptr);
  j["frame"] = frame_of(r.frame);
  j["coverage"] = circle_of(r.circle);
  j["print"] = print_of(r.print);
  j["accessories"] = Json::array();
  for (const AccessoryStudy& s : r.accessories) j["accessories"].push_back(accessory_of(s));
  j["spools"] = r.spools ? spools_of(*r.spools) : Json(nullptr);
  add_carriers(j, r);
  if (r.light || !r.light_skipped.empty()) {
    j["light"] = r.light ? light_object(*r.light) : Json(nullptr);
    j["light_skipped"] = r.light ? Json(nullptr) : Json(r.light_skipped);
  }
  if (const Json extras = extras_of(r); !extras.empty()) j["extras"] = extras;
  j["handedness"] = {{"laterally_reversed", r.hand.reversed}};
  j["findings"] = Json::array();
  for (const Finding& f : r.findings) j["findings"].push_back(finding_of(f));
  return ended(j);
}

std::string films_json(const Catalogue& catalogue) {
  Json j{{"schema", "backfit.films/1"}, {"films", Json::array()}};
  for (const Film& f : catalogue.films) {
    Json k{{"id", *f.id}, {"name", *f.name}};
    put_cited(k, "width_mm", f.width, mm);
    put_cited(k, "height_mm", f.height, mm);
    put_cited(k, "image_width_mm", f.image_width, mm);
    put_cited(k, "image_height_mm", f.image_height, mm);
    put_cited(k, "thickness_mm", f.thickness, mm);
    if (f.frames) k["frames"] = *f.frames->value;
    if (f.holder) k["holder"] = **f.holder;
    k["laterally_reversed"] = laterally_reversed(0, *f.viewed == ViewedFace::same, *f.transfers);
    j["films"].push_back(k);
  }
  return ended(j);
}

std::string lens_kinds_json(const Catalogue& catalogue) {
  Json j{{"schema", "backfit.lens_kinds/1"}, {"lens_kinds", Json::array()}};
  for (const LensKind& kind : catalogue.lens_kinds) {
    Json k{{"id", *kind.id}, {"name", *kind.name}};
    put_cited(k, "coverage_deg", kind.coverage, deg);
    j["lens_kinds"].push_back(k);
  }
  return ended(j);
}

std::string materials_json(const Catalogue& catalogue) {
  Json j{{"schema", "backfit.materials/1"}, {"materials", Json::array()}};
  for (const Material& m : catalogue.materials) {
    Json k{{"id", *m.id}, {"name", *m.name}};
    put_cited(k, "density_g_per_cm3", m.density, gram_per_cm3);
    put_cited(k, "shrinkage", m.shrinkage, 1.0);
    j["materials"].push_back(k);
  }
  return ended(j);
}

std::string written_json(const std::filesystem::path& folder, const FolderContents& contents) {
  Json j{{"schema", "backfit.written/1"}, {"files", Json::array()}};
  for (const auto& [name, bytes] : contents) j["files"].push_back((folder / name).string());
  return ended(j);
}

std::string diagnostics_json(const Diagnostics& diagnostics) {
  Json j{{"schema", "backfit.diagnostics/1"}, {"messages", Json::array()}};
  for (const Diagnostic& d : diagnostics.list()) {
    const char* severity = d.severity == Severity::error     ? "error"
                           : d.severity == Severity::warning ? "warning"
                                                             : "note";
    j["messages"].push_back({{"severity", severity},
                             {"place", place_of(d.place)},
                             {"text", d.text},
                             {"help", d.help.empty() ? Json(nullptr) : Json(d.help)}});
  }
  return ended(j);
}

}  // namespace backfit
