// SPDX-License-Identifier: MIT
// A seam's section, solved, and straight rays in it. For seam_light.cpp and seam_source.cpp.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "lighttrap/gloss.hpp"
#include "lighttrap/labyrinth.hpp"
#include "lighttrap/pieces.hpp"
#include "lighttrap/seam_light.hpp"

namespace backfit {

// What is left of a ray below this part is dropped.
inline constexpr double negligible_ray = 1e-9;
inline constexpr std::size_t sun_rays = 128;

namespace gap {

// A ray in the section, and its elevation: the cosine of its angle to the section's plane.
struct Ray2 {
  std::size_t cell = 0;
  Point at, way;
  double elevation = 1;
};

inline double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }

}  // namespace gap

struct SeamLight::Solved {
  GapProfile profile;
  SeamWalls walls;
  double gaps = 0;  // length of the seam, in units of the section
  gap::Section section;
  gap::Pieces pieces;  // of the finest mesh
  Transmission sky;
  std::vector<double> lit_by_sky;  // brightness of each piece under a sky of 1
  std::vector<double> worth;       // of light that has entered each piece: what of it comes out
  double scale = 1;                // of both, from the finest mesh to the answer
  std::optional<Balance> balance;

  Solved(const GapProfile& p, const SeamWalls& w, Length length, std::size_t fineness, gap::Cut cut)
      : profile(p),
        walls(w),
        gaps(length / p.gap),
        section(gap::cells_of(p)),
        pieces(section, fineness, cut) {}

  const Wall& wall_of(std::size_t wall) const {
    const gap::WallPiece& piece = section.walls()[wall];
    return walls.of(piece.arm, piece.right);
  }
  double mirrored_by(const gap::Hit& hit, gap::Point way, double elevation) const {
    const double index = wall_of(hit.wall).gloss_index;
    if (index == 1) return 0;
    return mirrored(std::min(1.0, std::abs(dot(way, hit.inward)) * elevation), index);
  }

  // Follows a ray while faces mirror it and the seam goes on: enter(piece, part) wherever some of
  // it enters a wall, and leave(mouth, part) at the end.
  template <class Enter, class Leave>
  void follow(gap::Ray2 ray, const Enter& enter, const Leave& leave) const {
    // Of rays that start all along the seam, those are left that have not passed its end.
    const double up = std::sqrt(std::max(0.0, 1 - ray.elevation * ray.elevation));
    const double along = up / ray.elevation / gaps;
    double mirrored = 1, path = 0;
    while (mirrored > negligible_ray) {
      const gap::Hit hit = section.met_by(ray.cell, ray.at, ray.way);
      const gap::Point way = hit.at - ray.at;
      path += std::sqrt(dot(way, way));
      const double left = mirrored * (1 - path * along);
      if (!(left > 0)) return;
      if (hit.meets != gap::Meets::wall) return leave(hit.meets, left, hit.at, ray.way);
      const double mirror = mirrored_by(hit, ray.way, ray.elevation);
      enter(pieces.at(hit.wall, hit.along), left * (1 - mirror));
      mirrored *= mirror;
      (hit.inward.x != 0 ? ray.way.x : ray.way.y) *= -1;
      ray.cell = hit.cell;
      ray.at = hit.at;
    }
  }

  gap::Point at_mouth(const SeamDirection& d, double& elevation) const {
    elevation = std::hypot(d.in, d.left);
    return 1 / elevation * (d.in * section.way_in() + d.left * left_of(section.way_in()));
  }
};

}  // namespace backfit
