// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "documents/leak_answer.hpp"

namespace backfit {
namespace {

using Json = nlohmann::ordered_json;

// Six figures, the same from every compiler.
Json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  return std::stod(fmt::format("{:.6g}", value));
}

// Without an interval there is no number to be had.
Json light(const TallyResult& t) {
  const bool sure = t.interval.has_value();
  return {{"converged", sure},
          {"part", sure ? number(t.mean) : Json(nullptr)},
          {"part_u", sure ? number(t.standard_error) : Json(nullptr)},
          {"low_95", sure ? number(t.interval->low) : Json(nullptr)},
          {"high_95", sure ? number(t.interval->high) : Json(nullptr)},
          {"walks", t.histories},
          {"effective_walks", number(t.effective_histories)},
          {"largest_share", number(t.largest_share)},
          {"variance_of_variance", number(t.variance_of_variance)}};
}

Json place(const SpacePoint& p) { return {number(p.x / mm), number(p.y / mm), number(p.z / mm)}; }

}  // namespace

std::string leak_json(const LeakStudy& s) {
  Json j{{"schema", "backfit.leak/1"},
         {"verdict", std::string(name_of(s.verdict))},
         {"parts", s.parts},
         {"triangles", s.triangles},
         {"zones", s.zones},
         {"iso", number(s.asked.film.value)},
         {"sky_lx", number(s.asked.sky / lux)},
         {"sun_lx", number(s.asked.sun / lux)},
         {"towards_sun", s.asked.sun > Illuminance{} ? place(s.towards) : Json(nullptr)},
         {"seed", s.asked.seed},
         {"columns", s.film.columns},
         {"rows", s.film.rows},
         {"patches", Json::array()}};
  const LuminousExposure hour = s.whole * leak_time;
  for (const LeakPatch& p : s.patches) {
    const auto hour_of = [&](const TallyResult& t) {
      return t.interval ? number(t.mean * hour / lux_second) : Json(nullptr);
    };
    j["patches"].push_back({{"x_mm", number(p.x / mm)},
                            {"y_mm", number(p.y / mm)},
                            {"light", light(p.all)},
                            {"hour_lx_s", hour_of(p.all)},
                            {"hour_sky_lx_s", hour_of(p.sky)},
                            {"hour_sun_lx_s", hour_of(p.sun)}});
  }
  j["worst_patch"] = s.worst;
  j["worst_light"] = light(s.worst_light);
  j["stops"] = s.worst_light.interval ? number(-std::log2(s.worst_light.mean)) : Json(nullptr);
  j["hour_lx_s"] = s.an_hour ? number(*s.an_hour / lux_second) : Json(nullptr);
  j["minutes_to_fog"] = Json::array();
  for (const FogTime& f : s.fog) {
    const double minutes = f.time / (60 * second);
    j["minutes_to_fog"].push_back({{"density_rise", number(f.rise.value)},
                                   {"minutes", number(minutes)},
                                   {"minutes_u", number(f.relative_u * minutes)}});
  }
  j["ways"] = Json::array();
  for (const LeakWay& way : s.ways) {
    Json points = Json::array();
    for (const SpacePoint& p : way.points) points.push_back(place(p));
    j["ways"].push_back(
        {{"share", number(way.share)}, {"seams", way.seams}, {"points_mm", points}});
  }
  j["remedies"] = Json::array();
  for (const LeakStudy::Remedied& r : s.remedies) {
    const bool sure = r.light.interval && s.worst_light.interval;
    j["remedies"].push_back(
        {{"what", r.what},
         {"gain_stops",
          sure ? number(-std::log2(r.light.mean / s.worst_light.mean)) : Json(nullptr)},
         {"light", light(r.light)}});
  }
  return j.dump(2) + "\n";
}

}  // namespace backfit
