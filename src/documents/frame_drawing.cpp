// SPDX-License-Identifier: MIT
#include <algorithm>

#include "documents/build_drawings.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length legend_width = 46 * mm;
constexpr Length bar_row = 5.5 * mm, longest_bar = 70 * mm, bar_start = 62 * mm;

std::string size_text(const FrameSize& size) {
  return in_mm(size.width, 1) + " × " + in_mm(size.height, 1);
}

// The sheet as cut, turned as the holder lies.
FrameSize sheet_size(const Report& r) {
  const Film& film = r.assembly.film;
  FrameSize size{film.width.value->value,
                 film.height ? film.height->value->value : r.frame.window.height};
  if (r.frame.window.width > r.frame.window.height) std::swap(size.width, size.height);
  return size;
}

Length circle_reach(const CircleStudy& c) {
  return c.circle.value + coverage_95 * c.circle.standard_uncertainty;
}

struct Outline {
  FrameSize size;
  LineStyle style;
  Ink ink;
  std::string meaning;
};

std::vector<Outline> outlines(const Report& r) {
  const Gate& gate = r.assembly.camera.gate;
  return {{sheet_size(r), LineStyle::border, Ink::grey, "sheet as cut"},
          {r.frame.window, LineStyle::hidden, Ink::black, "what the holder shows"},
          {{gate.width->value, gate.height->value},
           LineStyle::centre,
           Ink::black,
           "old picture (gate)"},
          {r.frame.picture, LineStyle::outline, Ink::black, "new picture, edges half lit"},
          {r.frame.whole, LineStyle::dimension, Ink::black, "without shadow"}};
}

void draw_legend(Sheet& sheet, PagePoint corner, const Report& r) {
  Length y = corner.y;
  const auto entry = [&](LineStyle style, Ink ink, const std::string& words,
                         const std::string& size) {
    sheet.stroke(polyline({{corner.x, y + 2 * mm}, {corner.x + 9 * mm, y + 2 * mm}}), style, ink);
    const PagePoint at{corner.x + 11 * mm, y};
    y += sheet.text(at, words + "\n" + size + " mm", small_text, legend_width - 11 * mm) + 2.5 * mm;
  };
  for (const Outline& o : outlines(r)) entry(o.style, o.ink, o.meaning, size_text(o.size));
  const CircleStudy& c = r.circle;
  entry(LineStyle::adjacent, Ink::accent, "image circle, with its 95 % limits",
        "⌀" + mm_with_u(c.circle.value, c.circle.standard_uncertainty));
}

// Shorter bars say nothing.
bool worth_a_bar(const Contribution& c) { return c.share >= 0.005; }

}  // namespace

Length frame_picture_height(const Report& report) {
  return std::max(sheet_size(report).height, std::min(circle_reach(report.circle), 150 * mm)) +
         2 * mm;
}

void draw_frame_picture(Sheet& sheet, PagePoint corner, const Report& report) {
  const Length height = frame_picture_height(report);
  const Length width = content_width - legend_width - 4 * mm;
  const FrameSize largest = sheet_size(report);
  const double scale = largest.width > width || largest.height > 200 * mm ? 0.5 : 1;
  const View view{{corner.x + width / 2, corner.y + height / 2}, scale};
  const FrameSize picture = report.frame.picture;
  const auto frame = [&](const FrameSize& s) {
    return rectangle(view({-s.width / 2, s.height / 2}), view({s.width / 2, -s.height / 2}));
  };
  Path shadow = frame(report.frame.window);
  shadow += frame(picture);
  sheet.fill(shadow, Ink::grey, 0.22);
  for (const Outline& o : outlines(report)) sheet.stroke(frame(o.size), o.style, o.ink);
  const CircleStudy& c = report.circle;
  const Length u = coverage_95 * c.circle.standard_uncertainty;
  for (const Length diameter : {c.circle.value - u, c.circle.value, c.circle.value + u}) {
    if (scale * diameter > width || scale * diameter <= Length{}) continue;
    sheet.stroke(circle(view(PartPoint{}), scale * diameter / 2),
                 diameter == c.circle.value ? LineStyle::adjacent : LineStyle::dimension,
                 Ink::accent);
  }
  centre_cross(sheet, view(PartPoint{}), 3 * mm);
  const PagePoint up{corner.x + 5 * mm, corner.y + 14 * mm};
  sheet.stroke(polyline({up, {up.x, up.y - 10 * mm}}), LineStyle::outline);
  sheet.fill(polygon({{up.x, up.y - 12 * mm},
                      {up.x - 1.3 * mm, up.y - 8 * mm},
                      {up.x + 1.3 * mm, up.y - 8 * mm}}),
             Ink::black);
  sheet.label({up.x + 2.5 * mm, up.y - 6 * mm}, "up", small_text);
  draw_legend(sheet, {corner.x + width + 4 * mm, corner.y + 6 * mm}, report);
}

Length budget_height(const std::vector<Contribution>& budget) {
  return bar_row * static_cast<double>(std::ranges::count_if(budget, worth_a_bar)) + 2 * mm;
}

void draw_budget(Sheet& sheet, PagePoint corner, const std::vector<Contribution>& budget) {
  Length y = corner.y;
  for (const Contribution& c : budget) {
    if (!worth_a_bar(c)) continue;
    sheet.label({corner.x + bar_start - 2 * mm, y + 3.6 * mm}, c.name,
                {.size = 8 * point, .align = Align::right});
    const Length length = std::max(0.2 * mm, c.share * longest_bar);
    sheet.fill(rectangle({corner.x + bar_start, y + 0.8 * mm},
                         {corner.x + bar_start + length, y + 4.4 * mm}),
               Ink::grey, 0.8);
    sheet.label({corner.x + bar_start + length + 1.5 * mm, y + 3.6 * mm},
                fixed(100 * c.share, 0) + " %, ± " + fixed(coverage_95 * c.contribution, 2) + " mm",
                {.size = 8 * point});
    y += bar_row;
  }
}

}  // namespace backfit::paper
