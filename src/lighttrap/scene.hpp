// SPDX-License-Identifier: MIT
// The surfaces between outside light and a film, as light meets them.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "lighttrap/profile.hpp"
#include "lighttrap/slab.hpp"
#include "quantity/light.hpp"

namespace backfit {

struct SpacePoint {
  Length x, y, z;
};

// A surface's stuff: a wall, or a perfect mirror, which stands for a seam that goes on the same.
struct Stuff {
  Wall wall;
  bool is_mirror = false;
  // Of the light that a face lets in, the part that comes out of the other side, evenly to all
  // sides, as behind felt or foam; so much is not scattered back. The surface is then a sheet.
  double passes = 0;
  // A body of felt or foam, whose reflectance and passes are those of a sheet as thick as it is
  // there: light comes out straight across, or not at all where something else stands in it.
  std::optional<Slab> slab = {};
};

// Triangles on shared corners, both sides alike. Surfaces that meet must share their corners to the
// last bit, or light comes through between them.
struct Surfaces {
  struct Triangle {
    std::array<std::uint32_t, 3> corners{};
    std::uint32_t stuff = 0;
    std::uint32_t part = 0;  // whatever the caller counts by it
  };
  std::vector<SpacePoint> points;
  std::vector<Triangle> triangles;
  std::vector<Stuff> stuffs;
  // All triangles but sheets bound bodies and run counterclockwise seen from outside: behind them
  // is no light.
  bool bodies = false;
};

// Daylight: a sky that is equally bright all round, the ground as well, and the sun.
struct Daylight {
  Illuminance sky;     // on any face in the open
  Illuminance sun;     // on a face turned to it
  SpacePoint towards;  // the sun, from here; of any length
};

// The film: a rectangle from `corner` along two sides, its emulsion towards their cross product.
// It takes all light that meets it. Its patches are numbered along `width` first.
struct FilmPlane {
  SpacePoint corner, width, height;
  std::size_t columns = 1, rows = 1;
};

// Why light can't be worked out among such surfaces; empty when it can: corners and stuffs that
// exist, 0 <= reflectance, passes and their sum <= 1, and gloss_index >= 1, slabs of bodies only,
// finite places, some film with 1 to 10 000 patches whose sides are square to each other.
std::optional<std::string> fault_of(const Surfaces& surfaces, const FilmPlane& film);

}  // namespace backfit
