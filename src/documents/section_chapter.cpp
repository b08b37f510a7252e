// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/camera_section.hpp"
#include "documents/set_back_sum.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length left_width = 101 * mm, right_start = 106 * mm;
constexpr Length right_width = content_width - right_start;
constexpr Length caption_height = 6 * mm, balloons_height = 15 * mm;
constexpr Length balloon_radius = 2.1 * mm, balloon_gap = 5 * mm;
constexpr Length row = 6.5 * mm;      // between dimension lines
constexpr Length first_row = 7 * mm;  // below the drawing
constexpr Length chapter_room = 230 * mm;
constexpr Length air = 4 * mm;

// `wanted` in rising order, moved as little as keeps them `gap` apart and within low..high:
// means of neighbours that crowd each other.
std::vector<Length> spread(const std::vector<Length>& wanted, Length gap, Length low, Length high) {
  struct Group {
    Length sum;
    double count;
    Length mean() const { return sum / count; }
  };
  std::vector<Group> groups;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    groups.push_back({wanted[i] - static_cast<double>(i) * gap, 1});
    while (groups.size() > 1 && groups[groups.size() - 2].mean() > groups.back().mean()) {
      const Group last = groups.back();
      groups.pop_back();
      groups.back().sum += last.sum;
      groups.back().count += last.count;
    }
  }
  const Length top = std::max(low, high - static_cast<double>(wanted.size() - 1) * gap);
  std::vector<Length> result;
  for (const Group& g : groups) {
    for (int k = 0; k < static_cast<int>(g.count); ++k) {
      result.push_back(std::clamp(g.mean(), low, top) + static_cast<double>(result.size()) * gap);
    }
  }
  return result;
}

// What a view shows: a stretch of the section at a scale, its upper left corner at `corner`.
struct Pane {
  PagePoint corner;
  Length low_z, high_z, low_y, high_y;
  double scale;

  View view() const { return {{corner.x - scale * low_z, corner.y + scale * high_y}, scale}; }
  PagePoint opposite() const {
    return {corner.x + scale * (high_z - low_z), corner.y + scale * (high_y - low_y)};
  }
};

std::string scale_text(double scale) {
  return scale >= 1 ? fmt::format("{:g}:1", scale) : fmt::format("1:{:g}", 1 / scale);
}

// Numbers over the pane with a line down to each plane's upper end.
void draw_balloons(Sheet& sheet, const Pane& pane, const std::vector<Plane>& planes, Length left,
                   Length right) {
  std::vector<Length> wanted;
  std::vector<std::size_t> shown;
  for (std::size_t i = 0; i < planes.size(); ++i) {
    if (planes[i].z < pane.low_z || planes[i].z > pane.high_z) continue;
    if (planes[i].edge < pane.low_y - 5 * mm) continue;
    wanted.push_back(pane.view()({planes[i].z, 0 * mm}).x);
    shown.push_back(i);
  }
  if (wanted.empty()) return;
  const Length gap =
      std::min(balloon_gap,
               (right - left) / static_cast<double>(std::max<std::size_t>(1, wanted.size() - 1)));
  const std::vector<Length> at = spread(wanted, gap, left + balloon_radius, right - balloon_radius);
  TextStyle number{.size = 7 * point, .align = Align::centre};
  const Length y = pane.corner.y - balloons_height + balloon_radius;
  for (std::size_t k = 0; k < shown.size(); ++k) {
    const PagePoint centre{at[k], y};
    const Length end = std::max(
        pane.view()({0 * mm, std::min(planes[shown[k]].edge, pane.high_y)}).y, pane.corner.y);
    sheet.stroke(polyline({{at[k], y + balloon_radius},
                           {at[k], y + balloon_radius + 1.5 * mm},
                           {wanted[k], pane.corner.y - 3 * mm},
                           {wanted[k], end}}),
                 LineStyle::dimension);
    sheet.stroke(circle(centre, balloon_radius), LineStyle::dimension);
    sheet.label({centre.x, y + 0.36 * number.size}, std::to_string(shown[k] + 1), number);
  }
}

