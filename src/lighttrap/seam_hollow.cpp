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
constexpr double most_copies = 64;
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
  s.light = light;
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

SeamWalks::Hollow::Meets SeamWalks::Hollow::fly(Flight& f, Random& random, std::size_t& patch,
                                                std::vector<Vec>* seen) const {
  for (;;) {
    const auto met = kernel.first(f.at + offset_mm * f.normal, f.way);
    if (!met) return Meets::nothing;
    f.at = f.at + offset_mm * f.normal + met->far_mm * f.way;
    if (seen != nullptr) seen->push_back(f.at);
    if (met->triangle >= surfaces.triangles.size()) {
      const Vec w = vec_mm(film.width), h = vec_mm(film.height);
      if (!(dot(f.way, cross(w, h)) < 0)) return Meets::nothing;  // the film's back
      patch = patch_at(f.at - vec_mm(film.corner), w, h);
      return Meets::film;
    }
    const double ahead = dot(out[met->triangle], f.way);
    if (const std::uint32_t piece = surfaces.triangles[met->triangle].part; piece > 0) {
      patch = of_picture() + piece - 1;
      return ahead < 0 ? Meets::film : Meets::nothing;
    }
    f.normal = ahead > 0 ? -1 * out[met->triangle] : out[met->triangle];
    f.stuff = &surfaces.stuffs[surfaces.triangles[met->triangle].stuff];
    const double index = f.stuff->wall.gloss_index;
    if (!f.stuff->is_mirror &&
        (index == 1 || random.unit() >= mirrored(std::min(1.0, std::abs(ahead)), index))) {
      return Meets::wall;
    }
    f.way = unit(f.way - 2 * dot(f.way, f.normal) * f.normal);
  }
}

void SeamWalks::Hollow::history(const Sources& s, std::uint64_t seed, std::size_t number,
                                History& found, std::vector<Vec>* seen) const {
  Random random(seed * 0x9e3779b97f4a7c15 + number);
  found.ends.clear();
  const double pick = random.unit() * s.chances.back();
  found.way = static_cast<std::size_t>(
      std::upper_bound(s.chances.begin(), s.chances.end() - 1, pick) - s.chances.begin());
  const double before = found.way == 0 ? 0 : s.chances[found.way - 1];
  const Begun light = begun(s, found.way, random);
  const double all = light.flux.sky_lx_mm2 + light.flux.sun_lx_mm2;
  if (!(all > 0)) return;
  // Much brighter than its way's others, it is scattered as several; much darker, it goes on by
  // chance.
  const double times = all / s.light[found.way];
  double weight = s.chances.back() / (s.chances[found.way] - before);
  int copies = 1;
  if (times > 2) {
    copies = static_cast<int>(std::min(times, most_copies) + random.unit());
  } else if (times < 0.5) {
    const double chance = std::max(least_chance, 2 * times);
    if (random.unit() >= chance) return;
    weight /= chance;
  }
  const auto arrives = [&](std::size_t patch, double part) {
    const double area =
        patch < of_picture() ? s.patch_mm2 : pieces[patch - of_picture()].area / (mm * mm);
    auto end = std::ranges::find(found.ends, patch, &History::End::patch);
    if (end == found.ends.end()) end = found.ends.insert(end, {patch, 0, 0});
    end->sky += part / (area * s.whole) * light.flux.sky_lx_mm2;
    end->sun += part / (area * s.whole) * light.flux.sun_lx_mm2;
  };
  std::size_t patch = 0;
  Flight first{light.at, light.normal, light.way};
  if (seen != nullptr) seen->push_back(first.at);
  const Meets met = fly(first, random, patch, seen);
  if (met == Meets::film) arrives(patch, weight);
  if (met != Meets::wall) return;
  if (copies > 1) weight /= std::min(times, most_copies);
  const std::size_t begun_with = seen == nullptr ? 0 : seen->size();
  for (; copies > 0; --copies) {
    if (seen != nullptr && found.ends.empty()) seen->resize(begun_with);
    if (!found.ends.empty()) seen = nullptr;
    Flight f = first;
    double left = weight;
    for (int scatterings = 0;; ++scatterings) {
      const double reflectance = f.stuff->wall.reflectance;
      const double chance = scatterings < always_on ? 1 : std::max(least_chance, reflectance);
      if (chance < 1 && random.unit() >= chance) break;
      left *= reflectance / chance;
      if (!(left > 0)) break;
      f.way = scattered({f.at, f.normal, f.stuff}, random);
      const Meets next = fly(f, random, patch, seen);
      if (next == Meets::film) arrives(patch, left);
      if (next != Meets::wall) break;
    }
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
