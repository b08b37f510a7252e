// SPDX-License-Identifier: MIT
#include <algorithm>

#include "documents/build_drawings.hpp"
#include "solid/view.hpp"

namespace backfit::paper {
namespace {

constexpr Length view_chord = 0.05 * mm;

double scale_for(const BackPlate& plate) {
  return plate.width > 150 * mm || plate.height > 250 * mm ? 0.2 : 0.5;
}

void draw_lines(Sheet& sheet, const View& view, const Solid& body, backfit::View from) {
  for (const bool visible : {false, true}) {
    for (const ViewLine& line : lines_of(body, from, view_chord)) {
      if (line.visible != visible || !line.sharp) continue;
      std::vector<PagePoint> points;
      for (const PaperPoint& p : line.points) points.push_back(view({p.x, p.y}));
      if (visible) {
        sheet.stroke(polyline(points), LineStyle::border);
      } else if (from == backfit::View::rear) {
        sheet.stroke(polyline(points), LineStyle::hidden, Ink::grey);
      }
    }
  }
}

// Ends of the centre lines outside the plate and a cross in its middle: dimensions inside stay
// free.
void draw_axes(Sheet& sheet, const View& view, const BackPlate& plate) {
  const Length x = plate.width / 2;
  const Length y = plate.height / 2;
  const auto axis = [&](PartPoint from, PartPoint to) {
    sheet.stroke(polyline({view(from), view(to)}), LineStyle::dimension);
  };
  for (const double side : {-1.0, 1.0}) {
    axis({side * (x - 3 * mm), Length{}}, {side * (x + 6 * mm), Length{}});
    axis({Length{}, side * (y - 3 * mm)}, {Length{}, side * (y + 6 * mm)});
  }
  centre_cross(sheet, view(PartPoint{}), 2 * mm);
}

void span(Sheet& sheet, const View& view, Along along, Length size, Length at, Length offset) {
  const Length half = size / 2;
  dimension(sheet, view,
            along == Along::x ? Dimension{{-half, at}, {half, at}, along, offset}
                              : Dimension{{at, -half}, {at, half}, along, offset});
}

void draw_rear_view(Sheet& sheet, const View& view, const BackPlate& p, const Solid& body) {
  draw_lines(sheet, view, body, backfit::View::rear);
  draw_axes(sheet, view, p);
  span(sheet, view, Along::x, p.width, -p.height / 2, -9 * mm);
  span(sheet, view, Along::y, p.height, -p.width / 2, -8 * mm);
  span(sheet, view, Along::x, p.window_width, -p.window_height / 2 + 24 * mm, 0.5 * mm);
  span(sheet, view, Along::y, p.window_height, -p.window_width / 2 + 24 * mm, 0.5 * mm);
}

void draw_front_view(Sheet& sheet, const View& view, const BackPlate& p, const Solid& body) {
  draw_lines(sheet, view, body, backfit::View::front);
  draw_axes(sheet, view, p);
  const BackPlate::Tongue& t = p.tongue;
  span(sheet, view, Along::x, t.inner_width + 2 * t.wall, -p.height / 2, -9 * mm);
  span(sheet, view, Along::y, t.inner_height + 2 * t.wall, p.width / 2, 8 * mm);
  span(sheet, view, Along::x, t.inner_width, -t.inner_height / 2 + 30 * mm, 0.5 * mm);
  span(sheet, view, Along::y, t.inner_height, t.inner_width / 2 - 24 * mm, 0.5 * mm);
}

Path outline_path(const View& view, Length width, Length height, Length radius) {
  return rectangle(view({-width / 2, height / 2}), view({width / 2, -height / 2}), view(radius));
}

void draw_holes(Sheet& sheet, const View& view, const BackPlate::CountersunkHoles& holes) {
  for (const PlatePoint& place : holes.places) {
    const PagePoint at = view({place.x, place.y});
    sheet.stroke(circle(at, holes.hole_diameter / 2), LineStyle::border);
    centre_cross(sheet, at, holes.hole_diameter / 2);
  }
}

}  // namespace

Length plate_drawing_height(const BackPlate& plate) {
  return scale_for(plate) * plate.height + 30 * mm;
}

void draw_plate(Sheet& sheet, PagePoint corner, const BackPlate& plate, const Solid& body) {
  const double scale = scale_for(plate);
  const Length half = scale * plate.width / 2;
  const Length middle = corner.y + 9 * mm + scale * plate.height / 2;
  const View rear{{corner.x + 14 * mm + half, middle}, scale};
  const View front{{corner.x + content_width - 14 * mm - half, middle}, scale};
  const std::string scale_text = scale == 0.5 ? "1:2" : "1:5";
  sheet.label({rear.origin.x, corner.y + 3 * mm}, "from behind, " + scale_text,
              {.size = 7.5 * point, .align = Align::centre});
  sheet.label({front.origin.x, corner.y + 3 * mm}, "from the front, " + scale_text,
              {.size = 7.5 * point, .align = Align::centre});
  draw_rear_view(sheet, rear, plate, body);
  draw_front_view(sheet, front, plate, body);
}

bool template_fits(const BackPlate& plate) {
  return plate.width <= content_width - 22 * mm &&
         plate.height <= content_bottom - content_top - 48 * mm;
}

void draw_template(Sheet& sheet, PagePoint corner, const BackPlate& plate) {
  const View view{{corner.x + plate.width / 2, corner.y + plate.height / 2}, 1};
  sheet.stroke(outline_path(view, plate.width, plate.height, plate.corner_radius),
               LineStyle::dimension);
  sheet.stroke(outline_path(view, plate.window_width, plate.window_height, Length{}),
               LineStyle::dimension);
  const BackPlate::Tongue& t = plate.tongue;
  sheet.stroke(outline_path(view, t.inner_width, t.inner_height, t.inner_corner_radius),
               LineStyle::hidden);
  sheet.stroke(outline_path(view, t.inner_width + 2 * t.wall, t.inner_height + 2 * t.wall,
                            t.inner_corner_radius + t.wall),
               LineStyle::hidden);
  const BackPlate::RibGroove& g = plate.rib_groove;
  sheet.stroke(rectangle(view({g.centre.x - g.size_x / 2, g.centre.y + g.size_y / 2}),
                         view({g.centre.x + g.size_x / 2, g.centre.y - g.size_y / 2})),
               LineStyle::dimension);
  draw_holes(sheet, view, plate.screws);
  draw_holes(sheet, view, plate.fence);
  centre_cross(sheet, view(PartPoint{}), 8 * mm);
  const TextStyle words{.size = 8 * point, .align = Align::centre};
  sheet.label(view({Length{}, plate.window_height / 2 - 10 * mm}), "up ↑", words);
  sheet.label(view({Length{}, plate.window_height / 2 - 16 * mm}), "seen from behind", words);
  check_ruler(sheet, {corner.x, corner.y + plate.height + 8 * mm}, Along::x);
  check_ruler(sheet, {corner.x + plate.width + 6 * mm, corner.y}, Along::y);
}

}  // namespace backfit::paper
