// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "documents/build_words.hpp"
#include "documents/exposure_answer.hpp"
#include "documents/exposure_card.hpp"
#include "exposure/contrast.hpp"
#include "exposure/scales.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

std::string signed_stops(Stops s) { return fmt::format("{:+.2f}", s.value); }
std::string doubt(Stops u) { return fmt::format("± {:.2f}", coverage_95 * u.value); }

std::string words_on(SpeedsBy by) {
  switch (by) {
    case SpeedsBy::timer:
      return "The speeds are the positions of the timer's switch, as its law gives them.";
    case SpeedsBy::recordings:
      return "Speeds are judged by the recordings of this shutter.";
    case SpeedsBy::marks:
      return "This shutter's speeds were not recorded: half a stop is allowed for each. Recording "
             "them is the first thing that makes this card surer.";
    case SpeedsBy::nothing:
      break;
  }
  return "The survey names no speeds: the times are those wanted, to half a stop.";
}

void add_corrections(Flow& flow, const ExposureStudy& study) {
  Table table{{{"Correction, in this order", 62 * mm},
               {"Far, stops", 28 * mm, Align::right},
               {"Near, stops", 28 * mm, Align::right},
               {"95 %", 24 * mm, Align::right}},
              {}};
  for (const Correction& near : study.near) {
    const auto far = std::ranges::find(study.far, near.name, &Correction::name);
    table.rows.push_back({near.name, far == study.far.end() ? "0" : signed_stops(far->stops),
                          signed_stops(near.stops), doubt(near.standard_uncertainty)});
  }
  table.rows.push_back({"long times", "last", "last", "see below"});
  flow.table(table);
}

void add_long_times(Flow& flow, const ExposureMaterial& material) {
  flow.heading("Long times");
  if (material.laws.empty()) {
    flow.paragraph(
        "No law of long times is held for this material. Make a test strip at the real "
        "time: half, once and twice the calculated one.");
    return;
  }
  Table table{{{"Edition", 84 * mm}}, {}};
  const std::vector<Time> times{second, 4 * second, 10 * second, 30 * second, 100 * second};
  for (const Time t : times) {
    table.columns.push_back({narrow_text(t), 19 * mm, Align::right});
  }
  for (const HeldLaw& law : material.laws) {
    table.rows.push_back({law.edition + (law.from_memory ? " (from memory)" : "")});
    for (const Time t : times) {
      const LawTime c = corrected_by(law.law, t);
      table.rows.back().push_back((c.past_table ? "~ " : "") + narrow_text(c.time));
    }
  }
  flow.paragraph(
      "The first edition is used; \"~\" is past its data. The spread of the others is "
      "the doubt of the answer.");
  flow.table(table);
}

}  // namespace

void add_sums(Flow& flow, const Report& report, const ExposureMaterial& material,
              const ExposureStudy& study) {
  flow.heading("What the card counts with");
  flow.paragraph(fmt::format(
      "{} Index {}, {} stops ({}). Meter constants: C = 250 lx s for a flat receptor, K = 12.5 "
      "cd s/m² for a reflected reading. Filters and extension come first, long times last.",
      sentence(*material.emulsion.name), index_text(material.index), doubt(material.index_doubt),
      material.index_is_own                ? "by your own test"
      : material.emulsion.index.doubtful() ? "from memory, test it"
                                           : "as published"));
  if (material.wedge) flow.paragraph("Your wedge: " + wedge_text(*material.wedge) + ".");
  if (material.emulsion.note) flow.paragraph(sentence(**material.emulsion.note));
  add_corrections(flow, study);
  flow.paragraph(words_on(study.speeds_by));
  if (material.picture_cost) {
    flow.paragraph(fmt::format("A picture costs {:.2f} {}.", *material.picture_cost,
                               *report.assembly.plan.prices->currency));
  }
  Table stops{{{"Stop", 24 * mm},
               {"Corner loses, stops", 40 * mm, Align::right},
               {"Full sun", 34 * mm, Align::right}},
              {}};
  for (const ApertureRow& a : study.apertures) {
    stops.rows.push_back({text(a.aperture),
                          a.corner_loss ? fixed(a.corner_loss->value, 1) : std::string("dark"),
                          shutter_text(a.in_sun)});
  }
  flow.table(stops);
  flow.paragraph(study.corners_lit
                     ? "The corner is that of the whole frame, far away."
                     : "The corners of the frame get no light at any stop: something in the body "
                       "shadows them. Ask `backfit cover`.");
  if (report.assembly.plan.exposure->share_corners) {
    flow.paragraph(
        "Half of what the corners lose is in the times: the middle gets more than it needs, the "
        "corners less. Negatives bear it; a positive comes out lighter in the middle.");
  }
  for (const AttachmentRow& a : study.attachments) {
    if (a.more.front().value <= 0) continue;
    flow.paragraph(
        fmt::format("With the {} the widest stop gives what {} would: its front glass is smaller "
                    "than the light "
                    "that it should take in. Give {} stop more there.",
                    a.name, text(FNumber{std::round(10 * a.behind.front().value) / 10}),
                    signed_stops(a.more.front())));
  }
  add_long_times(flow, material);
}

