// SPDX-License-Identifier: MIT
#include "lighttrap/seam_hollow.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "lighttrap/gloss.hpp"
#include "lighttrap/light_map.hpp"

namespace backfit {

using namespace ray;

namespace {

// Walks that have been scattered this often go on by chance.
constexpr int always_on = 2;
constexpr double least_chance = 0.2;
// Part of the histories that each way gets alike, however little it sends.
constexpr double fair_part = 0.1;

Vec cross_of(const SpacePoint& a, const SpacePoint& b) { return cross(vec_mm(a), vec_mm(b)); }

double offset_of(const Surfaces& s) {
  double most = 0;
  for (const SpacePoint& p : s.points) most = std::max(most, length(vec_mm(p)));
  return 8e-6 * most;
}

double picture_mm2(const FilmPlane& f) {
  return length(vec_mm(f.width)) * length(vec_mm(f.height));
}

}  // namespace

MouthFrame inner_frame(const SeamMouth& m) {
  return {unit(cross_of(m.across, m.along)), unit(vec_mm(m.across)), unit(vec_mm(m.along))};
}

MouthFrame outer_frame(const SeamMouth& m, const GapProfile& profile) {
  MouthFrame frame = inner_frame(m);
  for (const Turn turn : profile.turns) {
    // Back out: before a turn to the left, the way in was to the right.
    const MouthFrame f = frame;
    frame.in = turn == Turn::left ? -1 * f.left : f.left;
    frame.left = turn == Turn::left ? f.in : -1 * f.in;
  }
  return frame;
}

SeamWalks::Hollow::Hollow(const Surfaces& s, const FilmPlane& f, std::vector<SeamLight> l,
                          std::vector<SeamMouth> m, std::vector<LitWall> w,
                          std::vector<FilmPiece> p)
    : surfaces(s),
      film(f),
      lights(std::move(l)),
      mouths(std::move(m)),
      walls(std::move(w)),
      pieces(std::move(p)),
      offset_mm(offset_of(s)),
      kernel(kernel_of(s, &f)) {
  for (const auto& t : s.triangles) {
    const Vec at = vec_mm(s.points[t.corners[0]]);
    const Vec n = cross(vec_mm(s.points[t.corners[1]]) - at, vec_mm(s.points[t.corners[2]]) - at);
    out.push_back(length(n) > 0 ? unit(n) : Vec{0, 0, 1});
  }
}

double SeamWalks::Hollow::in_patches(std::size_t patch) const {
  if (patch < of_picture()) return 1;
  return pieces[patch - of_picture()].area / (mm * mm) * static_cast<double>(of_picture()) /
         picture_mm2(film);
}

SeamWalks::Hollow::Sources::Flux SeamWalks::Hollow::through(const LitWall& wall,
                                                            const Daylight& daylight) const {
  const double area = length(cross_of(wall.across, wall.along));
  Sources::Flux flux{wall.passes * area * (daylight.sky / lux), 0};
  if (daylight.sun > Illuminance{}) {
    const double cosine = dot(unit(vec_mm(daylight.towards)), unit(vec_mm(wall.outwards)));
    flux.sun_lx_mm2 = wall.passes * area * (daylight.sun / lux) * std::max(0.0, cosine);
  }
  return flux;
}

SeamWalks::Hollow::Sources SeamWalks::Hollow::sources(const Daylight& daylight,
                                                      const std::vector<double>& shares,
                                                      bool all_alike) const {
  Sources s;
  s.whole = (daylight.sky + daylight.sun) / lux;
  s.patch_mm2 = picture_mm2(film) / static_cast<double>(of_picture());
  std::vector<double> light;
  double all = 0;
  for (const SeamMouth& m : mouths) {
    const SeamLight& seam = lights[m.light];
    SeamDaylight falling{m.passes * (daylight.sky / lux), m.passes * (daylight.sun / lux), {}};
    if (falling.sun > 0) {
      falling.towards = outer_frame(m, seam.profile()).seen(-1 * unit(vec_mm(daylight.towards)));
    }
    s.of_mouths.push_back(seam.source(falling));
    light.push_back((s.of_mouths.back().sky_mm + s.of_mouths.back().sun_mm) * (m.length / mm));
    all += light.back();
  }
  for (const LitWall& wall : walls) {
    s.of_walls.push_back(through(wall, daylight));
    light.push_back(s.of_walls.back().sky_lx_mm2 + s.of_walls.back().sun_lx_mm2);
    all += light.back();
  }
  if (!shares.empty()) {
    light = shares;
    all = std::accumulate(light.begin(), light.end(), 0.0);
  }
  double sum = 0;
  for (const double l : light) {
    const double fair = 1 / static_cast<double>(light.size());
    s.chances.push_back(
        sum += all_alike || !(all > 0) ? fair : fair_part * fair + (1 - fair_part) * l / all);
  }
  return s;
}

SeamWalks::Hollow::Begun SeamWalks::Hollow::begun(const Sources& s, std::size_t way,
                                                  Random& random) const {
  if (way < mouths.size()) {
    const SeamMouth& m = mouths[way];
    const SeamLight::Source::Ray ray = s.of_mouths[way].ray(random);
    const MouthFrame f = inner_frame(m);
    return {vec_mm(m.corner) + ray.place * vec_mm(m.across) + random.unit() * vec_mm(m.along),
            f.in,
            ray.direction.in * f.in + ray.direction.left * f.left + ray.direction.along * f.along,
            {(m.length / mm) * ray.sky_mm, (m.length / mm) * ray.sun_mm}};
  }
  const LitWall& w = walls[way - mouths.size()];
  const Vec across = vec_mm(w.across), along = vec_mm(w.along), normal = unit(cross(across, along));
  const double place = random.unit(), other = random.unit();
  return {vec_mm(w.corner) + place * across + other * along, normal,
          scattered({{}, normal, nullptr}, random), s.of_walls[way - mouths.size()]};
}

SeamWalks::Hollow::End SeamWalks::Hollow::history(const Sources& s, std::uint64_t seed,
                                                  std::size_t number,
                                                  std::vector<Vec>* seen) const {
  Random random(seed * 0x9e3779b97f4a7c15 + number);
  End end;
  const double pick = random.unit() * s.chances.back();
  end.way = static_cast<std::size_t>(
      std::upper_bound(s.chances.begin(), s.chances.end() - 1, pick) - s.chances.begin());
  const double before = end.way == 0 ? 0 : s.chances[end.way - 1];
  const Begun light = begun(s, end.way, random);
  if (!(light.flux.sky_lx_mm2 + light.flux.sun_lx_mm2 > 0)) return end;
  Vec at = light.at, normal = light.normal, way = light.way;
  const auto arrives = [&](std::size_t patch, double weight, double area_mm2) {
    end.patch = patch;
    const double part =
        weight * s.chances.back() / ((s.chances[end.way] - before) * area_mm2 * s.whole);
    end.sky = part * light.flux.sky_lx_mm2;
    end.sun = part * light.flux.sun_lx_mm2;
  };
  if (seen != nullptr) seen->push_back(at);
  double weight = 1;
  for (int scatterings = 0;;) {
    const auto met = kernel.first(at + offset_mm * normal, way);
    if (!met) return end;
    at = at + offset_mm * normal + met->far_mm * way;
    if (seen != nullptr) seen->push_back(at);
    if (met->triangle >= surfaces.triangles.size()) {
      const Vec w = vec_mm(film.width), h = vec_mm(film.height);
      if (!(dot(way, cross(w, h)) < 0)) return end;  // the film's back
      arrives(patch_at(at - vec_mm(film.corner), w, h), weight, s.patch_mm2);
      return end;
    }
    if (const std::uint32_t piece = surfaces.triangles[met->triangle].part; piece > 0) {
      if (dot(way, out[met->triangle]) < 0) {
        arrives(of_picture() + piece - 1, weight, pieces[piece - 1].area / (mm * mm));
      }
      return end;
    }
    normal = dot(out[met->triangle], way) > 0 ? -1 * out[met->triangle] : out[met->triangle];
    const Stuff& stuff = surfaces.stuffs[surfaces.triangles[met->triangle].stuff];
    const double cosine = std::min(1.0, -dot(normal, way));
    if (stuff.is_mirror ||
        (stuff.wall.gloss_index > 1 &&
         random.unit() < mirrored(std::max(0.0, cosine), stuff.wall.gloss_index))) {
      way = unit(way - 2 * dot(way, normal) * normal);
      continue;
    }
    const double reflectance = stuff.wall.reflectance;
    const double chance = scatterings < always_on ? 1 : std::max(least_chance, reflectance);
    if (chance < 1 && random.unit() >= chance) return end;
    weight *= reflectance / chance;
    if (!(weight > 0)) return end;
    ++scatterings;
    way = scattered({at, normal, &stuff}, random);
  }
}

std::size_t SeamWalks::Hollow::patch_at(Vec from, Vec w, Vec h) const {
  const auto place = [](double part, std::size_t count) {
    return std::min(count - 1,
                    static_cast<std::size_t>(std::max(0.0, part * static_cast<double>(count))));
  };
  return place(dot(from, h) / dot(h, h), film.rows) * film.columns +
         place(dot(from, w) / dot(w, w), film.columns);
}

}  // namespace backfit
