// SPDX-License-Identifier: MIT
#include <algorithm>
#include <numbers>

#include "lighttrap/gloss.hpp"
#include "lighttrap/light_map.hpp"

namespace backfit::ray {
namespace {

constexpr std::size_t most_zones = 12000;

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

}  // namespace

Room::Room(const Surfaces& s, const FilmPlane& f)
    : surfaces(s),
      film(f),
      offset_mm(4e-6 * size_of(s)),
      kernel(kernel_of(s, &f)),
      zones(s, kernel, most_zones) {
  for (const Stuff& stuff : s.stuffs) let_out.push_back(let_out_by(stuff.wall.gloss_index));
  for (const auto& t : s.triangles) {
    const Vec origin = vec_mm(s.points[t.corners[0]]);
    const Vec out =
        cross(vec_mm(s.points[t.corners[1]]) - origin, vec_mm(s.points[t.corners[2]]) - origin);
    const double size = length(out);
    faces.push_back({origin, size > 0 ? 1 / size * out : Vec{0, 0, 1}, &surfaces.stuffs[t.stuff]});
  }
}

Arrival stretch(const Room& room, Vec from, Vec normal, Vec direction) {
  const auto met = room.kernel.first(from + room.offset_mm * normal, direction);
  Arrival a;
  a.direction = direction;
  if (!met) return a;
  a.triangle = met->triangle;
  a.path_mm = met->far_mm;
  a.point = from + room.offset_mm * normal + met->far_mm * direction;
  if (room.is_film(met->triangle)) {
    a.at = Arrival::At::film;
    return a;
  }
  a.at = Arrival::At::wall;
  const Room::Face& face = room.faces[met->triangle];
  const bool back = dot(face.out, direction) > 0;
  a.normal = back ? -1 * face.out : face.out;
  a.point = a.point - dot(a.point - face.origin, face.out) * face.out;  // back onto the plane
  a.side = room.zones.side_at(met->triangle, met->u, met->v, back);
  return a;
}

Arrival settled(const Room& room, Arrival a, Vec direction, Random& random) {
  // A light path among perfect mirrors may have no end; one this long carries nothing.
  for (int mirrorings = 0; a.at == Arrival::At::wall && mirrorings < 10000; ++mirrorings) {
    const Stuff& stuff = room.stuff_of(a.triangle);
    const double cosine = std::min(1.0, std::abs(dot(direction, a.normal)));
    if (!stuff.is_mirror && (stuff.wall.gloss_index == 1 ||
                             random.unit() >= mirrored(cosine, stuff.wall.gloss_index))) {
      return a;
    }
    direction = unit(direction - 2 * dot(direction, a.normal) * a.normal);
    const double path = a.path_mm;
    a = stretch(room, a.point, a.normal, direction);
    a.path_mm += path;
    a.mirrored = true;
  }
  if (a.at == Arrival::At::wall) a.at = Arrival::At::film;  // lost
  return a;
}

Vec scattered(const Start& from, Random& random) {
  const Vec n = from.normal;
  const auto [along, beside] = across(n);
  for (;;) {
    double x = 0, y = 0, square = 0;
    do {
      x = 2 * random.unit() - 1;
      y = 2 * random.unit() - 1;
      square = x * x + y * y;
    } while (square >= 1);
    const double cosine = std::sqrt(1 - square);
    const bool held = from.stuff != nullptr && from.stuff->wall.gloss_index > 1 &&
                      random.unit() < mirrored(cosine, from.stuff->wall.gloss_index);
    if (!held) return cosine * n + x * along + y * beside;
  }
}

double scattered_density(const Room& room, const Start& from, Vec direction) {
  const double cosine = std::min(1.0, std::max(0.0, dot(from.normal, direction)));
  if (from.stuff == nullptr || from.stuff->wall.gloss_index == 1) return cosine;
  const double let_out =
      room.let_out[static_cast<std::size_t>(from.stuff - room.surfaces.stuffs.data())];
  return cosine * (1 - mirrored(cosine, from.stuff->wall.gloss_index)) / let_out;
}

Start start_on_zone(const Room& room, std::size_t side, Random& random) {
  const Zones::Zone& zone = room.zones.zones()[side / 2];
  const double root = std::sqrt(random.unit()), part = random.unit();
  const auto& c = zone.corners;
  const Vec at = (1 - root) * c[0] + root * (1 - part) * c[1] + root * part * c[2];
  const Vec out = unit(cross(c[1] - c[0], c[2] - c[0]));
  return {at, side % 2 == 0 ? out : -1 * out, &room.stuff_of(zone.triangle)};
}

Start start_on_film(const Room& room, std::size_t patch, Random& random) {
  const FilmPlane& f = room.film;
  const std::size_t column = patch % f.columns, row = patch / f.columns;
  const double x = (static_cast<double>(column) + random.unit()) / static_cast<double>(f.columns);
  const double y = (static_cast<double>(row) + random.unit()) / static_cast<double>(f.rows);
  const Vec w = vec_mm(f.width), h = vec_mm(f.height);
  return {vec_mm(f.corner) + x * w + y * h, unit(cross(w, h)), nullptr};
}

}  // namespace backfit::ray
