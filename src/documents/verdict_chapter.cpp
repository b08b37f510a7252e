// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "conversion/finding_words.hpp"
#include "conversion/leak_study.hpp"
#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

Sign sign_of(Weight weight) {
  switch (weight) {
    case Weight::blocker:
      return Sign::blocker;
    case Weight::warning:
      return Sign::warning;
    case Weight::note:
      break;
  }
  return Sign::note;
}

Sign sign_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::does_not_fit:
    case Verdict::cannot_tell_yet:
      return Sign::blocker;
    case Verdict::fits_with_work:
      return Sign::warning;
    case Verdict::fits:
      break;
  }
  return Sign::note;
}

std::size_t count_of(const Report& report, Weight weight) {
  return static_cast<std::size_t>(
      std::ranges::count(report.findings, weight, &backfit::Finding::weight));
}

// "2 blockers: bed-too-small, register-short", each name once.
std::string reasons(const Report& report, Weight weight) {
  const std::size_t count = count_of(report, weight);
  if (count == 0) return {};
  std::vector<std::string> names;
  for (const backfit::Finding& f : report.findings) {
    if (f.weight == weight && std::ranges::find(names, f.id) == names.end()) names.push_back(f.id);
  }
  std::string list;
  for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
  return fmt::format("{}: {}", counted(count, std::string(name_of(weight))), list);
}

std::string reasons(const Report& report) {
  std::string lines;
  for (const Weight weight : {Weight::blocker, Weight::warning}) {
    const std::string line = reasons(report, weight);
    if (!line.empty()) lines += (lines.empty() ? "" : "\n") + line;
  }
  if (lines.empty()) lines = "Nothing stands in the way";
  return lines + fmt::format("\n{}", counted(count_of(report, Weight::note), "note"));
}

// The verdict in a frame of its own: word, sign, reasons.
void add_band(Flow& flow, const Report& report) {
  const std::string words = reasons(report);
  const Length word_width = 80 * mm, air = 3 * mm;
  const Length reasons_width = content_width - word_width - 2 * air;
  const Length height =
      std::max(14 * mm, flow.fonts().size(words, body_text, reasons_width).height + 2 * air);
  flow.block(height, [=, verdict = report.verdict](Sheet& sheet, PagePoint at) {
    sheet.stroke(rectangle(at, {at.x + content_width, at.y + height}), LineStyle::outline);
    const Length middle = at.y + height / 2;
    draw(sheet, PagePoint{at.x + air + sign_size / 2, middle}, sign_of(verdict));
    TextStyle word{.size = 14 * point, .bold = true};
    sheet.label({at.x + 2 * air + sign_size, middle + 0.36 * word.size},
                "Verdict: " + std::string(name_of(verdict)), word);
    const Length used = sheet.fonts().size(words, body_text, reasons_width).height;
    sheet.text({at.x + word_width + air, middle - used / 2}, words, body_text, reasons_width);
  });
}

std::string estimated(const Estimate<Length>& e) {
  return mm_with_u(e.value, e.standard_uncertainty);
}

std::string picture_text(const FrameStudy& frame) {
  const bool exact = !(frame.picture_width.standard_uncertainty > 0 * mm) &&
                     !(frame.picture_height.standard_uncertainty > 0 * mm);
  return fmt::format(fmt::runtime(exact ? "{} × {}" : "({}) × ({})"),
                     estimated(frame.picture_width), estimated(frame.picture_height));
}

using Row = std::vector<std::string>;

std::vector<Row> register_rows(const Report& report) {
  const RegisterStudy& reg = report.register_;
  const Focusing& focusing = report.assembly.camera.focusing;
  return {{"Set-back: film behind its old plane", estimated(reg.set_back),
           "room at the infinity stop " + within(*focusing.room_behind_infinity), ""},
          {"Room to spare", estimated(reg.spare_room),
           reg.give > 0 * mm ? "−" + fixed(reg.give / mm, 2) + " or more shows infinity sharp"
                             : std::string("0 or more reaches infinity"),
           odds_text(reg.odds_infinity)},
          {"Farthest focus",
           reg.farthest_focus ? distance_text(*reg.farthest_focus) : std::string("infinity"),
           "infinity", ""},
          *focusing.moves == LensMotion::fixed
              ? Row{"Sharp, from the lens", sharp_distances(report.depth_of_field),
                    "the lens sits fast", ""}
              : Row{"Nearest focus, from the lens", distance_text(reg.nearest_focus),
                    "travel forward " + within(*focusing.travel_forward), ""},
          {"Film plane against sharp image",
           abs(report.focus.plane_error.value) < 0.005 * mm
               ? "within ± " +
                     fixed(coverage_95 * report.focus.plane_error.standard_uncertainty / mm, 2)
               : estimated(report.focus.plane_error),
           fmt::format("depth of focus at {}: ± {}", text(report.focus.aperture),
                       fixed(report.focus.depth_of_focus / mm, 2)),
           odds_text(report.focus.odds_sharp)}};
}

