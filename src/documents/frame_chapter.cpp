// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/drawing.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length picture_width = 138 * mm, picture_height = 152 * mm;
constexpr Length legend_start = 142 * mm, legend_width = content_width - legend_start;
constexpr double shadow_tint = 0.22, half_shadow_tint = 0.09;

// The sheet as it lies in the camera, or of roll film the picture.
FrameSize sheet_size(const Assembly& a) { return a.sheet.value_or(a.window); }

struct Frame {
  FrameSize size;
  LineStyle style;
  Ink ink;
  std::string name, words;
};

std::vector<Frame> frames_of(const Report& report) {
  const Assembly& a = report.assembly;
  const FrameStudy& f = report.frame;
  const FrameSize gate{a.camera.gate.width->value, a.camera.gate.height->value};
  std::vector<Frame> frames;
  if (a.sheet) {
    frames.push_back({*a.sheet, LineStyle::border, Ink::grey, "sheet", sides(*a.sheet)});
  }
  frames.push_back({f.window, LineStyle::border, Ink::black, std::string(window_name(a.method())),
                    sides(f.window)});
  frames.push_back({gate, LineStyle::adjacent, Ink::black, "old gate", sides(gate)});
  frames.push_back(
      {f.picture, LineStyle::outline, Ink::black, "picture, to half light", sides(f.picture)});
  frames.push_back({f.whole, LineStyle::hidden, Ink::black, "without shadow", sides(f.whole)});
  return frames;
}

double scale_of(const Report& report) {
  const FrameSize sheet = sheet_size(report.assembly);
  const FrameSize window = report.frame.window;
  const Length circle =
      report.circle.circle.value + coverage_95 * report.circle.circle.standard_uncertainty;
  for (const double denominator : {1.0, 2.0, 5.0, 10.0}) {
    const double scale = 1 / denominator;
    if (scale * std::max({sheet.width, window.width, circle}) <= picture_width &&
        scale * std::max({sheet.height, window.height, circle}) <= picture_height) {
      return scale;
    }
  }
  return 1.0 / 20;
}

bool drawable(const FrameSize& size) { return size.width > 0.1 * mm && size.height > 0.1 * mm; }

Path outline(const View& view, const FrameSize& size) {
  return rectangle(view({-size.width / 2, size.height / 2}),
                   view({size.width / 2, -size.height / 2}));
}

void draw_shadows(Sheet& sheet, const View& view, const FrameStudy& f) {
  const auto between = [&](const FrameSize& outer, const FrameSize& inner, double tint) {
    Path path = outline(view, outer);
    if (drawable(inner)) path += outline(view, inner);
    sheet.fill(path, Ink::black, tint);
  };
  between(f.window, f.picture, shadow_tint);
  if (drawable(f.picture)) between(f.picture, f.whole, half_shadow_tint);
}

void draw_circle(Sheet& sheet, const View& view, const Estimate<Length>& e) {
  const Length spread = coverage_95 * e.standard_uncertainty;
  const auto ring = [&](Length diameter, LineStyle style, Ink ink) {
    if (diameter > 0.1 * mm)
      sheet.stroke(circle(view(PartPoint{}), view(diameter) / 2), style, ink);
  };
  ring(e.value, LineStyle::border, Ink::accent);
  ring(e.value - spread, LineStyle::hidden, Ink::accent);
  ring(e.value + spread, LineStyle::hidden, Ink::accent);
}

// Where the number of each place stands: the first of a ring of spots, then of wider rings, that
// keeps clear of all places and of the numbers before it.
std::vector<PagePoint> number_spots(const std::vector<PagePoint>& places) {
  constexpr Angle turns[] = {225 * deg, 45 * deg, 135 * deg, 315 * deg, 180 * deg, 0 * deg};
  std::vector<PagePoint> spots;
  for (const PagePoint& place : places) {
    std::optional<PagePoint> chosen;
    for (Length reach = 4 * mm; !chosen; reach += 3 * mm) {
      for (const Angle turn : turns) {
        const PagePoint spot{place.x + reach * cos(turn), place.y - reach * sin(turn)};
        const auto clear = [&](const PagePoint& other) {
          return hypot(other.x - spot.x, other.y - spot.y) > 3.8 * mm;
        };
        if (std::ranges::all_of(places, clear) && std::ranges::all_of(spots, clear)) {
          chosen = spot;
          break;
        }
      }
    }
    spots.push_back(*chosen);
  }
  return spots;
}

void draw_places(Sheet& sheet, const View& view, const std::vector<FrameStudy::Loss>& losses) {
  const TextStyle number{.size = 7 * point, .bold = true, .align = Align::centre};
  std::vector<PagePoint> places;
  places.reserve(losses.size());
  for (const FrameStudy::Loss& l : losses) places.push_back(view(PartPoint{l.x, l.y}));
  const std::vector<PagePoint> spots = number_spots(places);
  for (std::size_t i = 0; i < places.size(); ++i) {
    sheet.stroke(polyline({places[i], spots[i]}), LineStyle::dimension);
    sheet.fill(circle(places[i], 0.6 * mm), Ink::black);
    sheet.fill(circle(spots[i], 1.8 * mm), Ink::white);
    sheet.stroke(circle(spots[i], 1.8 * mm), LineStyle::dimension);
    sheet.label({spots[i].x, spots[i].y + 0.36 * number.size}, std::to_string(i + 1), number);
  }
}

