// SPDX-License-Identifier: MIT
#include "documents/timer_box_drawing.hpp"

#include <fmt/format.h>

#include "documents/build_sheet.hpp"
#include "documents/drawing.hpp"
#include "documents/flow.hpp"

namespace backfit::paper {
namespace {

constexpr Length left_of_panel = 14 * mm;  // room for the upright dimension
constexpr Length above = 16 * mm;          // for a caption and the dimension over the panel
constexpr Length between = 26 * mm;        // panel and cut
constexpr Length under_panel = 8 * mm;

Length side_by_side(const TimerBox& b) {
  return left_of_panel + b.width + between + b.width + 16 * mm;
}
bool beside(const TimerBox& b) { return side_by_side(b) <= content_width; }
Length cut_height(const TimerBox& b) { return b.wall + b.depth + b.panel; }

void caption(Sheet& sheet, PagePoint at, std::string words) {
  sheet.label(at, std::move(words), {.size = 8 * point, .bold = true});
}

void draw_panel(Sheet& sheet, PagePoint centre, const TimerBox& b) {
  const View view{centre, 1};
  const Length x = b.width / 2, y = b.height / 2;
  sheet.stroke(rectangle(view({-x, y}), view({x, -y}), b.corner_radius), LineStyle::outline);
  sheet.stroke(circle(centre, b.bush / 2), LineStyle::outline);
  centre_cross(sheet, centre, b.bush / 2);
  for (const double right : {-1.0, 1.0}) {
    for (const double up : {-1.0, 1.0}) {
      const PagePoint at = view({right * b.screw_x(), up * b.screw_y()});
      sheet.stroke(circle(at, b.through / 2), LineStyle::outline);
      centre_cross(sheet, at, b.through / 2);
    }
  }
  for (const std::vector<OutlineCorner>& outline : outlines_of(b.dial)) {
    std::vector<PagePoint> corners;
    corners.reserve(outline.size());
    for (const OutlineCorner& c : outline) corners.push_back(view({c.x, c.y}));
    sheet.fill(polygon(corners), Ink::black);
  }
  dimension(sheet, view, {{-x, y}, {x, y}, Along::x, 6 * mm});
  dimension(sheet, view, {{-x, -y}, {-x, y}, Along::y, -8 * mm});
  const PagePoint bush_words = view({x - 1 * mm, -y - 4 * mm});
  diameter_callout(sheet, view, {Length{}, Length{}}, b.bush, bush_words);
  diameter_callout(sheet, view, {-b.screw_x(), -b.screw_y()}, b.through,
                   view({-b.screw_x() + 6 * mm, -y - 4 * mm}), ", 4 times");
}

void draw_cut(Sheet& sheet, PagePoint foot, const TimerBox& b) {
  const View view{foot, 1};  // the middle of the tray's underside
  const Length x = b.width / 2, in = x - b.wall, top = b.wall + b.depth;
  const Path tray = polygon(view({{-x, {}},
                                  {x, {}},
                                  {x, top},
                                  {in, top},
                                  {in, b.wall},
                                  {-in, b.wall},
                                  {-in, top},
                                  {-x, top}}));
  const Length lip_out = in - b.gap, lip_in = lip_out - b.wall, lid = top + b.panel;
  const auto half = [&](double side) {
    return polygon(view({{side * b.bush / 2, lid},
                         {side * x, lid},
                         {side * x, top},
                         {side * lip_out, top},
                         {side * lip_out, top - b.lip},
                         {side * lip_in, top - b.lip},
                         {side * lip_in, top},
                         {side * b.bush / 2, top}}));
  };
  sheet.hatch(tray, 1.6 * mm, 45 * deg);
  sheet.stroke(tray, LineStyle::outline);
  for (const double side : {-1.0, 1.0}) {
    sheet.hatch(half(side), 1.6 * mm, -45 * deg);
    sheet.stroke(half(side), LineStyle::outline);
  }
  dimension(sheet, view, {{x, {}}, {x, top}, Along::y, 7 * mm});
  dimension(sheet, view, {{-in, b.wall}, {in, b.wall}, Along::x, -b.wall - 6 * mm});
}

}  // namespace

Length box_drawing_height(const TimerBox& b) {
  const Length panel = above + b.height + under_panel;
  return beside(b) ? panel : panel + above + cut_height(b) + 10 * mm;
}

void draw_timer_box(Sheet& sheet, PagePoint corner, const TimerBox& b) {
  caption(sheet, {corner.x, corner.y + 4 * mm}, "Panel from outside, 1:1");
  const PagePoint centre{corner.x + left_of_panel + b.width / 2, corner.y + above + b.height / 2};
  draw_panel(sheet, centre, b);
  const Length left = beside(b) ? centre.x + b.width / 2 + between : corner.x + left_of_panel;
  const Length cap = beside(b) ? corner.y : centre.y + b.height / 2 + under_panel + 2 * mm;
  caption(sheet, {left, cap + 4 * mm}, "Panel on tray, cut through the shaft, 1:1");
  draw_cut(sheet, {left + b.width / 2, cap + above + cut_height(b)}, b);
}

}  // namespace backfit::paper
