// SPDX-License-Identifier: MIT
#include "conversion/screens.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace backfit {
namespace {

Polygon polygon_of(const Outline& o) {
  const PlanePoint centre{o.x ? o.x->value.value : Length{}, o.y ? o.y->value.value : Length{}};
  if (o.width) return rectangle(o.width->value.value, o.height->value.value, centre);
  if (o.diameter) return circle(o.diameter->value.value, centre);
  Polygon p;
  for (std::size_t i = 0; i < o.corners_x.size(); ++i) {
    p.push_back({*o.corners_x[i], *o.corners_y[i]});
  }
  return p;
}

// Twice the area to the left of the path from a over b to c.
double side(const PlanePoint& a, const PlanePoint& b, const PlanePoint& c) {
  return ((b.x - a.x) / mm) * ((c.y - a.y) / mm) - ((b.y - a.y) / mm) * ((c.x - a.x) / mm);
}

bool sides_cross(const Polygon& p) {
  const std::size_t n = p.size();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = i + 2; k < n; ++k) {
      if (i == 0 && k == n - 1) continue;  // neighbours
      const PlanePoint& a = p[i];
      const PlanePoint& b = p[i + 1];
      const PlanePoint& c = p[k];
      const PlanePoint& d = p[(k + 1) % n];
      if (side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0) return true;
    }
  }
  return false;
}

bool holds_axis(const Polygon& p) {
  bool inside = false;
  for (std::size_t i = 0, k = p.size() - 1; i < p.size(); k = i++) {
    if ((p[i].y > Length{}) == (p[k].y > Length{})) continue;
    const Length x = p[i].x - (p[i].y / (p[k].y - p[i].y)) * (p[k].x - p[i].x);
    if (x > Length{}) inside = !inside;
  }
  return inside;
}

void check_outline(const Outline& o, bool is_obstacle, Diagnostics& diagnostics) {
  const bool rectangular = o.width || o.height;
  const bool cornered = !o.corners_x.empty() || !o.corners_y.empty();
  if (static_cast<int>(rectangular) + static_cast<int>(o.diameter.has_value()) +
          static_cast<int>(cornered) !=
      1) {
    diagnostics.error(
        o.name.place ? o.name.place : o.place,
        fmt::format("the {} has {}; it needs width and height, or a diameter, or "
                    "corners_x and corners_y",
                    *o.name,
                    rectangular || cornered || o.diameter ? "more than one shape" : "no shape"));
    return;
  }
  if (rectangular && (!o.width || !o.height)) {
    diagnostics.error(
        (o.width ? o.width : o.height)->place,
        fmt::format("the {} has a {} and no {}", *o.name, o.width ? "width" : "height",
                    o.width ? "height" : "width"),
        fmt::format("add {}, or write diameter for a round one", o.width ? "height" : "width"));
    return;
  }
  if (cornered) {
    const Place& place = (o.corners_x.empty() ? o.corners_y : o.corners_x).front().place;
    if (o.corners_x.size() != o.corners_y.size() || o.corners_x.size() < 3) {
      diagnostics.error(place, fmt::format("the {} has {} corners_x and {} corners_y; it needs as "
                                           "many of each, three or more",
                                           *o.name, o.corners_x.size(), o.corners_y.size()));
      return;
    }
    if (o.x || o.y) {
      diagnostics.error((o.x ? o.x : o.y)->place,
                        "corners count from the axis: they take no x or y of their middle");
      return;
    }
    if (sides_cross(polygon_of(o))) {
      diagnostics.error(place, fmt::format("the sides of the {} cross; its corners must stand in "
                                           "order around it",
                                           *o.name));
      return;
    }
  }
  if (holds_axis(polygon_of(o)) == is_obstacle) {
    diagnostics.error(o.name.place,
                      fmt::format("the {} {} the lens's axis, where the picture's middle gets its "
                                  "light",
                                  *o.name, is_obstacle ? "stands on" : "does not hold"),
                      is_obstacle ? "" : "an obstacle belongs under [[obstacles]]");
  }
}

}  // namespace

FrameSize NamedScreen::reach() const {
  FrameSize size;
  for (const Polygon& part : screen.parts) {
    for (const PlanePoint& p : part) {
      size.width = std::max(size.width, 2 * abs(p.x));
      size.height = std::max(size.height, 2 * abs(p.y));
    }
  }
  return size;
}

NamedScreen rectangular_screen(std::string name, const RectangularOpening& r, const Place& place) {
  return {std::move(name), opening(r.z, rectangle(r.width, r.height)), place, r};
}

NamedScreen screen_of(const Outline& o, bool is_obstacle) {
  const Length z = -o.before_film->value;
  const Place place = o.width ? o.width->place : o.diameter ? o.diameter->place : o.place;
  if (!is_obstacle && o.width && !o.x && !o.y) {
    return rectangular_screen(*o.name, {o.width->value.value, o.height->value.value, z}, place);
  }
  const Polygon outline = polygon_of(o);
  return {*o.name, is_obstacle ? obstacle(z, outline) : opening(z, outline), place, {}};
}

void check_outlines(const Camera& camera, Diagnostics& diagnostics) {
  for (const Outline& o : camera.openings) check_outline(o, false, diagnostics);
  for (const Outline& o : camera.obstacles) check_outline(o, true, diagnostics);
}

}  // namespace backfit
