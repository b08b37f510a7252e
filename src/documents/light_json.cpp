// SPDX-License-Identifier: MIT
#include "documents/light_json.hpp"

#include <cmath>
#include <numbers>
#include <string>

namespace backfit {

using json::Json;
using json::rounded;

namespace {

Json stops(const TallyResult& t) {
  return t.interval ? rounded(-std::log2(t.mean), 1) : Json(nullptr);
}
double stops_u(const TallyResult& t) { return t.standard_error / t.mean / std::numbers::ln2; }

}  // namespace

Json wall_need_object(const LeakStudy& s) {
  if (!s.wall_need) return nullptr;
  const WallNeed& n = *s.wall_need;
  return {{"stops", rounded(n.least.value, 1)},
          {"thinnest", n.wall},
          {"thickness_mm", rounded(n.thickness / mm, 2)},
          {"steps_to_read_mm", {rounded(n.steps[0] / mm, 2), rounded(n.steps[1] / mm, 2)}}};
}

Json light_object(const LeakStudy& s) {
  const TallyResult& worst = s.worst_light;
  Json j{{"verdict", std::string(name_of(s.verdict))},
         {"iso", rounded(s.asked.film.speed.value, 1)},
         {"film", s.asked.film.name},
         {"iso_from", s.asked.film.from},
         {"rule", s.asked.film.rule.empty() ? Json(nullptr) : Json(s.asked.film.rule)},
         {"sky_lx", rounded(s.asked.sky / lux, 0)},
         {"sun_lx", rounded(s.asked.sun / lux, 0)},
         {"columns", s.film.columns},
         {"rows", s.film.rows},
         {"patches_stops", Json::array()},
         {"worst_patch", s.worst < s.patches.size() ? Json(s.worst) : Json(nullptr)},
         {"worst_stops", stops(worst)},
         {"worst_stops_u", worst.interval ? rounded(stops_u(worst), 1) : Json(nullptr)},
         {"to_spare_stops", Json(nullptr)},
         {"to_spare_stops_u", Json(nullptr)},
         {"seams", Json::array()},
         {"not_counted", s.not_counted},
         {"taken_as_open", s.shelter.empty() ? Json(nullptr) : Json(s.shelter)},
         {"remedies", Json::array()}};
  for (const LeakPatch& p : s.patches) j["patches_stops"].push_back(stops(p.all));
  j["beside"] = Json::array();
  for (const LeakPatch& p : s.pieces) {
    j["beside"].push_back({{"film", p.name}, {"stops", stops(p.all)}});
  }
  j["walls_must_take"] = wall_need_object(s);
  if (!s.fog.empty()) {
    j["to_spare_stops"] = rounded(std::log2(s.fog.front().time / leak_time), 1);
    j["to_spare_stops_u"] = rounded(s.fog.front().relative_u / std::numbers::ln2, 1);
  }
  for (const LeakSeamLight& seam : s.seams) {
    j["seams"].push_back(
        {{"name", seam.name},
         {"side", seam.side},
         {"gap_mm", seam.thickness ? Json(nullptr) : rounded(seam.gap / mm, 3)},
         {"thickness_mm", seam.thickness ? rounded(*seam.thickness / mm, 2) : Json(nullptr)},
         {"length_mm", rounded(seam.length / mm, 1)},
         {"stops", rounded(-std::log2(seam.through), 1)},
         {"share", rounded(seam.share, 2)}});
  }
  for (const LeakStudy::Remedied& r : s.remedies) {
    const bool sure = r.light.interval && worst.interval;
    j["remedies"].push_back(
        {{"what", r.what},
         {"gain_stops", sure ? rounded(-std::log2(r.light.mean / worst.mean), 1) : Json(nullptr)},
         {"gain_stops_u",
          sure ? rounded(std::hypot(stops_u(r.light), stops_u(worst)), 1) : Json(nullptr)}});
  }
  return j;
}

}  // namespace backfit
