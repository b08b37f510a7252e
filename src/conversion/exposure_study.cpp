// SPDX-License-Identifier: MIT
#include "conversion/exposure_study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "conversion/cover_study.hpp"
#include "exposure/metering.hpp"
#include "exposure/scales.hpp"
#include "exposure/shutter_light.hpp"
#include "optics/focus.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

constexpr Stops meter_doubt{1.0 / 3 * std::numbers::inv_sqrt3};        // common practice: a third
constexpr Stops unknown_shutter_doubt{0.5 * std::numbers::inv_sqrt3};  // common practice
constexpr IsoSpeed iso_100{100};
constexpr Time usual_by_hand = second / 30;
constexpr Time shortest_held_open = 0.5 * second;  // by a hand on the cable; common practice
// Conditions of the card, brightest first.
constexpr std::array card_conditions{"sun",         "hazy sun",       "overcast",
                                     "open shade",  "heavy overcast", "sunset",
                                     "room by day", "room by lamps"};

Measured<double> pupils_of(const Camera& camera) {
  return camera.lens.pupil_magnification ? **camera.lens.pupil_magnification : exactly(1.0);
}

// How far the lens stands from its infinity place for a subject; what it can't come back for a far
// one where infinity is out of reach.
Measured<Length> extension_to(const Report& report, std::optional<Measured<Length>> subject) {
  const Measured<Length>& focal = *report.assembly.camera.lens.focal;
  Measured<Length> extension{};
  if (subject) {
    const auto at = [&](Length distance) {
      return extension_for(focal.value, distance).value_or(focal.value);
    };
    const Length middle = at(subject->value);
    extension = {middle, middle - at(subject->value + subject->half_width)};
  }
  const Length missing = -report.register_.spare_room.value;
  if (missing > extension.value) {
    extension = {missing, report.register_.spare_room.standard_uncertainty * std::numbers::sqrt3};
  }
  return extension;
}

std::vector<Correction> factors_of(const Report& report, const ExposureMaterial& material,
                                   Measured<Length> extension) {
  std::vector<Correction> steps;
  if (material.light_gain.value != 0) {
    steps.push_back({"colour of the light", -material.light_gain, material.light_doubt});
  }
  steps.insert(steps.end(), material.filters.begin(), material.filters.end());
  if (extension.value > 0.01 * mm) {
    const Camera& camera = report.assembly.camera;
    const StopsEstimate s = extension_stops(extension, *camera.lens.focal, pupils_of(camera));
    steps.push_back({"extension", s.value, s.standard_uncertainty});
  }
  return steps;
}

// What to set for `time`, and what the shutter adds to its doubt.
struct Setting {
  ShutterSetting setting;
  Stops doubt;
};

Setting setting_for(Time time, const Report& report, FNumber aperture, Time by_hand) {
  const Camera& camera = report.assembly.camera;
  Setting answer;
  ShutterSetting& setting = answer.setting;
  setting.by_hand = time <= by_hand * 1.01;
  const std::vector<ShutterSpeed> speeds = speeds_of(report).list;
  if (speeds.empty()) return {setting, unknown_shutter_doubt};
  // A speed is known with the lens wide open; a smaller stop is bared early and covered late.
  const double stop = std::min(1.0, camera.lens.apertures.front()->value / aperture.value);
  const auto given = [&](const ShutterSpeed& s) {
    if (!camera.shutter.blades_open) return s.gives;
    const Time blades = camera.shutter.blades_open->value.value;
    return effective_time(shutter_with(s.gives, blades, blades), stop);
  };
  const auto nearest = std::ranges::min_element(
      speeds, {}, [&](const ShutterSpeed& s) { return std::abs(stops_of(given(s) / time).value); });
  const Stops off = stops_of(given(*nearest) / time);
  const bool far_off = std::abs(off.value) > 0.5;
  setting.too_fast = far_off && off.value > 0 && nearest == speeds.begin();
  const bool held_open = far_off && off.value < 0 && nearest == speeds.end() - 1;
  setting.no_speed = held_open && time < shortest_held_open;
  if (setting.too_fast || held_open) return answer;  // a watch times it well enough
  setting.marked = nearest->marked;
  setting.off = off;
  answer.doubt = nearest->standard_uncertainty;
  return answer;
}

