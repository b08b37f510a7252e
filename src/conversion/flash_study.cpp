// SPDX-License-Identifier: MIT
#include "conversion/flash_study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "exposure/bulb.hpp"
#include "exposure/scales.hpp"

namespace backfit {
namespace {

constexpr Time usual_blades = 3 * ms;                        // where no recording says otherwise
constexpr Stops flash_doubt{0.5 * std::numbers::inv_sqrt3};  // rooms and bulbs differ
constexpr IsoSpeed iso_100{100};
constexpr ColourTemperature clear_bulb{3800};  // from memory

// Time and light of the large M-class bulb whose peak is known: 23 000 lm s over 1.8 Mlm, 20 ms.
constexpr double known_width_over_peak_time = 23000 / 1.8e6 / 0.020;

std::optional<BulbLight> light_of(const Bulb& bulb) {
  const LuminousEnergy total = *bulb.light_lm_s.value * lumen_second;
  const Time peak_at = *bulb.time_to_peak.value;
  const Time width =
      bulb.peak_lm ? total / (*bulb.peak_lm->value * lumen) : known_width_over_peak_time * peak_at;
  return bulb_with(total, peak_at, width);
}

bool on_m_contact(const Report& report) {
  const FlashPlan& plan = *report.assembly.plan.exposure->flash;
  if (plan.contact) return **plan.contact == FlashContact::m;
  const auto& sync = report.assembly.camera.shutter.sync;
  return sync && (**sync == Sync::m || **sync == Sync::x_and_m);
}

// The speeds that can be set, or else the usual ones.
std::vector<ShutterSpeed> speeds_slowest_first(const Report& report) {
  std::vector<ShutterSpeed> speeds = speeds_of(report).list;
  if (speeds.empty()) {
    for (const double per_second : {15.0, 30.0, 60.0, 125.0}) {
      const Time marked = second / per_second;
      speeds.push_back({marked, true_speed(marked), {}});
    }
  }
  std::ranges::sort(speeds, std::greater{}, &ShutterSpeed::gives);
  return speeds;
}

std::string caution(const ExposureShelf& shelf, std::string_view id) {
  const Hazard* hazard = shelf.process.hazard(id);
  return hazard == nullptr ? std::string() : *hazard->advice;
}

}  // namespace

FlashStudy study_flash(const Report& report, const ExposureMaterial& material,
                       const ExposureShelf& shelf) {
  const Camera& camera = report.assembly.camera;
  const FlashPlan& plan = *report.assembly.plan.exposure->flash;
  std::vector<FNumber> stops;
  for (const auto& a : camera.lens.apertures) stops.push_back(*a);

  FlashStudy study;
  study.constant = makers_rating.name;
  study.rating_optimism = stops_of(flat_meter.value / makers_rating.value);
  Stops light;
  double variance = flash_doubt.value * flash_doubt.value;
  const auto step = [&](const std::string& name, Stops s, Stops u) {
    study.steps.push_back({name, s, u});
    light = light + s;
    variance += u.value * u.value;
  };
  if (material.bulb) {
    study.name = fmt::format("bulb {}, class {}", *material.bulb->name, *material.bulb->class_);
    const Measured<double>& reflector = **plan.reflector;
    study.rated =
        guide_number(beam_of(*material.bulb->light_lm_s.value * lumen_second, reflector.value),
                     iso_100, makers_rating);
    variance += std::pow(reflector.standard_uncertainty() / reflector.value / std::numbers::ln2, 2);
    study.cautions.push_back(caution(shelf, "flash-bulb"));
  } else {
    study.name = "electronic flash";
    study.rated = {**plan.guide_number, **plan.for_speed};
    study.cautions.push_back(caution(shelf, "flash-capacitor"));
  }
  step("film speed", stops_of(material.index.value / study.rated.speed.value),
       material.index_doubt);
  if (material.bulb && material.light_gain.value == 0) {
    const auto band = band_of(*material.emulsion.sees);
    if (band) {
      step("colour of the bulb", gain_by_colour(*band, clear_bulb, daylight), colour_model_doubt);
    } else {
      study.notes.push_back(
          "a clear bulb is warmer than daylight: colour material wants a blue bulb or a blue "
          "filter, which costs light");
    }
  }
  for (const Correction& f : material.filters) step(f.name, -f.stops, f.standard_uncertainty);
  study.standard_uncertainty = {std::sqrt(variance)};
  const GuideNumber on_material = {with_light(study.rated, light).value, material.index};

  if (!material.bulb) {
    study.rows.push_back({{}, false, 1, on_material, distance_ladder(on_material, stops)});
    study.notes.push_back(
        "a leaf shutter passes an electronic flash at every speed on its X "
        "contact; never on M");
    return study;
  }
  const bool m = on_m_contact(report);
  const Time blades =
      camera.shutter.blades_open ? camera.shutter.blades_open->value.value : usual_blades;
  const auto bulb = light_of(*material.bulb);
  study.rows.push_back({{}, false, 1, on_material, distance_ladder(on_material, stops)});
  for (const ShutterSpeed& speed : speeds_slowest_first(report)) {
    if (!bulb) break;
    const LeafShutter shutter = shutter_with(speed.gives, blades, blades);
    const double share = light_through(
        *bulb, shutter, 1, m ? first_light_of_m(usual_m_lead) : first_light_of_x(shutter));
    if (share < 1e-3) continue;
    const bool all = share > 0.99;
    if (all) study.rows.clear();  // of the speeds that pass it all, the fastest stands for the rest
    const GuideNumber number = with_light(on_material, stops_of(share));
    study.rows.push_back({speed.marked, all, share, number, distance_ladder(number, stops)});
  }
  study.notes.push_back(
      m ? fmt::format("M contact: fires the bulb {:g} ms before the blades move (from a manual; "
                      "shutters differ)",
                      usual_m_lead / ms)
        : std::string("X contact: the bulb lights while the shutter closes again at fast speeds"));
  if (!camera.shutter.blades_open) {
    study.notes.push_back(
        fmt::format("blades taken to open in {:g} ms: record your own", usual_blades / ms));
  }
  if (material.bulb->time_to_peak.doubtful() || material.bulb->light_lm_s.doubtful()) {
    study.notes.push_back("the bulb's ratings are from memory: test one before a picture counts");
  }
  return study;
}

}  // namespace backfit
