// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "documents/exposure_answer.hpp"
#include "documents/json_numbers.hpp"

namespace backfit {
namespace {

using namespace json;

Json seconds(Time t) { return figures(t / second); }
Json optional_seconds(const std::optional<Time>& t) { return t ? seconds(*t) : Json(nullptr); }

Json corrections(const std::vector<Correction>& steps) {
  Json list = Json::array();
  for (const Correction& c : steps) {
    list.push_back({{"name", c.name},
                    {"stops", stops_of(c.stops)},
                    {"stops_u", stops_of(c.standard_uncertainty)}});
  }
  return list;
}

Json exposure(const Exposure& e) {
  const double u = e.time.time / second * e.time.standard_uncertainty.value * std::log(2.0);
  return {{"f_number", e.aperture.value},
          {"ev", stops_of(Stops{e.ev.value})},
          {"metered_s", seconds(e.time.metered)},
          {"calculated_s", seconds(e.time.calculated)},
          {"time_s", seconds(e.time.time)},
          {"time_s_u", figures(u)},
          {"corrections", corrections(e.time.steps)},
          {"total_stops", stops_of(e.time.total)},
          {"total_stops_u", stops_of(e.time.standard_uncertainty)},
          {"past_table", e.past_table},
          {"marked_s", optional_seconds(e.setting.marked)},
          {"marked_off_stops", e.setting.marked ? stops_of(e.setting.off) : Json(nullptr)},
          {"too_fast", e.setting.too_fast},
          {"no_speed", e.setting.no_speed},
          {"by_hand", e.setting.by_hand}};
}

Json head(const char* schema, const Report& r, const ExposureMaterial& m) {
  Json j{{"schema", schema},
         {"camera", *r.assembly.camera.name},
         {"film", *r.assembly.film.id},
         {"emulsion", *m.emulsion.id},
         {"index", figures(m.index.value)},
         {"index_stops_u", stops_of(m.index_doubt)},
         {"index_is_own", m.index_is_own},
         {"light", m.light == LightColour::lamp ? "tungsten" : "daylight"},
         {"index_in_light", figures(m.index_in_light().value)}};
  if (m.wedge) {
    const WedgeFound& w = *m.wedge;
    j["wedge"] = {{"lit_by", w.lit_by == LightColour::lamp ? "tungsten" : "daylight"},
                  {"index_in_its_light", figures(w.in_its_light.value)},
                  {"index_stops_u", stops_of(w.standard_uncertainty)}};
    if (w.film) {
      j["wedge"]["film_speed"] = figures(w.film->speed.value);
      j["wedge"]["rise"] = w.film->rise ? rounded(w.film->rise->value, 4) : Json(nullptr);
      j["wedge"]["developed_to_standard"] = w.film->developed_to_standard;
    } else {
      j["wedge"]["paper_speed"] = figures(w.paper->speed);
      j["wedge"]["paper_range"] = w.paper->range;
      j["wedge"]["first_tone_lx_s"] = figures(w.paper->first_tone / lux_second);
    }
  }
  if (m.pack) {
    const PackRefinement& next = m.pack->next;
    j["next_pack"] = {{"yellow", rounded(next.pack.yellow.value, 4)},
                      {"magenta", rounded(next.pack.magenta.value, 4)},
                      {"cyan", rounded(next.pack.cyan.value, 4)},
                      {"density_u", rounded(next.of_filter.value, 4)},
                      {"exposure_stops", stops_of(next.exposure)}};
  }
  j["laws"] = Json::array();
  for (const HeldLaw& law : m.laws) j["laws"].push_back(law.edition);
  j["picture_cost"] = m.picture_cost ? rounded(*m.picture_cost, 4) : Json(nullptr);
  return j;
}

Json distance(Length d) { return rounded(d / mm, 0); }

}  // namespace

std::string exposure_json(const Report& r, const ExposureMaterial& m, const ExposureStudy& s) {
  Json j = head("backfit.expose/1", r, m);
  j["corrections_far"] = corrections(s.far);
  j["corrections_near"] = corrections(s.near);
  j["light_rows"] = Json::array();
  for (const LightRow& row : s.rows) {
    Json k{{"condition", row.condition},
           {"name", row.name},
           {"ev_100", stops_of(Stops{row.ev_100.value})},
           {"least_ev_100", stops_of(Stops{row.least_100.value})},
           {"most_ev_100", stops_of(Stops{row.most_100.value})},
           {"disputed", row.disputed},
           {"exposures", Json::array()}};
    for (const Exposure& e : row.exposures) k["exposures"].push_back(exposure(e));
    j["light_rows"].push_back(k);
  }
  j["apertures"] = Json::array();
  for (const ApertureRow& a : s.apertures) {
    j["apertures"].push_back(
        {{"f_number", a.aperture.value},
         {"corner_loss_stops", a.corner_loss ? stops_of(*a.corner_loss) : Json(nullptr)},
         {"corner_share_stops", stops_of(a.corner_share)},
         {"in_sun_s", seconds(a.in_sun)}});
  }
  j["attachments"] = Json::array();
  for (const AttachmentRow& a : s.attachments) {
    Json k{{"name", a.name}, {"stops", Json::array()}};
    for (std::size_t i = 0; i < a.behind.size(); ++i) {
      k["stops"].push_back({{"f_number", s.apertures[i].aperture.value},
                            {"f_number_behind", figures(a.behind[i].value)},
                            {"more_stops", stops_of(a.more[i])}});
    }
    j["attachments"].push_back(k);
  }
  j["keeps_both_f_number"] = s.keeps_both ? Json(s.keeps_both->value) : Json(nullptr);
  j["longest_by_hand_s"] = seconds(s.longest_by_hand);
  j["speeds_by"] = name_of(s.speeds_by);
  return j.dump(2) + "\n";
}

std::string exposure_json(const Report& r, const ExposureMaterial& m, const ExposureAnswer& a) {
  Json j = head("backfit.expose/1", r, m);
  j["metered_ev_100"] = stops_of(Stops{a.question.ev_100.value});
  j["subject_mm"] = a.question.subject ? distance(*a.question.subject) : Json(nullptr);
  j["factors"] = corrections(a.factors);
  j["exposures"] = Json::array();
  for (const Exposure& e : a.exposures) j["exposures"].push_back(exposure(e));
  return j.dump(2) + "\n";
}

std::string flash_json(const Report& r, const ExposureMaterial& m, const FlashStudy& s) {
  Json j = head("backfit.flash/1", r, m);
  j["flash"] = s.name;
  j["constant"] = s.constant;
  j["rating_optimism_stops"] = stops_of(s.rating_optimism);
  j["rated_guide_number_m"] = rounded(s.rated.value / metre, 3);
  j["rated_for_speed"] = s.rated.speed.value;
  j["corrections"] = corrections(s.steps);
  j["stops_u"] = stops_of(s.standard_uncertainty);
  j["rows"] = Json::array();
  for (const FlashRow& row : s.rows) {
    Json k{{"speed_s", optional_seconds(row.speed)},
           {"or_slower", row.or_slower},
           {"share", share_of(row.share)},
           {"guide_number_m", rounded(row.number.value / metre, 3)},
           {"ladder", Json::array()}};
    for (const LadderRung& rung : row.ladder) {
      k["ladder"].push_back(
          {{"f_number", rung.stop.value}, {"distance_mm", distance(rung.distance)}});
    }
    j["rows"].push_back(k);
  }
  j["notes"] = s.notes;
  j["cautions"] = s.cautions;
  return j.dump(2) + "\n";
}

std::string emulsions_json(const ExposureShelf& shelf) {
  Json j{{"schema", "backfit.emulsions/1"}, {"emulsions", Json::array()}};
  for (const Emulsion& e : shelf.exposure.emulsions) {
    Json k{{"id", *e.id},
           {"name", *e.name},
           {"index", e.index.value->value},
           {"index_from_memory", e.index.doubtful()},
           {"sees", name_of(*e.sees)},
           {"laws", Json::array()}};
    for (const LongTimeLaw* law : shelf.exposure.laws_of(*e.id)) {
      k["laws"].push_back(*law->edition);
    }
    j["emulsions"].push_back(k);
  }
  return j.dump(2) + "\n";
}

std::string bulbs_json(const ExposureShelf& shelf) {
  Json j{{"schema", "backfit.bulbs/1"}, {"bulbs", Json::array()}};
  for (const Bulb& b : shelf.process.bulbs) {
    j["bulbs"].push_back({{"id", *b.id},
                          {"name", *b.name},
                          {"class", *b.class_},
                          {"time_to_peak_s", figures(*b.time_to_peak.value / second)},
                          {"light_lm_s", *b.light_lm_s.value},
                          {"from_memory", b.light_lm_s.doubtful()}});
  }
  return j.dump(2) + "\n";
}

}  // namespace backfit
