// SPDX-License-Identifier: MIT
// Surfaces for the tests: ducts, and gaps drawn out along their seam between mirrors.
#pragma once
#include <cmath>
#include <numbers>
#include <utility>

#include "lighttrap/cells.hpp"
#include "lighttrap/scene.hpp"

namespace backfit::surfaces {

struct Built {
  Surfaces surfaces;
  FilmPlane film;
};

// Equal places must be one point: found by value.
inline std::uint32_t point(Surfaces& s, double x, double y, double z) {
  for (std::uint32_t i = 0; i < s.points.size(); ++i) {
    if (s.points[i].x == x * mm && s.points[i].y == y * mm && s.points[i].z == z * mm) return i;
  }
  s.points.push_back({x * mm, y * mm, z * mm});
  return static_cast<std::uint32_t>(s.points.size() - 1);
}

inline void quad(Surfaces& s, std::array<std::uint32_t, 4> c, std::uint32_t stuff) {
  s.triangles.push_back({{c[0], c[1], c[2]}, stuff});
  s.triangles.push_back({{c[0], c[2], c[3]}, stuff});
}

// A duct along z from the film at 0, open to the sky at `length`.
inline Built duct(double width, double height, double length, const Stuff& stuff) {
  Built b;
  b.surfaces.stuffs = {stuff};
  std::array<std::uint32_t, 8> c{};
  for (std::size_t i = 0; i < 8; ++i) {
    c.at(i) = point(b.surfaces, i % 4 == 1 || i % 4 == 2 ? width : 0, i % 4 >= 2 ? height : 0,
                    i < 4 ? 0 : length);
  }
  for (std::size_t i = 0; i < 4; ++i) {
    const std::size_t j = (i + 1) % 4;
    quad(b.surfaces, {c.at(i), c.at(j), c.at(j + 4), c.at(i + 4)}, 0);
  }
  b.film.width = {width * mm, {}, {}};
  b.film.height = {{}, height * mm, {}};
  return b;
}

inline void close_far_end(Built& b) { quad(b.surfaces, {4, 5, 6, 7}, 0); }

// The gap's walls drawn out by `width` gaps along z, between two mirrors; the film fills the inner
// mouth.
inline Built seam(const GapProfile& profile, double width, const Stuff& stuff) {
  const gap::Cells cells = gap::cells_of(profile);
  Built b;
  Surfaces& s = b.surfaces;
  s.stuffs = {stuff, {{}, true}};
  const auto at = [&](gap::Point p, double z) { return point(s, p.x, p.y, z); };
  for (const auto* walls : {&cells.right_walls, &cells.left_walls}) {
    for (const gap::WallPiece& w : *walls) {
      quad(s, {at(w.from, 0), at(w.to, 0), at(w.to, width), at(w.from, width)}, 0);
    }
  }
  for (std::size_t i = 0; i < cells.count(); ++i) {
    const gap::Portal &in = cells.portals[i], &out = cells.portals[i + 1];
    for (const double z : {0.0, width}) {
      if (i % 2 == 0) {
        quad(s, {at(in.left, z), at(in.right, z), at(out.right, z), at(out.left, z)}, 1);
      } else {  // a corner: its fourth corner is on the outside of the turn
        const bool left = in.left == out.left;
        const gap::Point pivot = left ? in.left : in.right, start = left ? in.right : in.left;
        const gap::Point end = left ? out.right : out.left;
        const gap::Point outer = start + gap::distance(out.left, out.right) * in.heading;
        quad(s, {at(pivot, z), at(start, z), at(outer, z), at(end, z)}, 1);
      }
    }
  }
  const gap::Portal& mouth = cells.portals.back();
  b.film.corner = {mouth.left.x * mm, mouth.left.y * mm, {}};
  b.film.width = {(mouth.right.x - mouth.left.x) * mm, (mouth.right.y - mouth.left.y) * mm, {}};
  b.film.height = {{}, {}, width * mm};
  return b;
}

// A hollow ball of radius 1 with a hole about +z, which is (1 - hole_cosine) / 2 of it; a little
// film near its wall, facing the middle.
inline Built ball(double reflectance, double hole_cosine) {
  Built b;
  b.surfaces.stuffs = {{Wall{reflectance}, false}};
  constexpr int turns = 32, rings = 16;
  const auto at = [&](int ring, int turn) {
    // Rings from the hole's edge to the far pole, by equal steps of the angle.
    const double a0 = std::acos(hole_cosine), a = a0 + (std::numbers::pi - a0) * ring / rings;
    const double t = 2 * std::numbers::pi * (turn % turns) / turns;
    if (ring == rings) return point(b.surfaces, 0, 0, -1);
    return point(b.surfaces, std::sin(a) * std::cos(t), std::sin(a) * std::sin(t), std::cos(a));
  };
  for (int r = 0; r < rings; ++r) {
    for (int t = 0; t < turns; ++t) {
      const auto p = at(r, t), q = at(r, t + 1), s = at(r + 1, t + 1), u = at(r + 1, t);
      b.surfaces.triangles.push_back({{p, q, s}, 0});  // its inside is the open one
      if (r + 1 < rings) b.surfaces.triangles.push_back({{p, s, u}, 0});
    }
  }
  const double size = 0.02;
  b.film.corner = {0.985 * mm, -size / 2 * mm, -size / 2 * mm};
  b.film.width = {{}, {}, size * mm};
  b.film.height = {{}, size * mm, {}};
  return b;
}

// A box without its top, or a lid if its floor lies above its rim; half as wide and high outside as
// the one pair says and inside as the other, in mm.
inline void add_tray(Surfaces& s, std::array<double, 2> outside, std::array<double, 2> inside,
                     double floor, double floor_inside, double rim, std::uint32_t part) {
  const std::size_t first = s.triangles.size();
  const auto corners = [&](std::array<double, 2> half, double z) {
    const auto [x, y] = half;
    return std::array<std::uint32_t, 4>{point(s, -x, -y, z), point(s, x, -y, z), point(s, x, y, z),
                                        point(s, -x, y, z)};
  };
  const auto below = corners(outside, floor), out = corners(outside, rim);
  const auto in = corners(inside, rim), deep = corners(inside, floor_inside);
  quad(s, {below[3], below[2], below[1], below[0]}, 0);
  quad(s, deep, 0);
  for (std::size_t i = 0; i < 4; ++i) {
    const std::size_t j = (i + 1) % 4;
    quad(s, {below.at(i), below.at(j), out.at(j), out.at(i)}, 0);
    quad(s, {out.at(i), out.at(j), in.at(j), in.at(i)}, 0);
    quad(s, {in.at(i), in.at(j), deep.at(j), deep.at(i)}, 0);
  }
  for (std::size_t i = first; i < s.triangles.size(); ++i) {
    s.triangles[i].part = part;
    if (floor > rim) std::swap(s.triangles[i].corners[1], s.triangles[i].corners[2]);
  }
}

// A box of 60 x 80 mm and its lid, with a gap of 0.3 mm times `wide` over its rim and of 0.5 mm
// times that round it; the film lies in it, facing the lid.
inline Built box_and_lid(const Stuff& stuff, double wide = 1) {
  Built b;
  b.surfaces.stuffs = {stuff};
  b.surfaces.bodies = true;
  const double beside = 0.5 * wide, over = 2 + 0.3 * wide;
  add_tray(b.surfaces, {30, 40}, {25, 35}, -30, -28, 2, 0);
  add_tray(b.surfaces, {32 + beside, 42 + beside}, {30 + beside, 40 + beside}, over + 2, over, -8,
           1);
  b.film.corner = {-20 * mm, -30 * mm, {}};
  b.film.width = {40 * mm, {}, {}};
  b.film.height = {{}, 60 * mm, {}};
  return b;
}

// Turned about two axes, and shifted.
inline SpacePoint turned(const SpacePoint& p) {
  const double a = 0.7, c = 1.1;
  const Length x = std::cos(a) * p.x - std::sin(a) * p.y, y = std::sin(a) * p.x + std::cos(a) * p.y;
  return {x, std::cos(c) * y - std::sin(c) * p.z, std::sin(c) * y + std::cos(c) * p.z};
}
inline Built turned(Built b) {
  for (SpacePoint& p : b.surfaces.points) {
    p = turned(p);
    p.x += 17 * mm;
    p.y -= 9 * mm;
  }
  b.film.corner = turned(b.film.corner);
  b.film.corner.x += 17 * mm;
  b.film.corner.y -= 9 * mm;
  b.film.width = turned(b.film.width);
  b.film.height = turned(b.film.height);
  return b;
}

// Each triangle cut into four.
inline Built cut(Built b) {
  Surfaces s;
  s.stuffs = b.surfaces.stuffs;
  for (const auto& t : b.surfaces.triangles) {
    std::array<SpacePoint, 3> c{};
    for (std::size_t i = 0; i < 3; ++i) c.at(i) = b.surfaces.points[t.corners.at(i)];
    std::array<std::uint32_t, 6> n{};
    for (std::size_t i = 0; i < 3; ++i) {
      const SpacePoint &p = c.at(i), &q = c.at((i + 1) % 3);
      n.at(i) = point(s, p.x / mm, p.y / mm, p.z / mm);
      n.at(i + 3) = point(s, (p.x + q.x) / mm / 2, (p.y + q.y) / mm / 2, (p.z + q.z) / mm / 2);
    }
    s.triangles.push_back({{n[0], n[3], n[5]}, t.stuff});
    s.triangles.push_back({{n[3], n[1], n[4]}, t.stuff});
    s.triangles.push_back({{n[5], n[4], n[2]}, t.stuff});
    s.triangles.push_back({{n[3], n[4], n[5]}, t.stuff});
  }
  b.surfaces = s;
  return b;
}

}  // namespace backfit::surfaces
