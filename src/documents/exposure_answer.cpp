// SPDX-License-Identifier: MIT
#include "documents/exposure_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "documents/listing.hpp"
#include "exposure/scales.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string index_words(const ExposureMaterial& m) {
  return fmt::format("{} {}", m.index_is_own || m.emulsion.index_from ? "EI" : "ISO",
                     index_text(m.index));
}

// Half-width of the 95 % interval in stops.
std::string doubt_text(Stops u) { return fmt::format("± {:.1f}", coverage_95 * u.value); }

std::string head(const Report& r, const ExposureMaterial& m, std::string_view what) {
  std::string out =
      fmt::format("{} to {}: {}\n", *r.assembly.camera.name, *r.assembly.film.name, what);
  out += fmt::format("  material      {}, {}, {} stops ({})\n", *m.emulsion.name, index_words(m),
                     doubt_text(m.index_doubt),
                     m.index_is_own                ? "own test"
                     : m.emulsion.index.doubtful() ? "from memory: test it"
                                                   : "as published");
  if (m.wedge) out += fmt::format("  wedge         {}\n", wedge_text(*m.wedge));
  if (m.pack) {
    out += fmt::format("  next sheet    {}\n", next_pack_text(*m.pack));
  }
  if (m.light == LightColour::lamp) {
    out +=
        m.light_gain.value != 0
            ? fmt::format("  light         tungsten, EI {:.2g} in it\n", m.index_in_light().value)
            : "  light         tungsten: colour material wants a blue conversion filter\n";
  }
  return out;
}

std::string corrections_text(const std::vector<Correction>& steps) {
  std::string out;
  for (const Correction& c : steps) {
    out += fmt::format("{}{} {:+.2f}", out.empty() ? "" : ", ", c.name, c.stops.value);
  }
  return out.empty() ? "none" : out;
}

std::string law_text(const ExposureMaterial& m) {
  if (m.laws.empty()) return "no law is held: test it at the real time";
  std::string text = "by " + m.laws.front().edition;
  if (m.laws.size() > 1) {
    text += fmt::format("; at 10 s it says {}, the others",
                        shutter_text(m.long_time(10 * second).time));
    for (std::size_t i = 1; i < m.laws.size(); ++i) {
      text += (i == 1 ? " " : ", ") + shutter_text(corrected_by(m.laws[i].law, 10 * second).time);
    }
  }
  return text;
}

std::string cost_text(const Report& r, const ExposureMaterial& m) {
  if (!m.picture_cost) return {};
  return fmt::format("  a picture     {:.2f} {}\n", *m.picture_cost,
                     *r.assembly.plan.prices->currency);
}

}  // namespace

std::string index_text(IsoSpeed index) {
  return index.value < 100 ? fmt::format("{:.2g}", index.value) : fixed(index.value, 0);
}

std::string wedge_text(const WedgeFound& w) {
  const char* light = w.lit_by == LightColour::lamp ? "lamp light" : "daylight";
  if (w.paper) {
    return fmt::format(
        "P {:.0f} in {}, ISO range R {}; first tone at {:.2g} lx s, a pre-flash stays "
        "below",
        w.paper->speed, light, w.paper->range, w.paper->first_tone / lux_second);
  }
  std::string text = fmt::format("speed {} (ISO {:g}) in {}", index_text(w.film->speed),
                                 w.film->named.value, light);
  if (!w.film->rise) return text + "; it ends before 1.30 more in log exposure";
  return text + fmt::format(", {:.2f} denser over 1.30 in log exposure: {}", w.film->rise->value,
                            w.film->developed_to_standard
                                ? "developed as ISO 6 asks"
                                : "ISO 6 asks for 0.80, so it holds for your development alone");
}

std::string next_pack_text(const NextPack& p) {
  const long doubt = std::lround(100 * coverage_95 * p.next.of_filter.value);
  return fmt::format("{}, ± {} each, and {:+.2f} stop; the last had {}", pack_text(p.next.pack),
                     doubt, p.next.exposure.value, pack_text(p.used));
}

bool any_setting(const ExposureStudy& study, bool ShutterSetting::*what) {
  return std::ranges::any_of(study.rows, [&](const LightRow& row) {
    return std::ranges::any_of(row.exposures, [&](const Exposure& e) { return e.setting.*what; });
  });
}

std::string setting_text(const Exposure& e) {
  if (e.setting.too_fast) return "too bright";
  if (e.setting.marked) return speed_mark(*e.setting.marked);
  if (e.setting.no_speed) return "(" + shutter_text(e.time.time) + ")";
  return (e.past_table ? "~ " : "") + shutter_text(e.time.time);
}

std::string speed_text(const FlashRow& row, bool bulb) {
  if (!row.speed) return bulb ? "held open" : "any speed";
  return speed_mark(*row.speed) + (row.or_slower ? " or slower" : "");
}

std::string name_of(Sees sees) {
  for (const auto& [name, value] : choices_of<Sees>()) {
    if (value == sees) return std::string(name);
  }
  return {};
}

