// SPDX-License-Identifier: MIT
#include "lighttrap/leak.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "lighttrap/blocks.hpp"
#include "lighttrap/walker.hpp"

namespace backfit {

using namespace ray;

std::optional<std::string> fault_of(const Surfaces& s, const FilmPlane& film) {
  const auto finite = [](const SpacePoint& p) { return std::isfinite(length(vec_mm(p))); };
  for (const SpacePoint& p : s.points) {
    if (!finite(p)) return "a corner lies nowhere";
  }
  for (std::size_t i = 0; i < s.triangles.size(); ++i) {
    for (const std::uint32_t corner : s.triangles[i].corners) {
      if (corner >= s.points.size()) {
        return fmt::format("triangle {} has corner {} of {}", i, corner, s.points.size());
      }
    }
    if (s.triangles[i].stuff >= s.stuffs.size()) return fmt::format("triangle {} has no stuff", i);
  }
  for (const Stuff& stuff : s.stuffs) {
    const Wall& w = stuff.wall;
    if (!(w.reflectance >= 0 && w.reflectance <= 1 && w.gloss_index >= 1)) {
      return fmt::format("a surface scatters {:g} of the light and has index {:g}", w.reflectance,
                         w.gloss_index);
    }
    if (stuff.slab && !s.bodies) return "felt that is a body stands among surfaces that are none";
    if (!(stuff.passes >= 0 && w.reflectance + stuff.passes <= 1)) {
      return fmt::format("a sheet scatters {:g} of the light back and passes {:g}", w.reflectance,
                         stuff.passes);
    }
  }
  if (s.triangles.empty()) return "there is no surface";
  const Vec w = vec_mm(film.width), h = vec_mm(film.height);
  if (!finite(film.corner) ||
      !(length(w) > 0 && length(h) > 0 && finite(film.width) && finite(film.height))) {
    return "the film has no size";
  }
  if (std::abs(dot(w, h)) > 1e-9 * length(w) * length(h)) return "the film's sides are not square";
  const std::size_t patches = film.columns * film.rows;
  if (film.columns == 0 || film.rows == 0 || film.columns > 10000 || patches > 10000) {
    return "a film has 1 to 10000 patches";
  }
  return std::nullopt;
}

namespace ray {
namespace {

// Maps each found with the one before; among bodies the last two of a cut that is finer where the
// film's light comes by.
constexpr std::size_t most_zones = 12000;  // of the finer cut

LightMap map_of(Room& room, std::size_t threads, const MapWatch& watch) {
  const auto part = [&watch](double from, double to) {
    return MapWatch{watch.may_go_on,
                    [&watch, from, to](double done) { watch.progress(from + done * (to - from)); }};
  };
  const LightMap rough(room, 128, threads, nullptr, part(0, 0.1));
  const LightMap better(room, 128, threads, &rough, part(0.1, 0.3));
  if (!watch.may_go_on() || !room.surfaces.bodies)
    return {room, 256, threads, &better, part(0.3, 1)};
  const std::vector<std::size_t> part_of =
      room.zones.refine(room.surfaces, room.kernel, better.worth, most_zones);
  const LightMap fine(room, 128, threads, &better, part(0.3, 0.6), part_of);
  return {room, 256, threads, &fine, part(0.6, 1)};
}

}  // namespace

Walker::Walker(const Surfaces& surfaces, const FilmPlane& film, std::size_t threads,
               const MapWatch& watch)
    : room_(surfaces, film), map_(map_of(room_, threads, watch)) {}

}  // namespace ray

LeakWalks::LeakWalks(const Surfaces& surfaces, const FilmPlane& film, std::size_t threads,
                     const MapWatch& watch) {
  assert(!fault_of(surfaces, film) && threads >= 1);
  walker_ = std::make_unique<const Walker>(surfaces, film, threads, watch);
}
LeakWalks::~LeakWalks() = default;
LeakWalks::LeakWalks(LeakWalks&&) noexcept = default;

std::size_t LeakWalks::zones() const { return walker_->room().zones.zones().size(); }

std::vector<TallyResult> LeakWalks::light(std::size_t histories, std::size_t threads,
                                          std::uint64_t seed) const {
  assert(histories >= 2);
  Order order{{}, 0, histories, threads, seed};
  for (std::size_t i = 0; i < walker_->patches(); ++i) order.patches.push_back(i);
  std::vector<TallyResult> results;
  for (const PatchLight& patch : walked({1 * lux, {}, {}}, order)) {
    results.push_back(patch.sky.result());
  }
  return results;
}

std::vector<PatchLight> LeakWalks::walked(const Daylight& daylight, const Order& order) const {
  const Illuminance whole = daylight.sky + daylight.sun;
  assert(order.threads >= 1 && whole > Illuminance{});
  Shares shares{daylight.sky / whole, daylight.sun / whole, {}};
  if (shares.sun > 0) shares.to_sun = unit(vec_mm(daylight.towards));
  std::vector<PatchLight> parts =
      each_block<PatchLight>(order, [&](std::size_t patch, Random& random, PatchLight& tallies) {
        Unwatched unwatched;
        const Score score = walker_->history(patch, random, shares, unwatched);
        tallies.all.add(score.sky + score.sun);
        tallies.sky.add(score.sky);
        tallies.sun.add(score.sun);
      });
  std::vector<PatchLight> patches(order.patches.size());
  const std::size_t blocks = parts.size() / std::max<std::size_t>(1, patches.size());
  for (std::size_t i = 0; i < parts.size(); ++i) {
    patches[i / blocks].all.add(parts[i].all);
    patches[i / blocks].sky.add(parts[i].sky);
    patches[i / blocks].sun.add(parts[i].sun);
  }
  return patches;
}

std::optional<std::uint32_t> part_around(const Surfaces& surfaces, const FilmPlane& film) {
  assert(surfaces.bodies && !fault_of(surfaces, film));
  std::vector<Vec> points;
  std::vector<std::array<std::uint32_t, 3>> triangles;
  for (const SpacePoint& p : surfaces.points) points.push_back(vec_mm(p));
  for (const auto& t : surfaces.triangles) triangles.push_back(t.corners);
  const Kernel kernel(points, triangles);
  const Vec w = vec_mm(film.width), h = vec_mm(film.height), n = unit(cross(w, h));
  const auto met = kernel.first(vec_mm(film.corner) + 0.5 * w + 0.5 * h, n);
  if (!met) return {};
  const auto& c = triangles[met->triangle];
  const Vec out = cross(points[c[1]] - points[c[0]], points[c[2]] - points[c[0]]);
  if (!(dot(out, n) > 0)) return {};
  return surfaces.triangles[met->triangle].part;
}

}  // namespace backfit
