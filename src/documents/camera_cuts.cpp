// SPDX-License-Identifier: MIT
// The template of what must go from the camera before an insert goes in.
#include <fmt/format.h>

#include <algorithm>

#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/drawing.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length ruler_below = 12 * mm, ruler_beside = 16 * mm, caption_above = 14 * mm;
constexpr Length around = 9 * mm;  // for dimensions
constexpr Length largest_height = 190 * mm;

TextStyle centred(TextStyle style) {
  style.align = Align::centre;
  return style;
}

bool upright(const InsertStudy& s) {
  return s.path.design.goes == FilmTravel::up || s.path.design.goes == FilmTravel::down;
}

void box_at(Sheet& sheet, const View& view, PartPoint low, PartPoint high, LineStyle style) {
  sheet.stroke(rectangle(view({low.x, high.y}), view({high.x, low.y})), style);
}

// The chamber from behind: x right, y up.
void draw_behind(Sheet& sheet, const View& view, const Assembly& a, const InsertStudy& s) {
  const Chamber& c = *a.camera.chamber;
  const RollInsert& i = *s.part;
  const Length cx = c.width->value / 2, cy = c.height->value / 2;
  box_at(sheet, view, {-cx, -cy}, {cx, cy}, LineStyle::outline);
  const Gate& g = a.camera.gate;
  box_at(sheet, view, {-g.width->value / 2, -g.height->value / 2},
         {g.width->value / 2, g.height->value / 2}, LineStyle::hidden);
  const bool vertical = upright(s);
  const auto insert_box = [&](Length along, Length across, LineStyle style) {
    const Length x = vertical ? across : along, y = vertical ? along : across;
    box_at(sheet, view, {-x, -y}, {x, y}, style);
  };
  insert_box(i.half_length(), i.half_width(), LineStyle::adjacent);
  insert_box(i.gate.frame_length / 2, i.gate.frame_width / 2, LineStyle::adjacent);
  centre_cross(sheet, view(PartPoint{}), 6 * mm);
  for (const ChamberMeeting& m : s.meetings) {
    const PagePoint upper = view({m.low.x, m.high.y}), lower = view({m.high.x, m.low.y});
    const Path shape = rectangle(upper, lower);
    if (m.taken_out) {
      sheet.hatch(shape, 1.2 * mm);
    } else {
      sheet.fill(shape, Ink::grey, 0.5);
    }
    sheet.stroke(shape, m.taken_out ? LineStyle::outline : LineStyle::border);
    const bool above = m.low.y + m.high.y > 0 * mm;
    const std::string words = m.name + (m.taken_out ? ": take out" : ": stays");
    const Length half = sheet.fonts().size(words, small_text).width / 2 + 0.8 * mm;
    const Length y = above ? lower.y + 4 * mm : upper.y - 2 * mm;
    const Length x = (upper.x + lower.x) / 2;
    sheet.fill(rectangle({x - half, y - 2.6 * mm}, {x + half, y + 0.9 * mm}), Ink::white);
    sheet.label({x, y}, words, centred(small_text));
    // From the axis, where a caliper on the gate finds it.
    dimension(sheet, view,
              {{0 * mm, 0 * mm},
               {m.low.x, above ? m.low.y : m.high.y},
               Along::y,
               -(view(m.low.x + cx) + 4 * mm),
               {}});
  }
  sheet.label(view({0 * mm, -g.height->value / 2 + 2 * mm}), "old gate", centred(small_text));
}

// A wall of the camera seen from outside.
struct WallView {
  std::string caption;
  Length low_x, high_x, low_y, high_y;  // of the chamber behind it
  PartPoint hole;
  Length back, film;  // where the back's inside and the old film plane run
  bool z_across = true;
};

