// SPDX-License-Identifier: MIT
// Where the light on each side of each zone comes from, roughly: the map by which walks are led.
#pragma once
#include <cstddef>
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
  Kernel kernel;         // the surfaces' triangles, then the film's two
  Zones zones;
  std::vector<double> let_out;  // by each stuff's face, of light scattered inside
  struct Face {
    Vec origin, out;
    const Stuff* stuff = nullptr;
  };
  std::vector<Face> faces;  // the triangles' planes

  Room(const Surfaces& s, const FilmPlane& f);
  Room(const Room&) = delete;
  Room& operator=(const Room&) = delete;
  const Stuff& stuff_of(std::uint32_t triangle) const { return *faces[triangle].stuff; }
  bool is_film(std::uint32_t triangle) const { return triangle >= surfaces.triangles.size(); }
};

// A place that light leaves, or a walk does, towards `normal`. The film has no stuff.
struct Start {
  Vec at, normal;
  const Stuff* stuff = nullptr;
};

// What a ray came to.
struct Arrival {
  enum class At { sky, film, wall } at = At::sky;
  Vec point, normal;  // on the wall, towards where the ray came from
  Vec direction;      // of the last stretch
  std::uint32_t triangle = 0;
  std::size_t side = 0;  // of a zone
  double path_mm = 0;    // all the way to there
  bool mirrored = false;
};

// One straight stretch, from a little off `from`.
Arrival stretch(const Room& room, Vec from, Vec normal, Vec direction);
// Goes on from `first` as long as faces mirror, chosen at random.
Arrival settled(const Room& room, Arrival first, Vec direction, Random& random);
// A direction of scattered light, in proportion to the cosine and to what the face lets out.
Vec scattered(const Start& from, Random& random);
// The density of those directions times pi: cosine times what the face lets out, over its mean.
double scattered_density(const Room& room, const Start& from, Vec direction);

struct LightMap {
  // For each side of each zone, and then for each patch of the film: what sends it light, the most
  // of it as cones to aim at. The sky's cones stand about ways to it that were found, those of
  // zones about the places that were found on them, wider than the zones are narrow, to hold
  // neighbours that were not found.
  struct Row {
    double sky = 0, all = 0;  // light from the sky, and from sky and zones
    std::vector<Vec> ways;
    double cone = 0;  // solid angle of each way's cone, in sr
    struct Goal {
      Vec middle;
      double radius_mm = 0;
    };
    std::vector<Goal> goals;
    std::vector<double> sums;  // running sums of the goals' light upon the sky's
    double aimed() const { return sums.empty() ? sky : sums.back(); }
    // Density per sr of a direction by which some cone, chosen by its light, is aimed at from `at`.
    double density(Vec at, Vec direction) const;
    Vec direction(Vec at, Random& random) const;
  };
  std::vector<Row> rows;
  std::vector<double> brightness;  // of each side in open light of 1, as least the least found

  // By `rays_each` from each side, led by `before` if it is there: a map led by a rough one knows
  // the narrow ways that even light seldom finds.
  LightMap(const Room& room, std::size_t rays_each, std::size_t threads, const LightMap* before);
};

// One step of a walk: where it ends when faces have mirrored it, by which direction it began, and
// what its weight is to be multiplied by for the way that was chosen. Film also stands for a step
// that is lost.
struct Step {
  Arrival arrival;
  Vec direction;
  double factor = 1;
};

// A step from a place of the map's row `row`: some as light is scattered, others at zones or into
// cones where the map promises light. Without a map the rest grazes.
Step step_from(const Room& room, const LightMap* map, std::size_t row, const Start& from,
               Random& random);

Start start_on_zone(const Room& room, std::size_t side, Random& random);
Start start_on_film(const Room& room, std::size_t patch, Random& random);

}  // namespace backfit::ray