std::string exposure_summary(const Report& r, const ExposureMaterial& m, const ExposureStudy& s) {
  std::string out = head(r, m, "exposures");
  out += fmt::format("  corrections   {} (stops, far subject; in this order)\n",
                     corrections_text(s.far));
  if (r.assembly.plan.exposure->subject) {
    out += fmt::format("  near subject  {} at {}\n", corrections_text(s.near),
                       distance_text(r.assembly.plan.exposure->subject->value.value));
  }
  out += fmt::format("  long times    {}\n", law_text(m));
  out += cost_text(r, m);
  std::vector<std::vector<std::string>> rows{{"light", "EV 100"}};
  for (const ApertureRow& a : s.apertures) rows.front().push_back(text(a.aperture));
  bool disputed = false;
  for (const LightRow& row : s.rows) {
    disputed |= row.disputed;
    rows.push_back(
        {row.condition + (row.disputed ? "*" : ""), fmt::format("{:.1f}", row.ev_100.value)});
    for (const Exposure& e : row.exposures) rows.back().push_back(setting_text(e));
  }
  rows.push_back({"corner lost, stops", ""});
  for (const ApertureRow& a : s.apertures) {
    rows.back().push_back(a.corner_loss ? fixed(a.corner_loss->value, 1) : "dark");
  }
  out += "\n" + columns(rows) + "\n";
  for (const AttachmentRow& a : s.attachments) {
    if (a.more.front().value <= 0) continue;
    out += fmt::format("{}: its front glass makes {} of {} ({:+.2f} stop)\n", a.name,
                       text(FNumber{std::round(10 * a.behind.front().value) / 10}),
                       text(s.apertures.front().aperture), a.more.front().value);
  }
  if (r.assembly.plan.exposure->share_corners) {
    out += fmt::format("half of what the corners lose is in the times: {}\n",
                       *m.emulsion.process == Process::negative
                           ? "a compromise that negatives bear"
                           : "the middle comes out lighter for it");
  }
  if (any_setting(s, &ShutterSetting::no_speed)) {
    out += "(in brackets: no speed of this shutter, and too short to hold it open)\n";
  }
  if (disputed) out += "* published levels differ by more than a stop: meter it\n";
  if (s.keeps_both) {
    out += fmt::format(
        "{} is the widest stop that keeps the corners within {:g} stop and full sun by hand ({})\n",
        text(*s.keeps_both), s.corner_allowed.value, speed_mark(s.longest_by_hand));
  } else if (!s.corners_lit) {
    out += "the corners of the frame get no light at any stop: ask `backfit cover`\n";
  } else {
    out +=
        fmt::format("no stop keeps both the corners within {:g} stop and full sun by hand ({})\n",
                    s.corner_allowed.value, speed_mark(s.longest_by_hand));
  }
  return out;
}

std::string exposure_summary(const Report& r, const ExposureMaterial& m, const ExposureAnswer& a) {
  std::string out = head(r, m, "exposure");
  out += fmt::format("  metered       EV {:.2f} at ISO 100\n", a.question.ev_100.value);
  out += fmt::format("  corrections   {} (stops, in this order)\n", corrections_text(a.factors));
  out += fmt::format("  long times    {}\n\n", law_text(m));
  std::vector<std::vector<std::string>> rows{
      {"stop", "metered", "with factors", "time", "set", "95 %, stops"}};
  for (const Exposure& e : a.exposures) {
    rows.push_back({text(e.aperture), shutter_text(e.time.metered), shutter_text(e.time.calculated),
                    shutter_text(e.time.time), setting_text(e),
                    doubt_text(e.time.standard_uncertainty)});
  }
  return out + columns(rows);
}

std::string flash_summary(const Report& r, const ExposureMaterial& m, const FlashStudy& s) {
  std::string out = head(r, m, s.name);
  out += fmt::format("  rated         guide number {:.1f} m ({:.0f} ft) at ISO {:g}, {}\n",
                     s.rated.value / metre, s.rated.value / (12 * inch), s.rated.speed.value,
                     s.constant);
  out += fmt::format("                which promises {:.1f} stop more than an incident meter\n",
                     s.rating_optimism.value);
  out += fmt::format("  corrections   {} (stops of light)\n", corrections_text(s.steps));
  out += fmt::format("  sure to       {} stops (95 %)\n\n", doubt_text(s.standard_uncertainty));
  std::vector<std::vector<std::string>> rows{{"speed", "light", "guide number"}};
  for (const LadderRung& rung : s.rows.front().ladder) rows.front().push_back(text(rung.stop));
  for (const FlashRow& row : s.rows) {
    rows.push_back({speed_text(row, m.bulb.has_value()), fmt::format("{:.0f} %", 100 * row.share),
                    fmt::format("{:.1f} m", row.number.value / metre)});
    for (const LadderRung& rung : row.ladder) {
      rows.back().push_back(fmt::format("{:.2g} m", rung.distance / metre));
    }
  }
  out += columns(rows) + "\n";
  for (const std::string& note : s.notes) out += "note: " + note + "\n";
  for (const std::string& caution : s.cautions) out += "caution: " + caution + "\n";
  return out;
}

std::string emulsion_listing(const ExposureShelf& shelf) {
  std::vector<std::vector<std::string>> rows{{"id", "name", "speed", "sees", "laws"}};
  for (const Emulsion& e : shelf.exposure.emulsions) {
    rows.push_back({*e.id, *e.name,
                    fmt::format("{:g}{}", e.index.value->value, e.index.doubtful() ? "*" : ""),
                    name_of(*e.sees), std::to_string(shelf.exposure.laws_of(*e.id).size())});
  }
  return columns(rows) + "* from memory: test before you trust it\n";
}

std::string bulb_listing(const ExposureShelf& shelf) {
  std::vector<std::vector<std::string>> rows{{"id", "name", "class", "peak at, ms", "light, lm s"}};
  for (const Bulb& b : shelf.process.bulbs) {
    rows.push_back(
        {*b.id, *b.name, *b.class_,
         fmt::format("{:g}{}", *b.time_to_peak.value / ms, b.time_to_peak.doubtful() ? "*" : ""),
         fmt::format("{:g}{}", *b.light_lm_s.value, b.light_lm_s.doubtful() ? "*" : "")});
  }
  return columns(rows) + "* from memory: test before you trust it\n";
}

}  // namespace backfit