void add_light(Flow& flow, const ExposureStudy& study) {
  flow.heading("Light, as published");
  Table table{{{"Condition", 32 * mm},
               {"Counted with", 88 * mm},
               {"EV 100", 18 * mm, Align::right},
               {"From … to", 32 * mm, Align::right}},
              {}};
  for (const LightRow& row : study.rows) {
    const std::string range =
        row.least_100 == row.most_100
            ? std::string("one source")
            : fmt::format("{:.1f} … {:.1f}", row.least_100.value, row.most_100.value);
    table.rows.push_back({row.condition + (row.disputed ? " *" : ""), row.name,
                          fmt::format("{:.1f}", row.ev_100.value), range});
  }
  flow.table(table);
  flow.paragraph(
      "* disputed by more than a stop. Rules are common practice; a meter beats them "
      "all.");
}

void add_flash(Flow& flow, const ExposureMaterial& material, const FlashStudy& study) {
  flow.heading("Flash: " + study.name);
  for (const std::string& caution : study.cautions) {
    flow.boxed({Sign::warning, "Caution", sentence(caution)});
  }
  flow.paragraph(fmt::format(
      "Guide number {:.1f} m at ISO {:g} by the {}, which promises {:.1f} stop more than an "
      "incident meter would: makers count on light walls. Sure to {} stops (95 %). Test: the stop "
      "that is right at 3 m, times 3 m.",
      study.rated.value / metre, study.rated.speed.value, study.constant,
      study.rating_optimism.value, doubt(study.standard_uncertainty)));
  Table table{{{"Speed", 30 * mm},
               {"Light that passes", 40 * mm, Align::right},
               {"Guide number", 36 * mm, Align::right}},
              {}};
  for (const FlashRow& row : study.rows) {
    table.rows.push_back({speed_text(row, material.bulb.has_value()),
                          fmt::format("{:.0f} %", 100 * row.share),
                          fmt::format("{:.1f} m", row.number.value / metre)});
  }
  flow.table(table);
  for (const std::string& note : study.notes) flow.item("•", sentence(note));
}

void add_paper_notes(Flow& flow, const Report& report, const ExposureMaterial& material) {
  if (!material.emulsion.log_range) return;
  const double range = *material.emulsion.log_range->value;
  const auto& asked = report.assembly.plan.exposure->scene_stops;
  const Stops scene{asked ? **asked : 7};
  flow.heading("Contrast and pre-flash");
  std::string text = fmt::format(
      "A scene of {:g} stops spans {:.2f} in log exposure; this paper takes {:.2f}{}. Soft grade "
      "or "
      "yellow filter, flat light, or a pre-flash: an even exposure just too weak to leave a tone. "
      "Find the first visible tone on a test strip and give a third of a stop less.",
      scene.value, log_range(scene), range,
      material.emulsion.log_range->doubtful() ? " (from memory)" : "");
  const LuminousExposure dark = lux_second, light = factor_of(scene) * lux_second;
  if (const auto flash = pre_flash(dark, light, range)) {
    text += fmt::format(
        " To squeeze the whole scene in it would take {:.1f} times what the deepest "
        "shadow gets; most papers show a tone before that.",
        *flash / dark);
  }
  flow.paragraph(text);
}

void add_reversal(Flow& flow, const ExposureShelf& shelf, const ExposureMaterial& material) {
  flow.heading("Colour paper by reversal");
  flow.paragraph(
      "Start in daylight from about 60Y to 80Y with 30M to 50M, or an amber conversion filter with "
      "less of both (from memory). Photograph a grey card, read its print behind red, green and "
      "blue. More filter of a colour gives more of that colour: add what the print lacks, half of "
      "the viewing filter that puts it right; take out what all three share and give the light "
      "back as exposure.");
  if (material.pack) {
    flow.boxed({Sign::note, "The next sheet", sentence(next_pack_text(*material.pack))});
  }
  int number = 0;
  for (const ProcessStep& step : shelf.process.reversal) {
    std::string text = *step.dark ? "In total darkness." : "Light may be on.";
    const auto range = [](const std::optional<Cited<double>>& from,
                          const std::optional<Cited<double>>& to, const char* unit) {
      const bool doubtful = from->doubtful() || (to && to->doubtful());
      return (to ? fmt::format(" {:g} to {:g} {}", *from->value, *to->value, unit)
                 : fmt::format(" {:g} {}", *from->value, unit)) +
             (doubtful ? " (from memory)." : " (read).");
    };
    if (step.from_s) text += range(step.from_s, step.to_s, "s");
    if (step.from_celsius) text += range(step.from_celsius, step.to_celsius, "°C");
    if (step.how) text += " " + sentence(**step.how);
    std::vector<std::string> cautions;
    for (const auto& id : step.hazards) {
      if (const Hazard* h = shelf.process.hazard(*id)) cautions.push_back(sentence(*h->advice));
    }
    flow.step({++number, *step.name, text, cautions});
  }
  flow.paragraph(
      "Safety data sheets, local disposal rules and qualified people come before this "
      "sheet.");
}

}  // namespace backfit::paper