void draw_up(Sheet& sheet, PagePoint foot) {
  sheet.stroke(polyline({foot, {foot.x, foot.y - 7 * mm}}), LineStyle::border);
  sheet.fill(polygon({{foot.x, foot.y - 10 * mm},
                      {foot.x - 1.2 * mm, foot.y - 6.5 * mm},
                      {foot.x + 1.2 * mm, foot.y - 6.5 * mm}}),
             Ink::black);
  sheet.label({foot.x + 2.2 * mm, foot.y - 4 * mm}, "up", small_text);
}

void draw_legend(Sheet& sheet, PagePoint at, const Report& report, double scale) {
  Length y = at.y;
  const Length words_at = at.x + 10 * mm, width = legend_width - 10 * mm;
  TextStyle bold = small_text;
  bold.bold = true;
  y += sheet.text({at.x, y}, scale == 1 ? "True size" : fmt::format("Scale 1:{:g}", 1 / scale),
                  bold, legend_width) +
       1 * mm;
  y += sheet.text({at.x, y}, "mm, width × height", small_text, legend_width) + 4 * mm;
  const auto entry = [&](LineStyle style, Ink ink, const std::string& name,
                         const std::string& words) {
    sheet.stroke(polyline({{at.x, y + 1.6 * mm}, {at.x + 8 * mm, y + 1.6 * mm}}), style, ink);
    y += sheet.text({words_at, y}, name + "\n" + words, small_text, width) + 2.5 * mm;
  };
  for (const Frame& f : frames_of(report)) entry(f.style, f.ink, f.name, f.words);
  const Estimate<Length>& c = report.circle.circle;
  entry(LineStyle::border, Ink::accent, "image circle", "⌀ " + fixed(c.value / mm, 1));
  entry(LineStyle::hidden, Ink::accent, "its 95 % band",
        "± " + fixed(coverage_95 * c.standard_uncertainty / mm, 1));
  const auto tint = [&](double opacity, const std::string& name) {
    sheet.fill(rectangle({at.x, y}, {at.x + 8 * mm, y + 3.4 * mm}), Ink::black, opacity);
    y += sheet.text({words_at, y}, name, small_text, width) + 2.5 * mm;
  };
  tint(shadow_tint, "in shadow");
  tint(half_shadow_tint, "half shadow");
  draw_up(sheet, {at.x + 4 * mm, y + 14 * mm});
}

}  // namespace

void add_frame(Flow& flow, const Report& report) {
  const FrameStudy& f = report.frame;
  flow.new_page();
  flow.heading("The frame, seen from behind the camera");
  const double scale = scale_of(report);
  const Length circle =
      report.circle.circle.value + coverage_95 * report.circle.circle.standard_uncertainty;
  const Length height =
      std::max({scale * std::max({sheet_size(report.assembly).height, f.window.height, circle}),
                110 * mm}) +
      2 * mm;
  flow.block(height, [&report, scale, height](Sheet& sheet, PagePoint at) {
    const View view{{at.x + picture_width / 2, at.y + height / 2}, scale};
    draw_shadows(sheet, view, report.frame);
    for (const Frame& frame : frames_of(report)) {
      if (drawable(frame.size)) sheet.stroke(outline(view, frame.size), frame.style, frame.ink);
    }
    draw_circle(sheet, view, report.circle.circle);
    centre_cross(sheet, view(PartPoint{}), 4 * mm);
    draw_places(sheet, view, report.frame.losses);
    draw_legend(sheet, {at.x + legend_start, at.y + 1 * mm}, report, scale);
  });
  Table table{{{"No.", 12 * mm, Align::right},
               {"Light lost against the centre, at " + text(report.focus.aperture), 84 * mm},
               {"x, mm", 26 * mm, Align::right},
               {"y, mm", 26 * mm, Align::right},
               {"stops", 32 * mm, Align::right}},
              {}};
  for (std::size_t i = 0; i < f.losses.size(); ++i) {
    const FrameStudy::Loss& l = f.losses[i];
    table.rows.push_back({std::to_string(i + 1), l.where, fixed(l.x / mm, 1), fixed(l.y / mm, 1),
                          l.lost ? fixed(l.lost->value, 2) : std::string("no light")});
  }
  flow.table(table);
  flow.paragraph(report.assembly.prescription
                     ? "By the traced lens, old gate and openings."
                     : "Shadows of gate and openings, and the cosine law; the "
                       "lens's own vignetting comes on top.",
                 small_text);
}

}  // namespace backfit::paper