void draw_pane(Sheet& sheet, const Pane& pane, const Report& report, const CameraSection& section) {
  Sheet inside(sheet.fonts());
  draw_camera(inside, pane.view(), report, section);
  sheet.inset(rectangle(pane.corner, pane.opposite()), std::move(inside));
}

// A dimension along z below the pane; none when the two places coincide.
void across(Sheet& sheet, const Pane& pane, PartPoint from, PartPoint to, int line,
            const std::string& label) {
  if (abs(from.x - to.x) < 0.005 * mm) return;
  const Length below = std::min(from.y, to.y) - pane.low_y;
  const Length offset = pane.scale * below + first_row + line * row;
  dimension(sheet, pane.view(), {from, to, Along::x, -offset, label});
}

// --- The whole camera ---

// No higher than `room` if a scale allows it.
Pane whole_pane(PagePoint at, const CameraSection& s, Length room) {
  const Length first = std::min(s.nearest_pupil, s.pupil.z), high = s.holder_back + 4 * mm;
  const Length half = s.body + 1 * mm;
  Pane pane{{at.x, at.y + caption_height + balloons_height}, {}, high, -half, half, 1};
  for (const double denominator : {1.0, 2.0, 2.5, 4.0, 5.0, 10.0, 20.0, 50.0}) {
    pane.scale = 1 / denominator;
    pane.low_z = first - std::max(13 * mm, 7 * mm / pane.scale);  // the barrel, or an arrow's tail
    if (pane.scale * (high - pane.low_z) <= left_width - 14 * mm && pane.scale * 2 * half <= room) {
      break;
    }
  }
  return pane;
}

Length whole_height(const CameraSection& s, Length room) {
  return whole_pane({}, s, room).opposite().y + first_row + 2 * row + 3 * mm;
}

void draw_whole(Sheet& sheet, const Pane& pane, const Report& report, const CameraSection& s) {
  const PagePoint at{pane.corner.x, pane.corner.y - caption_height - balloons_height};
  TextStyle caption = small_text;
  caption.bold = true;
  sheet.label({at.x, at.y + 3 * mm}, "Cut through the middle, " + scale_text(pane.scale), caption);
  draw_pane(sheet, pane, report, s);
  draw_balloons(sheet, pane, s.planes, at.x, at.x + left_width);
  const Length r = -s.pupil.radius;
  // Downwards from the longest, so that no label stands in another's extension lines.
  across(sheet, pane, {s.pupil.z, r}, {s.emulsion, -s.body}, 0,
         "pupil to emulsion " + in_mm(s.emulsion - s.pupil.z));
  across(sheet, pane, {s.old_pupil, r}, {s.pupil.z, r}, 1,
         "lens back " + place_mm(s.pupil.z - s.old_pupil));
  across(sheet, pane, {s.nearest_pupil, r}, {s.old_pupil, r}, 2,
         "travel forward " + in_mm(s.old_pupil - s.nearest_pupil));
  const auto upright = [&](Length half, int line, const std::string& what) {
    if (half < 0.5 * mm) return;
    dimension(sheet, pane.view(),
              {{s.holder_back, -half},
               {s.holder_back, half},
               Along::y,
               4 * mm + line * row,
               what + " " + in_mm(2 * half)});
  };
  upright(s.half, 0, "picture");
  upright(s.window_edge, 1, "window");
}

// --- The last millimetres ---

Pane detail_pane(PagePoint at, const CameraSection& s) {
  const Length low = std::min({s.gate, 0 * mm, s.seat}) - 2.5 * mm;
  const Length high = std::max({s.septum, s.emulsion, 0 * mm}) + 2.5 * mm;
  const Length top = s.groove_outer + 3 * mm;
  const Length bottom = std::min(s.narrowest_edge, s.window_edge) - 3 * mm;
  double scale = 1;
  for (const double s_try : {10.0, 5.0, 4.0, 3.0, 2.0, 1.0}) {
    scale = s_try;
    if (scale * (high - low) <= right_width && scale * (top - bottom) <= 152 * mm) break;
  }
  const Length shown = std::min(top - bottom, 152 * mm / scale);
  const Length width = std::min(high - low, right_width / scale);
  return {
      {at.x, at.y + caption_height + balloons_height}, high - width, high, top - shown, top, scale};
}

