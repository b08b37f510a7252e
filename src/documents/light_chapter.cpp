// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "conversion/leak_study.hpp"
#include "documents/build_chapters.hpp"
#include "documents/leak_answer.hpp"
#include "documents/leak_picture.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length map_high = 78 * mm;

void add_map(Flow& flow, const LeakStudy& s) {
  flow.together([&] {
    flow.paragraph(fmt::format(
        "Worked out for {} ({}): {}. The film from behind; in each patch by how many stops the "
        "light there is less than outside, the darker drawn the more light; framed the worst "
        "patch, numbered the ways of the light. Sun: {}.",
        s.asked.film.name, s.asked.film.from, verdict_words(s), sun_words(s)));
    if (!s.asked.film.rule.empty()) flow.item("•", s.asked.film.rule);
    flow.block(light_map_height(map_high, s) + 4 * mm, [&s](Sheet& sheet, PagePoint corner) {
      draw_light_map(sheet, {corner.x, corner.y + 2 * mm}, map_high, PatchWords::stops, s);
    });
    for (const LeakPatch& piece : s.pieces) {
      flow.item("•", fmt::format("beside the picture, {}: {}", piece.name,
                                 piece.all.interval   ? patch_words(piece.all) + " stops"
                                 : piece.all.mean > 0 ? std::string("not converged")
                                                      : std::string("dark")));
    }
    const std::string& name = s.worst_patch().name;
    flow.paragraph(fmt::format("Worst patch{}: {}.", name.empty() ? "" : ", " + name,
                               light_words(s.worst_light)),
                   strong_text);
  });
}

void add_seams(Flow& flow, const LeakStudy& s) {
  Table table{{{"", 8 * mm, Align::right},
               {"Way in", 50 * mm},
               {"Gap, wall, mm", 24 * mm, Align::right},
               {"Takes, stops", 30 * mm, Align::right},
               {"Of the light", 28 * mm, Align::right}},
              {}};
  int number = 0;
  for (const LeakSeamLight& seam : s.seams) {
    table.rows.push_back(
        {std::to_string(++number), fmt::format("{}, {}", seam.name, seam.side),
         seam.thickness ? fixed(*seam.thickness / mm, 1) + " thick" : fixed(seam.gap / mm, 2),
         seam.through > 0 ? fixed(-std::log2(seam.through), 1) : "all",
         fmt::format("{:.0f} %", 100 * seam.share)});
  }
  flow.table(table);
  if (!s.shelter.empty()) {
    flow.item("•", fmt::format("taken as open: {}; what it holds back comes on top", s.shelter));
  }
  for (const std::string& way : s.not_counted) flow.item("•", "not counted: " + way);
  if (s.wall_need) {
    flow.item("•", "not counted: what comes through the print; " + wall_words(*s.wall_need));
  }
}

void add_remedies(Flow& flow, const LeakStudy& s) {
  if (s.remedies.empty()) return;
  Table table{{{"What would help", 90 * mm}, {"It takes off the worst patch", 70 * mm}}, {}};
  for (const LeakStudy::Remedied& r : s.remedies) {
    table.rows.push_back({r.what, remedy_words(s, r)});
  }
  flow.table(table);
}

std::string_view as_for_a_picture(const Assembly& a) {
  switch (a.method()) {
    case Method::insert:
      return "the camera's back closed";
    case Method::pack_holder:
      if (!a.pack_holder || !a.pack_holder->slide) return "the camera's back closed";
      return "dark slide drawn, the camera's back closed";
    case Method::back_on_seat:
    case Method::instant_back:
    case Method::own_holder:
      break;
  }
  return "dark slide drawn";
}

Step sun_trial(const Assembly& a, const std::string& film) {
  Step step{1,
            "Try it in the sun",
            {},
            {"Never look through a lens at the sun, and turn the lens away from it or cap it: a "
             "lens left lying in the sun can start a fire and burn the shutter."}};
  const std::string in_sun = "Ten minutes in full sun on each of the six faces, then ";
  const std::string longer = "An hour on each face would give six times the light, 2.6 stops.";
  if (a.method() == Method::instant_back) {
    step.text =
        "Load a pack whose pictures you can spare, shutter closed, the back on the camera. " +
        in_sun +
        "send the picture out, and after it the next, which lay in the dark behind it. Both "
        "must come out as black; where the first is paler light came in. " +
        longer;
    step.cautions.emplace_back(
        "The paste of an instant picture is caustic: never open or cut one; the film's safety data "
        "sheet decides.");
    return step;
  }
  step.text = fmt::format(
      "Load {} that you can spare, shutter closed, {}. {}develop it with a piece that "
      "never left its box. They must look alike: a density of 0.02 more is the first that shows "
      "side by side. {}",
      film, as_for_a_picture(a), in_sun, longer);
  return step;
}

}  // namespace

void add_light(Flow& flow, const Report& report) {
  flow.heading("Light on the film");
  if (report.light) {
    add_map(flow, *report.light);
    add_seams(flow, *report.light);
    add_remedies(flow, *report.light);
    flow.paragraph(
        "Gaps are taken as wide as the printer's error and clearance leave them; lens, bellows and "
        "shutter as tight. What was worked out is not proved: only film is proof.");
  } else {
    flow.boxed({Sign::warning, "How dark the film lies was not worked out",
                report.light_skipped.empty()
                    ? "Ask backfit check for it with --leak, and try it in the sun all the same."
                    : "Here: " + report.light_skipped + ". Try it in the sun all the same."});
  }
  flow.step(
      sun_trial(report.assembly, (report.light ? report.light->asked.film : LeakFilm{}).name));
}

}  // namespace backfit::paper
