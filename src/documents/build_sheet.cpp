// SPDX-License-Identifier: MIT
#include "documents/build_sheet.hpp"

#include <fmt/format.h>

#include "documents/build_drawings.hpp"
#include "documents/build_steps.hpp"
#include "documents/flow.hpp"
#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

using paper::Align;
using paper::content_width;
using paper::Flow;
using paper::PagePoint;
using paper::Sheet;
using paper::Table;

std::string size_text(const FrameSize& size) {
  return fmt::format("{} × {} mm", paper::in_mm(size.width, 1), paper::in_mm(size.height, 1));
}

paper::Sign sign_of(Weight weight) {
  switch (weight) {
    case Weight::blocker:
      return paper::Sign::blocker;
    case Weight::warning:
      return paper::Sign::warning;
    case Weight::note:
      break;
  }
  return paper::Sign::note;
}

paper::Sign sign_of(Verdict verdict) {
  if (verdict == Verdict::fits) return paper::Sign::note;
  return verdict == Verdict::fits_with_work ? paper::Sign::warning : paper::Sign::blocker;
}

std::string sentence(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text + ".";
}

// Which line of which file a finding comes from.
std::string origin_of(const Place& place) {
  if (!place) return {};
  return fmt::format("  ({}, line {})", place.source->path().filename().string(), place.line);
}

Table key_numbers(const Report& r) {
  const RegisterStudy& reg = r.register_;
  Table t{{{"", 46 * mm}, {"value", 54 * mm}, {"how sure", 80 * mm}}, {}};
  t.rows.push_back(
      {"set-back of the film", text_with_u(reg.set_back.value, reg.set_back.standard_uncertainty),
       "95 % interval; most of the doubt: " +
           (reg.set_back.budget.empty() ? std::string("none") : reg.set_back.budget.front().name)});
  t.rows.push_back(
      {"infinity",
       reg.farthest_focus ? "not reached, farthest " + text(*reg.farthest_focus) : "reached",
       fmt::format("odds {}; {} to spare", odds_text(reg.odds_infinity),
                   text_with_u(reg.spare_room.value, reg.spare_room.standard_uncertainty))});
  t.rows.push_back({"nearest focus", text(reg.nearest_focus, reg.nearest_focus >= metre ? 2 : 0),
                    "from the lens, full travel forward"});
  t.rows.push_back(
      {"sharp at infinity",
       fmt::format("± {} allowed at {}", text(r.focus.depth_of_focus), text(r.focus.aperture)),
       fmt::format("plane known to ± {}, odds {}",
                   text(coverage_95 * r.focus.plane_error.standard_uncertainty),
                   odds_text(r.focus.odds_sharp))});
  t.rows.push_back(
      {"picture on the film", size_text(r.frame.picture),
       fmt::format("± {} by ± {}; {} without shadow",
                   paper::in_mm(coverage_95 * r.frame.picture_width.standard_uncertainty, 2),
                   paper::in_mm(coverage_95 * r.frame.picture_height.standard_uncertainty, 2),
                   size_text(r.frame.whole))});
  t.rows.push_back(
      {"image circle",
       fmt::format("{}; {} needed",
                   text_with_u(r.circle.circle.value, r.circle.circle.standard_uncertainty),
                   text(r.circle.needed, 1)),
       fmt::format("{}; odds {}", r.circle.measured ? "as measured" : "by the lens's kind",
                   odds_text(r.circle.odds_covered))});
  t.rows.push_back({"finished picture", r.hand.reversed ? "mirrored" : "reads right", ""});
  return t;
}

