// SPDX-License-Identifier: MIT
#include "lighttrap/room.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>

#include "lighttrap/gloss.hpp"
#include "lighttrap/sheet.hpp"

namespace backfit::ray {
namespace {

// Of the first cut: among bodies a finer one is made where light is found to come by.
constexpr std::size_t most_zones = 12000, most_zones_of_bodies = 4000;
constexpr double some_cells = 16;  // of the film, at least

}  // namespace

Kernel kernel_of(const Surfaces& surfaces, const FilmPlane* film) {
  std::vector<Vec> points;
  std::vector<std::array<std::uint32_t, 3>> triangles;
  for (const SpacePoint& p : surfaces.points) points.push_back(vec_mm(p));
  for (const auto& t : surfaces.triangles) triangles.push_back(t.corners);
  if (film != nullptr) {
    const auto n = static_cast<std::uint32_t>(points.size());
    const Vec corner = vec_mm(film->corner), w = vec_mm(film->width), h = vec_mm(film->height);
    points.insert(points.end(), {corner, corner + w, corner + w + h, corner + h});
    triangles.push_back({n, n + 1, n + 2});
    triangles.push_back({n, n + 2, n + 3});
  }
  return {points, triangles};
}

namespace {

double size_of(const Surfaces& surfaces) {
  Vec low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  for (const SpacePoint& p : surfaces.points) {
    const Vec v = vec_mm(p);
    low = {std::min(low.x, v.x), std::min(low.y, v.y), std::min(low.z, v.z)};
    high = {std::max(high.x, v.x), std::max(high.y, v.y), std::max(high.z, v.z)};
  }
  return length(high - low);
}

// The mean of 1 - mirrored over even light: what a face lets out of light that comes evenly.
double let_out_by(double index) {
  constexpr int steps = 2000;
  double sum = 0;
  for (int i = 0; i < steps; ++i) {
    sum += 1 - mirrored(std::sqrt((i + 0.5) / steps), index);
  }
  return sum / steps;
}

// Within this part of the inset rounding decides what a ray meets.
constexpr double edge = 0.05;

// The triangle of those places that are as far as `inset_mm` from its edges, if it has any; no
// edge comes nearer to the opposite corner than by a third.
Room::Face inside(const std::array<Vec, 3>& c, double inset_mm) {
  const Vec one = c[1] - c[0], two = c[2] - c[0], out = cross(one, two);
  const double twice = length(out);
  const auto part = [&](Vec side) {
    return twice > 0 ? std::min(0.3, inset_mm * length(side) / twice) : 0;
  };
  const double of_0 = part(c[2] - c[1]), of_1 = part(two), of_2 = part(one);
  const double rest = 1 - of_0 - of_1 - of_2;
  return {c[0] + of_1 * one + of_2 * two,
          rest * one,
          rest * two,
          twice > 0 ? 1 / twice * out : Vec{0, 0, 1},
          {edge * of_0, edge * of_1, edge * of_2}};
}

}  // namespace

// Single precision, in which rays run, is off by 6e-8 of the coordinates.
Room::Room(const Surfaces& s, const FilmPlane& f)
    : surfaces(s),
      film(f),
      offset_mm(1e-6 * size_of(s)),
      inset_mm(8 * offset_mm),
      kernel(kernel_of(s, &f)),
      zones(s, kernel, s.bodies ? most_zones_of_bodies : most_zones) {
  const auto cuts = static_cast<std::size_t>(
      std::ceil(std::sqrt(some_cells / static_cast<double>(f.columns * f.rows))));
  cell_columns = cuts * f.columns;
  cell_rows = cuts * f.rows;
  for (const Stuff& stuff : s.stuffs) let_out.push_back(let_out_by(stuff.wall.gloss_index));
  for (const auto& t : surfaces.triangles) {
    std::array<Vec, 3> corners;
    for (std::size_t i = 0; i < 3; ++i) corners.at(i) = vec_mm(s.points[t.corners.at(i)]);
    faces.push_back(inside(corners, inset_mm));
    faces.back().stuff = &surfaces.stuffs[t.stuff];
    faces.back().one_sided = s.bodies && s.stuffs[t.stuff].passes == 0;
  }
  number_planes();
}

void Room::number_planes() {
  constexpr double turn = 1e-6;
  std::map<std::array<std::int64_t, 4>, std::uint16_t> numbers;
  for (Face& face : faces) {
    if (face.stuff->is_mirror || face.stuff->wall.gloss_index == 1) continue;
    const double at = dot(face.out, face.corner);
    const auto [number, is_new] =
        numbers.try_emplace({std::llround(face.out.x / turn), std::llround(face.out.y / turn),
                             std::llround(face.out.z / turn), std::llround(at / offset_mm)},
                            0);
    if (is_new && planes.size() < std::numeric_limits<std::uint16_t>::max()) {
      planes.push_back({face.out, at});
      number->second = static_cast<std::uint16_t>(planes.size());
    }
    face.plane = number->second;
  }
}

Vec shown_at(const Room& room, Vec place, const Mirrors& mirrors) {
  for (std::size_t i = mirrors.size(); i-- > 0;) {
    if (mirrors.at(i) != 0) place = room.planes[mirrors.at(i) - 1].mirrored(place);
  }
  return place;
}

Start start_on_zone(const Room& room, std::size_t side, Random& random) {
  const Zones::Zone& zone = room.zones.zones()[side / 2];
  const double root = std::sqrt(random.unit()), part = random.unit();
  const Room::Face face = inside(zone.corners, room.inset_mm);
  return {face.at(root * (1 - part), root * part), side % 2 == 0 ? face.out : -1 * face.out,
          &room.stuff_of(zone.triangle)};
}

Crossing crossing_at(const Room& room, std::uint32_t triangle, std::size_t side, const Start& at) {
  const Stuff& stuff = room.stuff_of(triangle);
  const Vec in = -1 * at.normal;
  if (!stuff.slab) {
    return {stuff.wall.reflectance, stuff.passes, {at.at, in, &stuff}, side ^ 1};
  }
  const auto met = room.kernel.first(at.at + room.offset_mm * in, in);
  if (!met) return {};
  const Stuff sheet = sheet_of(*stuff.slab, (met->far_mm + room.offset_mm) * mm);
  Crossing c{sheet.wall.reflectance, 0, {}, side};
  if (room.is_film(met->triangle)) return c;
  const Room::Face& face = room.faces[met->triangle];
  if (face.stuff != &stuff || !(dot(face.out, in) > 0)) return c;
  c.passes = sheet.passes;
  c.beyond = {face.at(met->u, met->v), face.out, &stuff};
  c.side = room.zones.side_at(met->triangle, met->u, met->v, false);
  return c;
}

std::size_t Room::cell_at(Vec on_film) const {
  const Vec w = vec_mm(film.width), h = vec_mm(film.height), from = on_film - vec_mm(film.corner);
  const auto place = [](double part, std::size_t count) {
    return std::min(count - 1,
                    static_cast<std::size_t>(std::max(0.0, part * static_cast<double>(count))));
  };
  return place(dot(from, h) / dot(h, h), cell_rows) * cell_columns +
         place(dot(from, w) / dot(w, w), cell_columns);
}

namespace {

Start start_on_field(const Room& room, std::size_t field, std::size_t columns, std::size_t rows,
                     Random& random) {
  const FilmPlane& f = room.film;
  const Vec w = vec_mm(f.width), h = vec_mm(f.height);
  const auto place = [&](std::size_t at, std::size_t of, Vec side) {
    const double inset = std::min(0.3, room.inset_mm / length(side));
    return inset +
           (1 - 2 * inset) * (static_cast<double>(at) + random.unit()) / static_cast<double>(of);
  };
  const double x = place(field % columns, columns, w);
  const double y = place(field / columns, rows, h);
  return {vec_mm(f.corner) + x * w + y * h, unit(cross(w, h)), nullptr};
}

}  // namespace

Start start_on_film(const Room& room, std::size_t patch, Random& random) {
  return start_on_field(room, patch, room.film.columns, room.film.rows, random);
}

Start start_on_cell(const Room& room, std::size_t cell, Random& random) {
  return start_on_field(room, cell, room.cell_columns, room.cell_rows, random);
}

}  // namespace backfit::ray
