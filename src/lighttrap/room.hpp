// SPDX-License-Identifier: MIT
// Surfaces and film made ready for light, and where it starts and arrives. For the walks of this
// room.
#pragma once
#include <array>
#include <vector>

#include "lighttrap/zones.hpp"
#include "quantity/random.hpp"

namespace backfit::ray {

// The surfaces' triangles made ready for rays and then, if there is one, the film's two.
Kernel kernel_of(const Surfaces& surfaces, const FilmPlane* film);

// Surfaces and film, ready for light.
struct Room {
  const Surfaces surfaces;
  const FilmPlane film;
  double offset_mm = 0;  // off a surface, so that a ray doesn't meet where it starts
  double inset_mm = 0;   // off the edges of triangles, so that none starts beyond a wall
  Kernel kernel;         // the surfaces' triangles, then the film's two
  Zones zones;
  std::vector<double> let_out;  // by each stuff's face, of light scattered inside
  // A triangle's places, but for those that are `inset_mm` from its edges.
  struct Face {
    Vec corner, one, two;
    Vec out;
    std::array<double, 3> edges{};  // barycentric parts below which a place is on an edge
    bool one_sided = false;
    const Stuff* stuff = nullptr;
    std::uint16_t plane = 0;  // its number if it is glossy, from 1
    Vec at(double u, double v) const { return corner + u * one + v * two; }
    bool on_edge(double u, double v) const {
      return u < edges[1] || v < edges[2] || 1 - u - v < edges[0];
    }
  };
  std::vector<Face> faces;
  // A plane of glossy faces.
  struct Plane {
    Vec out;
    double at_mm = 0;
    Vec mirrored(Vec place) const { return place - 2 * (dot(out, place) - at_mm) * out; }
  };
  std::vector<Plane> planes;

  Room(const Surfaces& s, const FilmPlane& f);
  Room(const Room&) = delete;
  Room& operator=(const Room&) = delete;
  const Stuff& stuff_of(std::uint32_t triangle) const { return *faces[triangle].stuff; }
  // The film's patches cut on into cells alike, for other things are seen from one end of a patch
  // than from the other; row by row over the film.
  std::size_t cell_columns = 0, cell_rows = 0;
  std::size_t cells() const { return cell_columns * cell_rows; }
  std::size_t cell_at(Vec on_film) const;
  std::size_t patch_of(std::size_t cell) const {
    return cell / cell_columns * film.rows / cell_rows * film.columns +
           cell % cell_columns * film.columns / cell_columns;
  }
  bool is_film(std::uint32_t triangle) const { return triangle >= faces.size(); }
  std::size_t patches() const { return film.columns * film.rows; }

 private:
  void number_planes();
};

// The side of a zone that a ray met, not the film.
inline std::size_t side_of(const Room& room, const Meeting& met, bool back) {
  return room.zones.side_at(met.triangle, met.u, met.v, back);
}

// A place that light leaves, or a walk does, towards `normal`. The film has no stuff.
struct Start {
  Vec at, normal;
  const Stuff* stuff = nullptr;
};

Start start_on_zone(const Room& room, std::size_t side, Random& random);
Start start_on_film(const Room& room, std::size_t patch, Random& random);
Start start_on_cell(const Room& room, std::size_t cell, Random& random);

// Numbers of planes, in the order in which they mirror a ray from here; then 0. None if there are
// more, or if a ray met a mirror that has no number.
using Mirrors = std::array<std::uint16_t, 8>;
// Where they show a place.
Vec shown_at(const Room& room, Vec place, const Mirrors& mirrors);

// What a ray came to. Lost: its way had no end, or none that counts.
struct Arrival {
  enum class At { lost, sky, film, wall } at = At::lost;
  Vec point, normal;  // on the wall, towards where the ray came from
  Vec direction;      // of the last stretch
  std::uint32_t triangle = 0;
  bool behind = false;           // met the triangle's back
  std::uint32_t mirrorings = 0;  // on the way
  Mirrors mirrors{};
  Meeting last_mirror;  // if there were any, and whether its back
  bool behind_mirror = false;
  std::size_t side = 0;  // of a zone
  double path_mm = 0;    // all the way to there
};

// A place on a wall as light meets it: what it scatters back, what it passes, and where that comes
// out, on which side of a zone.
struct Crossing {
  double scatters = 0, passes = 0;
  Start beyond;
  std::size_t side = 0;
};
Crossing crossing_at(const Room& room, std::uint32_t triangle, std::size_t side, const Start& at);

// A place evenly within the circle of radius 1, but not its middle.
struct OnDisc {
  double x = 0, y = 0, square = 0;
};
inline OnDisc on_disc(Random& random) {
  for (;;) {
    const std::uint64_t bits = random.bits();
    const double x = (static_cast<double>(static_cast<std::int32_t>(bits)) + 0.5) * 0x1p-31;
    const double y = (static_cast<double>(static_cast<std::int32_t>(bits >> 32)) + 0.5) * 0x1p-31;
    const double square = x * x + y * y;
    if (square < 1) return {x, y, square};
  }
}

// A direction of scattered light, in proportion to the cosine and to what the face lets out.
Vec scattered(const Start& from, Random& random);
// The density of those directions times pi: cosine times what the face lets out, over its mean.
double scattered_density(const Room& room, const Start& from, Vec direction);

}  // namespace backfit::ray