Time by_hand(const Report& report) {
  const ExposurePlan& plan = *report.assembly.plan.exposure;
  return plan.longest_by_hand ? **plan.longest_by_hand : usual_by_hand;
}

Exposure exposure_at(const Report& report, const ExposureMaterial& material, Ev ev_100,
                     Stops light_doubt, FNumber aperture, const std::vector<Correction>& factors) {
  const Ev ev = ev_100 + stops_of(material.index.value / iso_100.value);
  const Time metered = time_at(ev, true_stop(aperture));
  const Stops doubt{std::hypot(light_doubt.value, material.index_doubt.value)};
  Stops sum;
  for (const Correction& c : factors) sum = sum + c.stops;
  const Time calculated = metered * factor_of(sum);
  Exposure e;
  e.aperture = aperture;
  e.ev = ev;
  e.time = corrected_time(
      metered, doubt, factors, [&](Time t) { return material.long_time(t).time; },
      material.long_time_doubt(calculated));
  e.past_table = material.long_time(calculated).past_table;
  const Setting set = setting_for(e.time.time, report, aperture, by_hand(report));
  e.setting = set.setting;
  e.time.standard_uncertainty = {std::hypot(e.time.standard_uncertainty.value, set.doubt.value)};
  return e;
}

Ev ev_of_level(double lx) { return ev_of(lx * lux, iso_100); }

// What a stop's corners lose, far away; empty where they are dark.
std::optional<Stops> corner_loss(const CoverStudy& cover, FNumber aperture) {
  const auto far = std::ranges::find_if(
      cover.rows, [&](const CoverStudy::Row& r) { return r.aperture == aperture; });
  return far == cover.rows.end() ? std::nullopt : far->corner;
}

// `factors`, and half of what the corners lose where the plan asks for it: `cover` is then there.
std::vector<Correction> with_corner_share(std::vector<Correction> factors,
                                          const std::optional<CoverStudy>& cover,
                                          FNumber aperture) {
  const auto loss = cover ? corner_loss(*cover, aperture) : std::nullopt;
  if (loss) factors.push_back({"half of the corner's loss", corner_compromise(*loss), {}});
  return factors;
}

std::optional<CoverStudy> cover_to_share(const Report& report) {
  const auto& share = report.assembly.plan.exposure->share_corners;
  if (!share || !**share) return {};
  return cover_study(report, {});
}