std::vector<Row> frame_rows(const Report& report) {
  const FrameStudy& frame = report.frame;
  const CircleStudy& circle = report.circle;
  return {{"Picture, to where half the light falls", picture_text(frame),
           fmt::format("{} {}", window_name(report.assembly.method()), sides(frame.window)), ""},
          {"Picture without shadow", sides(frame.whole), "", ""},
          {"Image circle, " + std::string(name_of(circle.grade)), estimated(circle.circle),
           "picture's diagonal " + fixed(circle.needed / mm, 1), odds_text(circle.odds_covered)},
          {"Reading direction", report.hand.reversed ? "mirror image" : "right-reading", "", ""}};
}

std::vector<Row> light_rows(const Report& report) {
  if (!report.light || report.light->fog.empty()) return {};
  const LeakStudy& s = *report.light;
  const FogTime& shows = s.fog.front();
  return {{"Light on the film: stops to spare",
           fmt::format("{} ± {}", fixed(std::log2(shows.time / leak_time), 1),
                       fixed(coverage_95 * shows.relative_u / std::numbers::ln2, 1)),
           fmt::format("0.02 over fog, {}, an hour of sun{}", s.asked.film.name,
                       s.wall_need ? "; seams alone, printed walls not counted" : ""),
           ""}};
}

}  // namespace

void add_verdict(Flow& flow, const Report& report) {
  const Assembly& a = report.assembly;
  flow.title(fmt::format("{} to {}", *a.camera.name, *a.film.name));
  std::string method(name_of(a.method()));
  if (a.holder) method += fmt::format(", with a {}", *a.holder->name);
  if (a.plan.back) {
    method += *a.plan.back->way_up == WayUp::upright ? ", upright" : ", lengthways";
  }
  flow.paragraph(fmt::format("Method: {}. Lens: {}, {}. Worked out from {} and {}.", method,
                             *a.lens_kind.name, text(a.camera.lens.focal->value, 0),
                             conversion_file(a), camera_file(a)));
  for (const auto& remark : {a.plan.remark, a.camera.remark}) {
    if (remark) flow.paragraph(sentence(**remark));
  }
  add_band(flow, report);
  const bool insert_made = report.insert && report.insert->can_be_made();
  if (const std::string_view missing = part_note(a.plan); !missing.empty() && !insert_made) {
    flow.paragraph(sentence(std::string(missing)));
  }
  Table table{{{"Lengths in mm", 59 * mm},
               {"Worked out", 48 * mm},
               {"Against", 53 * mm},
               {"Odds", 20 * mm, Align::right}},
              register_rows(report)};
  for (Row& row : frame_rows(report)) table.rows.push_back(std::move(row));
  for (Row& row : light_rows(report)) table.rows.push_back(std::move(row));
  flow.table(table);
  TextStyle small = small_text;
  small.ink = Ink::grey;
  flow.paragraph(
      "± behind a number worked out: its 95 % interval. ± behind a measurement: what it lies "
      "within "
      "for sure. Odds: that the limit is met.",
      small);
}

void add_findings(Flow& flow, const Report& report) {
  flow.heading("Findings, gravest first");
  for (const backfit::Finding& f : report.findings) {
    Finding shown{sign_of(f.weight), f.id, sentence(f.text), {}};
    if (f.place) {
      shown.title +=
          fmt::format("  ({}, line {})", f.place.source->path().filename().string(), f.place.line);
    }
    if (!f.limit.empty()) shown.text += " " + sentence(f.limit);
    for (const std::string& remedy : f.remedies) {
      shown.remedy += (shown.remedy.empty() ? "" : "\n→ ") + sentence(remedy);
    }
    flow.finding(shown);
  }
}

}  // namespace backfit::paper