void add_verdict(Flow& flow, const Report& r) {
  const Assembly& a = r.assembly;
  flow.title(fmt::format("{} to {}", *a.camera.name, *a.film.name));
  const Place& camera = a.camera.name.place;
  flow.paragraph(fmt::format(
      "A sheet-film back on the camera's seat, {}. From {} and {}.{}",
      *a.plan.back.way_up == WayUp::upright ? "long side up" : "long side across",
      camera ? camera.source->path().filename().string() : "", a.file.filename().string(),
      a.camera.remark ? " Camera: " + **a.camera.remark + "." : ""));
  std::string reasons;
  for (const Finding& f : r.findings) {
    if (f.weight != Weight::note) reasons += (reasons.empty() ? "" : ", ") + f.id;
  }
  flow.boxed({sign_of(r.verdict), fmt::format("Verdict: {}", name_of(r.verdict)),
              fmt::format("Odds that infinity is reached {}, that it is sharp {}, that the lens "
                          "covers the picture's corners {}.{}",
                          odds_text(r.register_.odds_infinity), odds_text(r.focus.odds_sharp),
                          odds_text(r.circle.odds_covered),
                          reasons.empty() ? "" : " Reasons, below: " + reasons + ".")});
  flow.table(key_numbers(r));
  flow.heading("Findings");
  for (const Finding& f : r.findings) {
    std::string remedy;
    for (const std::string& m : f.remedies) remedy += (remedy.empty() ? "" : "\n") + sentence(m);
    const std::string limit = f.limit.empty() ? "" : " " + sentence(f.limit);
    flow.finding({sign_of(f.weight), f.id + origin_of(f.place), sentence(f.text) + limit, remedy});
  }
}

void add_studies(Flow& flow, const Report& r) {
  flow.together([&] {
    flow.heading("Camera, plate and film");
    flow.block(paper::section_height,
               [&r](Sheet& s, PagePoint p) { paper::draw_section(s, p, r); });
  });
  flow.together([&] {
    flow.heading("Set-back: which measurement to repeat");
    flow.paragraph(
        "Share of each in the doubt about the set-back, and what it adds by itself (95 %).");
    const auto& budget = r.register_.set_back.budget;
    flow.block(paper::budget_height(budget),
               [&budget](Sheet& s, PagePoint p) { paper::draw_budget(s, p, budget); });
  });
  flow.together([&] {
    flow.heading("The frame, seen from behind the camera");
    flow.block(paper::frame_picture_height(r),
               [&r](Sheet& s, PagePoint p) { paper::draw_frame_picture(s, p, r); });
    Table t{{{"light lost against the centre, at " + text(r.focus.aperture), 84 * mm},
             {"x, mm", 24 * mm, Align::right},
             {"y, mm", 24 * mm, Align::right},
             {"stops", 24 * mm, Align::right}},
            {}};
    for (const FrameStudy::Loss& l : r.frame.losses) {
      t.rows.push_back({l.where, fixed(l.x / mm, 1), fixed(l.y / mm, 1),
                        l.lost ? fixed(l.lost->value, 2) : "no light"});
    }
    flow.table(t);
    flow.paragraph(
        "Old gate and openings by exact projection of the exit pupil, and the cosine law; the "
        "lens's own vignetting is not in it.",
        paper::small_text);
  });
  if (!r.register_.marks.empty()) {
    flow.together([&] {
      flow.heading("Focus");
      flow.paragraph(
          "With stop and pointer moved back the marks hold. Last column: if only the back is "
          "changed.");
      Table t{{{"mark", 30 * mm, Align::right},
               {"standard forward of its new stop, mm", 75 * mm, Align::right},
               {"focus with only the back changed", 75 * mm, Align::right}},
              {}};
      for (const RegisterStudy::Mark& m : r.register_.marks) {
        t.rows.push_back(
            {text(m.engraved, 1), fixed(m.from_new_stop / mm, 2),
             m.uncorrected ? text(*m.uncorrected, *m.uncorrected >= metre ? 2 : 0) : "infinity"});
      }
      flow.table(t);
    });
  }
}