std::vector<AttachmentRow> attachments_of(const Camera& camera) {
  std::vector<AttachmentRow> rows;
  for (const Accessory& a : camera.accessories) {
    if (!a.tele_factor) continue;
    std::optional<Length> front;
    if (a.front_glass) front = a.front_glass->value.value;
    AttachmentRow row{*a.name, {}, {}};
    for (const auto& marked : camera.lens.apertures) {
      const FNumber stop = true_stop(*marked);
      const FNumber behind =
          with_front_attachment(stop, a.tele_factor->value.value, camera.lens.focal->value, front);
      const Stops more = stops_of((behind.value / stop.value) * (behind.value / stop.value));
      row.behind.push_back(more.value > 0 ? behind : *marked);
      row.more.push_back(more);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

// Empty where the condition's light is not known.
std::optional<LightRow> light_row(const Report& report, const ExposureMaterial& material,
                                  const ExposureShelf& shelf, const char* condition,
                                  const std::vector<Correction>& factors,
                                  const std::optional<CoverStudy>& cover = {}) {
  const auto levels = shelf.exposure.levels_of(condition);
  if (levels.empty()) return {};
  LightRow row;
  row.condition = condition;
  row.name = *levels.front()->name;
  row.ev_100 = row.least_100 = row.most_100 = ev_of_level(*levels.front()->from_lx.value);
  for (const LightLevel* level : levels) {
    row.least_100 = std::min(row.least_100, ev_of_level(*level->from_lx.value));
    row.most_100 = std::max(
        row.most_100, ev_of_level(level->to_lx ? *level->to_lx->value : *level->from_lx.value));
  }
  const Stops spread = row.most_100 - row.least_100;
  row.disputed = spread.value > 1;
  // A level that nobody disputes is still no meter: half a stop either way.
  const Stops doubt{std::max(0.5, spread.value / 2) * std::numbers::inv_sqrt3};
  for (const auto& aperture : report.assembly.camera.lens.apertures) {
    row.exposures.push_back(exposure_at(report, material, row.ev_100, doubt, *aperture,
                                        with_corner_share(factors, cover, *aperture)));
  }
  return row;
}

}  // namespace

ExposureStudy study_exposure(const Report& report, const ExposureMaterial& material,
                             const ExposureShelf& shelf) {
  const Camera& camera = report.assembly.camera;
  const ExposurePlan& plan = *report.assembly.plan.exposure;
  ExposureStudy study;
  study.longest_by_hand = by_hand(report);
  study.speeds_by = speeds_of(report).by;
  std::optional<Measured<Length>> subject;
  if (plan.subject) subject = **plan.subject;
  study.far = factors_of(report, material, extension_to(report, {}));
  study.extension = extension_to(report, subject);
  study.near = factors_of(report, material, study.extension);

  const std::optional<CoverStudy> shared = cover_to_share(report);
  for (const char* condition : card_conditions) {
    if (auto row = light_row(report, material, shelf, condition, study.far, shared)) {
      study.rows.push_back(std::move(*row));
    }
  }

  const CoverStudy cover = shared ? *shared : cover_study(report, {});
  std::vector<StopChoice> choices;
  for (std::size_t i = 0; i < camera.lens.apertures.size(); ++i) {
    const FNumber aperture = *camera.lens.apertures[i];
    ApertureRow row{
        aperture, corner_loss(cover, aperture), {}, study.rows.front().exposures[i].time.time};
    if (row.corner_loss) {
      if (shared) row.corner_share = corner_compromise(*row.corner_loss);
      choices.push_back({row.aperture, *row.corner_loss, row.in_sun});
    }
    study.apertures.push_back(row);
  }
  study.attachments = attachments_of(camera);
  study.corners_lit = !choices.empty();
  if (const auto both =
          widest_that_keeps_both(choices, study.corner_allowed, study.longest_by_hand)) {
    study.keeps_both = both->aperture;
  }
  return study;
}

std::vector<Finding> exposure_findings(const Report& report, const ExposureMaterial& material,
                                       const ExposureShelf& shelf) {
  const auto sun = light_row(report, material, shelf, card_conditions.front(),
                             factors_of(report, material, extension_to(report, {})));
  if (!sun) return {};
  const Exposure& widest = sun->exposures.front();
  const Time held = by_hand(report);
  const CorrectedTime& needed = widest.time;
  const double margin = stops_of(needed.time / held).value / needed.standard_uncertainty.value;
  const double odds = std::erfc(-margin / std::numbers::sqrt2) / 2;
  if (odds < 1 - sure_enough) return {};
  return {{"needs-tripod",
           Weight::note,
           report.assembly.plan.exposure->emulsion.place,
           fmt::format("in full sun at {}, its widest, the exposure is {} ± {} stop: longer than "
                       "the {} that a hand holds still (odds {})",
                       text(widest.aperture), shutter_text(needed.time),
                       fixed(coverage_95 * needed.standard_uncertainty.value, 1), speed_mark(held),
                       odds_text(odds)),
           {},
           {"put the camera on a tripod or a wall, and let the subject hold still"}}};
}

ExposureAnswer answer_exposure(const Report& report, const ExposureMaterial& material,
                               const ExposureQuestion& question) {
  const Camera& camera = report.assembly.camera;
  ExposureAnswer answer{question, {}, {}};
  std::optional<Measured<Length>> subject;
  if (question.subject) {
    subject = exactly(*question.subject);
  } else if (report.assembly.plan.exposure->subject) {
    subject = **report.assembly.plan.exposure->subject;
    answer.question.subject = subject->value;
  }
  answer.factors = factors_of(report, material, extension_to(report, subject));
  const std::optional<CoverStudy> shared = cover_to_share(report);
  const auto add = [&](FNumber aperture) {
    answer.exposures.push_back(exposure_at(report, material, question.ev_100, meter_doubt, aperture,
                                           with_corner_share(answer.factors, shared, aperture)));
  };
  if (question.aperture) {
    add(*question.aperture);
  } else {
    for (const auto& aperture : camera.lens.apertures) add(*aperture);
  }
  return answer;
}

}  // namespace backfit
