// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "documents/json_numbers.hpp"
#include "documents/trace_answer.hpp"

namespace backfit {
namespace {

using json::Json;

// What is itself unsure: three figures.
Json rounded(double value, int count = 3) { return json::figures(value, count); }
// To a hundredth of its standard uncertainty, or less.
Json rounded_by(double value, double u) {
  if (!std::isfinite(value)) return nullptr;
  if (!(u > 0)) return rounded(value, 7);
  const int decimals = 2 - static_cast<int>(std::floor(std::log10(u)));
  return std::stod(fmt::format("{:.{}f}", value, std::clamp(decimals, 0, 12))) + 0.0;
}

template <class Q>
void put(Json& j, const std::string& key, const std::optional<Estimate<Q>>& e, Q unit) {
  j[key] = e ? rounded_by(e->value / unit, e->standard_uncertainty / unit) : Json(nullptr);
  j[key + "_u"] = e ? rounded(e->standard_uncertainty / unit) : Json(nullptr);
}
void put(Json& j, const std::optional<Stops>& stops, const std::optional<Stops>& u) {
  j["deviation_stops"] = stops ? rounded_by(stops->value, u->value) : Json(nullptr);
  j["deviation_stops_u"] = u ? rounded(u->value) : Json(nullptr);
}
Json seconds_of(const std::optional<Time>& time) {
  return time ? rounded(*time / second, 7) : Json(nullptr);
}

Json shot_of(const TracedShot& shot) {
  Json j{{"at_s", rounded_by(shot.at() / second, 1e-4)}, {"marked_s", seconds_of(shot.marked)}};
  const TimedShot* light = shot.light ? &*shot.light : nullptr;
  using T = std::optional<Estimate<Time>>;
  put(j, "total_ms", light != nullptr ? T(light->total) : T(shot.sound->open), ms);
  put(j, "half_ms", light != nullptr ? T(light->half) : T(), ms);
  put(j, "effective_ms", light != nullptr ? light->effective : T(), ms);
  put(j, "efficiency", light != nullptr ? light->efficiency : std::optional<Estimate<double>>(),
      1.0);
  put(j, "opening_ms", light != nullptr ? T(light->opening) : T(), ms);
  put(j, "closing_ms", light != nullptr ? T(light->closing) : T(), ms);
  put(j, "ac_corner_hz",
      light != nullptr ? std::optional(light->ac_corner) : std::optional<Estimate<Frequency>>(),
      hertz);
  j["noise"] = light != nullptr ? rounded(light->noise) : Json(nullptr);
  put(j, shot.deviation, shot.deviation_u);
  j["budget"] = Json::array();
  for (const Contribution& c : shot.time().budget) {
    j["budget"].push_back({{"input", c.name},
                           {"contribution_ms", rounded(Time::of_base(c.contribution) / ms)},
                           {"share", std::round(c.share * 1e3) / 1e3}});
  }
  j["remarks"] = shot.remarks;
  return j;
}

Json speed_of(const SpeedSummary& s) {
  Json j{{"marked_s", seconds_of(s.marked)},
         {"shots", s.shots},
         {"effective", s.effective},
         {"mean_ms", rounded_by(s.mean / ms, s.mean_u / ms)},
         {"mean_ms_u", rounded(s.mean_u / ms)},
         {"degrees_of_freedom", rounded(s.degrees_of_freedom)},
         {"spread_ms", s.spread ? rounded(*s.spread / ms) : Json(nullptr)}};
  put(j, s.deviation, s.deviation_u);
  return j;
}

}  // namespace

std::string trace_json(const TraceAnswer& a) {
  const TraceStudy& s = a.study;
  const Recording& r = a.recording;
  Json j{{"schema", "backfit.trace/1"},
         {"recording", a.path.filename().string()},
         {"by", s.sound ? "sound" : "light"},
         {"format", r.format},
         {"channel", s.channel + 1},
         {"channel_name", r.names[s.channel]},
         {"sample_interval_us", rounded(s.interval / us, 7)},
         {"duration_s", rounded(r.duration() / second, 7)},
         {"bandwidth_hz", rounded(s.band / hertz, 7)},
         {"iso_516_from_ms", rounded(s.shortest_by_iso_516 / ms, 7)},
         {"sensor_rise_us", s.sensor_rise ? rounded(s.sensor_rise->value / us, 7) : Json(nullptr)},
         {"sensor_rise_us_u",
          s.sensor_rise ? rounded(s.sensor_rise->standard_uncertainty() / us) : Json(nullptr)}};
  j["shots"] = Json::array();
  for (const TracedShot& shot : s.shots) j["shots"].push_back(shot_of(shot));
  j["summary"] = Json::array();
  for (const SpeedSummary& speed : s.speeds) j["summary"].push_back(speed_of(speed));
  j["saved"] = nullptr;
  if (a.saved) {
    j["saved"] = Json::array();
    for (const SavedSpeeds::Line& line : a.saved->lines) {
      j["saved"].push_back(
          {{"marked_s", rounded(line.marked / second, 7)}, {"effective", line.effective}});
    }
  }
  j["notes"] = s.notes;
  return j.dump(2) + "\n";
}

}  // namespace backfit