Table hole_table(const BackPlate& p) {
  Table t{{{"hole", 46 * mm},
           {"x, mm", 22 * mm, Align::right},
           {"y, mm", 22 * mm, Align::right},
           {"⌀, mm", 22 * mm, Align::right},
           {"head ⌀ 90°, mm", 30 * mm, Align::right},
           {"sunk in", 38 * mm}},
          {}};
  const auto add = [&](const BackPlate::CountersunkHoles& holes, const char* name,
                       const char* face) {
    for (const PlatePoint& place : holes.places) {
      t.rows.push_back({name, fixed(place.x / mm, 2), fixed(place.y / mm, 2),
                        fixed(holes.hole_diameter / mm, 2), fixed(holes.head_diameter / mm, 2),
                        face});
    }
  };
  add(p.screws, "screw to the seat", "rear face");
  add(p.fence, "fence screw", "front face");
  return t;
}

void add_template(Flow& flow, const BackPlate& p) {
  if (!paper::template_fits(p)) {
    flow.heading("Template");
    flow.paragraph(
        "The plate is larger than this page, so there is no template at true size: take the places "
        "of "
        "the holes from the table above, or lay the printed plate on.");
    return;
  }
  flow.new_page();
  flow.heading("Template, 1:1");
  flow.boxed(
      {paper::Sign::warning, "Print without scaling",
       "Measure both rulers with a caliper. If one is off by more than 0.3 mm over its 100 mm, "
       "do not use this page."});
  flow.block(p.height + 18 * mm, [&p](Sheet& s, PagePoint at) { paper::draw_template(s, at, p); });
}

void add_part(Flow& flow, const Report& r, const Solid& body) {
  const BackPlate& p = *r.assembly.plate;
  const Printer& printer = r.assembly.plan.printer;
  flow.new_page();
  flow.heading("Part: back plate");
  flow.block(paper::plate_drawing_height(p),
             [&p, &body](Sheet& s, PagePoint at) { paper::draw_plate(s, at, p, body); });
  const BackPlate::Tongue& t = p.tongue;
  const BackPlate::RibGroove& g = p.rib_groove;
  flow.paragraph(fmt::format(
      "Dimensions in mm. Thickness {}; outline corners R{}. Tongue on the front face: {} high, "
      "wall {}, corners R{} inside and R{} outside. "
      "Rib groove in the rear face: centre at x {}, y {}; {} × {}, {} deep. Places from the "
      "optical axis, seen from behind, x right, y up.",
      paper::in_mm(p.thickness, 2), paper::in_mm(p.corner_radius, 2), paper::in_mm(t.depth, 2),
      paper::in_mm(t.wall, 2), paper::in_mm(t.inner_corner_radius, 2),
      paper::in_mm(t.inner_corner_radius + t.wall, 2), paper::in_mm(g.centre.x, 2),
      paper::in_mm(g.centre.y, 2), paper::in_mm(g.size_x, 2), paper::in_mm(g.size_y, 2),
      paper::in_mm(g.depth, 2)));
  flow.table(hole_table(p));
  const auto mass = plate_mass(r);
  flow.paragraph(
      fmt::format("Print with the rear face on the bed, tongue up, without supports, solid. {}, "
                  "layers of {}, nozzle {}. {}",
                  *r.assembly.material.name, text(*printer.layer_height), text(*printer.nozzle),
                  mass ? fmt::format("Mass {} g.", fixed(*mass / gram, 0))
                       : std::string("Mass not known: the material's density is missing.")));
  add_template(flow, p);
}

}  // namespace

std::string build_sheet(const Report& report, const Solid& body,
                        const std::filesystem::path& font_folder) {
  const Assembly& a = report.assembly;
  paper::Document document(font_folder,
                           {fmt::format("{} to {}: build sheet", *a.camera.name, *a.film.name), "",
                            "All intervals 95 % unless stated"});
  Flow flow(document);
  add_verdict(flow, report);
  add_studies(flow, report);
  add_part(flow, report, body);
  flow.new_page();
  add_steps(flow, report);
  add_materials(flow, report);
  flow.finish();
  return document.pdf();
}

}  // namespace backfit