WallView wall_view(const Assembly& a, const KnobHole& hole) {
  const Chamber& c = *a.camera.chamber;
  const Length front = -c.before_film->value, back = c.behind_film->value;
  const Length half =
      (hole.wall == CameraWall::left || hole.wall == CameraWall::right ? c.height->value
                                                                       : c.width->value) /
      2;
  const Point3& m = hole.middle;
  switch (hole.wall) {
    case CameraWall::right:
      return {"Right wall from outside; lens to the right",
              -back,
              -front,
              -half,
              half,
              {-m.z, m.y},
              -back,
              0 * mm};
    case CameraWall::left:
      return {"Left wall from outside; lens to the left",
              front,
              back,
              -half,
              half,
              {m.z, m.y},
              back,
              0 * mm};
    case CameraWall::top:
      return {"Top from outside; lens up",
              -half,
              half,
              -back,
              -front,
              {m.x, -m.z},
              -back,
              0 * mm,
              false};
    case CameraWall::bottom:
      break;
  }
  return {
      "Bottom from outside; lens down", -half, half, front, back, {m.x, m.z}, back, 0 * mm, false};
}

void draw_wall(Sheet& sheet, const View& view, const WallView& w, Length diameter) {
  box_at(sheet, view, {w.low_x, w.low_y}, {w.high_x, w.high_y}, LineStyle::outline);
  const auto line = [&](PartPoint from, PartPoint to, LineStyle style) {
    sheet.stroke(polyline({view(from), view(to)}), style);
  };
  const Length past = 3 * mm;
  if (w.z_across) {
    line({w.film, w.low_y}, {w.film, w.high_y}, LineStyle::hidden);
    line({w.low_x - past, 0 * mm}, {w.high_x + past, 0 * mm}, LineStyle::centre);
  } else {
    line({w.low_x, w.film}, {w.high_x, w.film}, LineStyle::hidden);
    line({0 * mm, w.low_y - past}, {0 * mm, w.high_y + past}, LineStyle::centre);
  }
  const PagePoint at = view(w.hole);
  sheet.hatch(circle(at, view(diameter) / 2), 1.2 * mm);
  sheet.stroke(circle(at, view(diameter) / 2), LineStyle::outline);
  centre_cross(sheet, at, view(diameter) / 2);
  // From the axis' height, and from the inside of the closed back.
  if (w.z_across) {
    dimension(sheet, view, {{w.high_x, 0 * mm}, {w.hole.x, w.hole.y}, Along::y, 6 * mm, {}});
    dimension(sheet, view,
              {{w.back, w.hole.y},
               {w.hole.x, w.hole.y},
               Along::x,
               view(w.high_y - w.hole.y) + 4 * mm,
               {}});
  } else {
    dimension(sheet, view,
              {{0 * mm, w.hole.y},
               {w.hole.x, w.hole.y},
               Along::x,
               view(w.high_y - w.hole.y) + 4 * mm,
               {}});
    dimension(sheet, view, {{w.high_x, w.back}, {w.hole.x, w.hole.y}, Along::y, 6 * mm, {}});
  }
}

Table cut_table(const InsertStudy& s) {
  Table table{{{"What", 50 * mm},
               {"from x, mm", 21 * mm, Align::right},
               {"to x", 18 * mm, Align::right},
               {"from y", 18 * mm, Align::right},
               {"to y", 18 * mm, Align::right},
               {"from z", 18 * mm, Align::right},
               {"to z", 18 * mm, Align::right},
               {"", 19 * mm}},
              {}};
  for (const ChamberMeeting& m : s.meetings) {
    table.rows.push_back({m.name, place_mm(m.low.x), place_mm(m.high.x), place_mm(m.low.y),
                          place_mm(m.high.y), place_mm(m.low.z), place_mm(m.high.z),
                          m.taken_out ? "take out" : "stays"});
  }
  if (s.hole) {
    const Point3& m = s.hole->middle;
    table.rows.push_back({fmt::format("hole for the knob's shaft, ⌀{}", in_mm(s.hole->diameter)),
                          place_mm(m.x), "", place_mm(m.y), "", place_mm(m.z), "", "drill"});
  }
  return table;
}

}  // namespace