Length detail_height(const CameraSection& s) {
  return detail_pane({}, s).opposite().y + first_row + 4 * row + 3 * mm;
}

void draw_detail(Sheet& sheet, PagePoint at, const Report& report, const CameraSection& s) {
  const Pane pane = detail_pane(at, s);
  TextStyle caption = small_text;
  caption.bold = true;
  sheet.label({at.x, at.y + 3 * mm},
              (s.along == Along::y ? "Upper edge, " : "Right edge, ") + scale_text(pane.scale),
              caption);
  draw_pane(sheet, pane, report, s);
  sheet.stroke(rectangle(pane.corner, pane.opposite()), LineStyle::dimension, Ink::grey);
  draw_balloons(sheet, pane, s.planes, at.x, at.x + right_width);
  const auto below = [&](Length from, Length to, int line, const std::string& label) {
    across(sheet, pane, {from, pane.low_y}, {to, pane.low_y}, line, label);
  };
  const Assembly& a = report.assembly;
  const Estimate<Length>& set_back = report.register_.set_back;
  below(s.face, s.septum, 0, "depth " + place_mm(s.septum - s.face));
  below(s.seat, s.face, 1, "plate " + place_mm(s.face - s.seat));
  below(0 * mm, s.seat, 2, "seat " + within(a.camera.seat->behind_film.value));
  below(s.gate, 0 * mm, 3, "gate " + within(a.camera.gate.before_film.value));
  below(0 * mm, s.emulsion, 4,
        "set-back " + mm_with_u(set_back.value, set_back.standard_uncertainty));
}

// --- What stands beside: the planes, and the sum that leads to the emulsion ---

Table legend(const CameraSection& s) {
  Table table{{{"No.", 9 * mm, Align::right},
               {"What", 47 * mm},
               {"z, mm", 18 * mm, Align::right},
               {"clear, mm", 27 * mm, Align::right}},
              {}};
  for (std::size_t i = 0; i < s.planes.size(); ++i) {
    const Plane& p = s.planes[i];
    table.rows.push_back({std::to_string(i + 1), p.name, place_mm(p.z), p.opening});
  }
  return table;
}

Length height_of(const Fonts& fonts, const Table& table) {
  Length height = head_height(fonts, table);
  for (std::size_t i = 0; i < table.rows.size(); ++i) height += row_height(fonts, table, i);
  return height;
}

}  // namespace

void add_section(Flow& flow, const Report& report) {
  const CameraSection s(report);
  flow.new_page();
  flow.heading("The camera in section");
  flow.paragraph(
      fmt::format(
          "Seen from {}, the light running from left to right; true proportions, mm. z counts "
          "from the original film plane, towards the back. Dark tint: no light from the "
          "lens. Light tint: light from part of it. Chain lines with two dots: neighbours, "
          "and what the survey doesn't give, not to size.",
          s.along == Along::y ? "its left side" : "above"),
      small_text);
  const Table planes = legend(s), sum = set_back_sum(report);
  const Length tables = height_of(flow.fonts(), planes) + height_of(flow.fonts(), sum) + 2 * air;
  Length room = 110 * mm;  // shrinks until the tables find their place below
  while (whole_height(s, room) + tables > chapter_room && room > 45 * mm) room = room - 5 * mm;
  const bool beside = whole_height(s, room) + tables <= chapter_room;
  const Length height =
      std::max(detail_height(s), whole_height(s, room) + (beside ? tables : 0 * mm));
  flow.block(height, [&report, s, planes, sum, beside, room](Sheet& sheet, PagePoint at) {
    draw_whole(sheet, whole_pane(at, s, room), report, s);
    draw_detail(sheet, {at.x + right_start, at.y}, report, s);
    if (!beside) return;
    const Length start = at.y + whole_height(s, room) + air;
    const Length used = draw(sheet, PagePoint{at.x, start}, planes);
    draw(sheet, PagePoint{at.x, start + used + air}, sum);
  });
  if (!beside) {
    flow.table(planes);
    flow.table(sum);
  }
}

}  // namespace backfit::paper
