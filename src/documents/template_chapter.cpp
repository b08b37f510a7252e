// SPDX-License-Identifier: MIT
#include "documents/build_chapters.hpp"
#include "documents/drawing.hpp"
#include "documents/true_size.hpp"

namespace backfit::paper {
namespace {

void draw_holes(Sheet& sheet, const View& view, const BackPlate::CountersunkHoles& holes,
                LineStyle head) {
  for (const PlatePoint& p : holes.places) {
    const PagePoint at = view({p.x, p.y});
    sheet.stroke(circle(at, holes.hole_diameter / 2), LineStyle::border);
    sheet.stroke(circle(at, holes.head_diameter / 2), head);
    centre_cross(sheet, at, holes.head_diameter / 2);
  }
}

// Each beyond the plate's edge, its recess in the front face dashed.
void draw_lugs(Sheet& sheet, const View& view, const BackPlate& p) {
  const StrapLugs& l = *p.lugs;
  const Length edge = (l.at_sides ? p.width : p.height) / 2;
  const std::vector<OutlineCorner> outline = outline_of(l, edge);
  constexpr std::size_t corners_of_one = 8;
  for (const double side : {-1.0, 1.0}) {
    const auto at = [&](Length along, Length out) {
      return view(l.at_sides ? PartPoint{side * out, along} : PartPoint{along, side * out});
    };
    for (std::size_t i = 0; i < outline.size(); i += corners_of_one) {
      std::vector<PagePoint> line;
      for (std::size_t k = i; k < i + corners_of_one; ++k) {
        line.push_back(at(outline[k].x, outline[k].y));
      }
      sheet.stroke(polyline(line), LineStyle::border);
      for (const Length y : {edge + StrapLugs::step, edge + l.neck_length - StrapLugs::step}) {
        sheet.stroke(polyline({at(outline[i].x, y), at(outline[i + 7].x, y)}), LineStyle::hidden);
      }
    }
  }
}

void draw_plate(Sheet& sheet, const View& view, const BackPlate& p) {
  const auto box = [&](PlatePoint centre, Length width, Length height, Length radius,
                       LineStyle style) {
    sheet.stroke(rectangle(view({centre.x - width / 2, centre.y + height / 2}),
                           view({centre.x + width / 2, centre.y - height / 2}), radius),
                 style);
  };
  const BackPlate::Tongue& t = p.tongue;
  box({}, p.width, p.height, p.corner_radius, LineStyle::border);
  box({}, p.window_width, p.window_height, 0 * mm, LineStyle::border);
  box({}, t.inner_width, t.inner_height, t.inner_corner_radius, LineStyle::hidden);
  box({}, t.inner_width + 2 * t.wall, t.inner_height + 2 * t.wall,
      t.inner_corner_radius > 0 * mm ? t.inner_corner_radius + t.wall : t.wall, LineStyle::hidden);
  box(p.rib_groove.centre, p.rib_groove.size_x, p.rib_groove.size_y, 0 * mm, LineStyle::border);
  if (p.lugs) draw_lugs(sheet, view, p);
  draw_holes(sheet, view, p.screws, LineStyle::dimension);
  draw_holes(sheet, view, p.fence, LineStyle::hidden);
  centre_cross(sheet, view(PartPoint{}), 8 * mm);
}

void draw_words(Sheet& sheet, const View& view, const BackPlate& p) {
  const Length width = p.window_width - 6 * mm;
  if (width < 30 * mm || p.window_height < 60 * mm) return;
  TextStyle style = small_text;
  style.align = Align::centre;
  const PagePoint at = view({0 * mm, p.window_height / 2});
  sheet.stroke(polyline({{at.x, at.y + 15 * mm}, {at.x, at.y + 7 * mm}}), LineStyle::border);
  sheet.fill(polygon({{at.x, at.y + 4 * mm},
                      {at.x - 1.2 * mm, at.y + 7.5 * mm},
                      {at.x + 1.2 * mm, at.y + 7.5 * mm}}),
             Ink::black);
  sheet.text({at.x - width / 2, at.y + 16 * mm},
             "up\nseen from behind\ndashed: tongue and heads on the front face", style, width);
}

}  // namespace

void add_template(Flow& flow, const Report& report) {
  const BackPlate& plate = *report.assembly.plate;
  add_true_size(flow,
                {"Template, 1:1, seen from behind, up is up",
                 {-plate.overall_width() / 2, -plate.overall_height() / 2},
                 plate.overall_width(),
                 plate.overall_height(),
                 [plate](Sheet& sheet, const View& view) { draw_plate(sheet, view, plate); },
                 [plate](Sheet& sheet, const View& view) { draw_words(sheet, view, plate); }});
}

}  // namespace backfit::paper