void add_camera_cuts(Flow& flow, const Report& report) {
  const Assembly& a = report.assembly;
  const InsertStudy& s = *report.insert;
  const Chamber& c = *a.camera.chamber;
  flow.new_page();
  flow.heading("What must go from the camera, 1:1");
  flow.paragraph(
      "Print at 100 %, not fitted to the page. Measure both rulers: if one is off by 0.3 mm or "
      "more "
      "over its 100 mm, this sheet is no good. Hatched: to be cut or taken out; grey: must stay, "
      "the "
      "insert is notched round it; chain lines with two dots: insert and picture; dashed: old "
      "gate, "
      "and on the wall the film plane. Prick through the crosses before you cut; check each place "
      "against the camera first.",
      small_text);
  flow.boxed(
      {Sign::warning, "Before the first cut",
       "Take cells out, and let nobody with a charged flash near it: a flash capacitor stays "
       "dangerous for days; one that must come out is work for somebody qualified. Shutter "
       "closed and its blades covered, bellows and lens sealed with tape against filings. Eye "
       "protection: springs and spring-loaded rollers fly when they are freed; hold them with "
       "pliers under a cloth. Clamp the body, cut away from the hand, and deburr every edge. "
       "Brush and vacuum the filings out, don't blow. Old black paint may "
       "hold lead: don't sand it dry."});
  const Length width = c.width->value, height = c.height->value;
  std::optional<WallView> wall;
  if (s.hole) wall = wall_view(a, *s.hole);
  const Length wall_width = wall ? wall->high_x - wall->low_x : Length{};
  const Length wall_height = wall ? wall->high_y - wall->low_y : Length{};
  const Length room = content_width - ruler_beside;
  const bool side_by_side =
      wall && 2 * around + width + 2 * around + wall_width <= room && wall_height <= largest_height;
  const auto too_large = [&](Length w, Length h) {
    return w + 2 * around > room || h > largest_height;
  };
  const auto rulers = [](Sheet& sheet, PagePoint at, Length high) {
    check_ruler(sheet, {at.x + around, at.y + caption_above + high + 7 * mm}, Along::x);
    check_ruler(sheet, {at.x + content_width - ruler_beside, at.y + caption_above + 1 * mm},
                Along::y);
  };
  TextStyle caption = small_text;
  caption.bold = true;
  if (too_large(width, height)) {
    flow.paragraph("The chamber is larger than a sheet: mark it by the table.", body_text);
  } else {
    const Length high = std::max({height, side_by_side ? wall_height : Length{}, 102 * mm});
    flow.block(caption_above + high + 7 * mm + ruler_below, [=, &a, &s](Sheet& sheet,
                                                                        PagePoint at) {
      sheet.label({at.x + around, at.y + 3 * mm}, "The chamber from behind, up is up", caption);
      draw_behind(sheet, {{at.x + around + width / 2, at.y + caption_above + height / 2}, 1}, a, s);
      if (side_by_side) {
        const Length left = at.x + 3 * around + width;
        sheet.label({left, at.y + 3 * mm}, wall->caption, caption);
        draw_wall(sheet, {{left - wall->low_x, at.y + caption_above + wall->high_y}, 1}, *wall,
                  s.hole->diameter);
      }
      rulers(sheet, at, high);
    });
  }
  if (wall && !side_by_side && !too_large(wall_width, wall_height)) {
    const Length high = std::max(wall_height, 102 * mm);
    flow.block(caption_above + high + 7 * mm + ruler_below, [=, &s](Sheet& sheet, PagePoint at) {
      const Length left = at.x + 2 * around;
      sheet.label({left, at.y + 3 * mm}, wall->caption, caption);
      draw_wall(sheet, {{left - wall->low_x, at.y + caption_above + wall->high_y}, 1}, *wall,
                s.hole->diameter);
      rulers(sheet, at, high);
    });
  }
  flow.paragraph(
      "Places from the optical axis, the middle of the old gate, x right and y up seen from "
      "behind, z from the old film plane "
      "towards the back.",
      small_text);
  flow.table(cut_table(s));
}

}  // namespace backfit::paper
