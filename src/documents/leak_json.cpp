// SPDX-License-Identifier: MIT
#include <cmath>

#include "documents/json_numbers.hpp"
#include "documents/leak_answer.hpp"
#include "documents/light_json.hpp"

namespace backfit {
namespace {

using json::figures;
using json::Json;

// Without an interval there is no number to be had.
Json light(const TallyResult& t) {
  const bool sure = t.interval.has_value();
  return {{"converged", sure},
          {"part", sure ? figures(t.mean) : Json(nullptr)},
          {"part_u", sure ? figures(t.standard_error) : Json(nullptr)},
          {"low_95", sure ? figures(t.interval->low) : Json(nullptr)},
          {"high_95", sure ? figures(t.interval->high) : Json(nullptr)},
          {"walks", t.histories},
          {"effective_walks", figures(t.effective_histories)},
          {"largest_share", figures(t.largest_share)},
          {"variance_of_variance", figures(t.variance_of_variance)}};
}

Json place(const SpacePoint& p) {
  return {figures(p.x / mm), figures(p.y / mm), figures(p.z / mm)};
}

// What each part is of.
Json materials(const LeakStudy& s) {
  Json list = Json::array();
  for (std::size_t i = 0; i < s.stuffs.size(); ++i) {
    const LeakStuff& of = s.stuffs[i];
    const auto stops = [&](Length deep) {
      return of.soft ? figures(-std::log2(transmission(*of.soft, deep))) : Json(nullptr);
    };
    list.push_back({{"part", s.parts[i]},
                    {"reflectance", of.soft ? Json(nullptr) : figures(of.finish.reflectance)},
                    {"specular_index", of.soft ? Json(nullptr) : figures(of.finish.gloss_index)},
                    {"foam_stops_1_mm", stops(1 * mm)},
                    {"foam_stops_2_mm", stops(2 * mm)}});
  }
  return list;
}

}  // namespace

std::string leak_json(const LeakStudy& s) {
  Json j{{"schema", "backfit.leak/1"},
         {"verdict", std::string(name_of(s.verdict))},
         {"parts", s.parts},
         {"materials", materials(s)},
         {"triangles", s.triangles},
         {"zones", s.zones},
         {"iso", figures(s.asked.film.speed.value)},
         {"film", s.asked.film.name},
         {"iso_from", s.asked.film.from},
         {"rule", s.asked.film.rule.empty() ? Json(nullptr) : Json(s.asked.film.rule)},
         {"sky_lx", figures(s.asked.sky / lux)},
         {"sun_lx", figures(s.asked.sun / lux)},
         {"towards_sun", s.asked.sun > Illuminance{} ? place(s.towards) : Json(nullptr)},
         {"suns_alike", s.suns_alike},
         {"seed", s.asked.seed},
         {"columns", s.film.columns},
         {"rows", s.film.rows},
         {"patches", Json::array()}};
  const LuminousExposure hour = s.whole * leak_time;
  for (const LeakPatch& p : s.patches) {
    const auto hour_of = [&](const TallyResult& t) {
      return t.interval ? figures(t.mean * hour / lux_second) : Json(nullptr);
    };
    j["patches"].push_back({{"x_mm", figures(p.x / mm)},
                            {"y_mm", figures(p.y / mm)},
                            {"light", light(p.all)},
                            {"hour_lx_s", hour_of(p.all)},
                            {"hour_sky_lx_s", hour_of(p.sky)},
                            {"hour_sun_lx_s", hour_of(p.sun)}});
  }
  j["beside"] = Json::array();
  for (const LeakPatch& p : s.pieces)
    j["beside"].push_back({{"film", p.name}, {"light", light(p.all)}});
  j["worst_patch"] = s.worst < s.patches.size() ? Json(s.worst) : Json(nullptr);
  j["worst_beside"] = s.worst < s.patches.size() ? Json(nullptr) : Json(s.worst_patch().name);
  j["worst_light"] = light(s.worst_light);
  j["stops"] = s.worst_light.interval ? figures(-std::log2(s.worst_light.mean)) : Json(nullptr);
  j["hour_lx_s"] = s.an_hour ? figures(*s.an_hour / lux_second) : Json(nullptr);
  j["minutes_to_fog"] = Json::array();
  for (const FogTime& f : s.fog) {
    const double minutes = f.time / (60 * second);
    j["minutes_to_fog"].push_back({{"density_rise", figures(f.rise.value)},
                                   {"minutes", figures(minutes)},
                                   {"minutes_u", figures(f.relative_u * minutes)}});
  }
  j["ways"] = Json::array();
  for (const LeakWay& way : s.ways) {
    Json points = Json::array();
    for (const SpacePoint& p : way.points) points.push_back(place(p));
    j["ways"].push_back(
        {{"share", figures(way.share)}, {"seams", way.seams}, {"points_mm", points}});
  }
  j["seams"] = Json::array();
  for (const LeakSeamLight& seam : s.seams) {
    j["seams"].push_back(
        {{"name", seam.name},
         {"side", seam.side},
         {"gap_mm", seam.thickness ? Json(nullptr) : figures(seam.gap / mm)},
         {"thickness_mm", seam.thickness ? figures(*seam.thickness / mm) : Json(nullptr)},
         {"length_mm", figures(seam.length / mm)},
         {"transmission", figures(seam.through)},
         {"transmission_u", figures(seam.through_u)},
         {"share", figures(seam.share)}});
  }
  j["not_counted"] = s.not_counted;
  j["taken_as_open"] = s.shelter.empty() ? Json(nullptr) : Json(s.shelter);
  j["walls_must_take"] = wall_need_object(s);
  j["remedies"] = Json::array();
  for (const LeakStudy::Remedied& r : s.remedies) {
    const bool sure = r.light.interval && s.worst_light.interval;
    j["remedies"].push_back(
        {{"what", r.what},
         {"gain_stops",
          sure ? figures(-std::log2(r.light.mean / s.worst_light.mean)) : Json(nullptr)},
         {"light", light(r.light)}});
  }
  return j.dump(2) + "\n";
}

}  // namespace backfit
