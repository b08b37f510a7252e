// SPDX-License-Identifier: MIT
#include "lighttrap/seam_walks.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

#include "lighttrap/cells.hpp"
#include "lighttrap/gloss.hpp"
#include "lighttrap/light_map.hpp"
#include "lighttrap/share_out.hpp"
#include "lighttrap/sun_directions.hpp"

namespace backfit {

using namespace ray;

namespace {

// Walks that have been scattered this often go on by chance.
constexpr int always_on = 2;
constexpr double least_chance = 0.2;
// Part of the histories that each mouth gets alike, however little it sends.
constexpr double fair_part = 0.1;

// A mouth as three directions of length 1; those of the outer one are the inner's turned.
struct Frame {
  Vec in, left, along;
};

Vec cross_of(const SpacePoint& a, const SpacePoint& b) { return cross(vec_mm(a), vec_mm(b)); }

Frame inner_frame(const SeamMouth& m) {
  return {unit(cross_of(m.across, m.along)), unit(vec_mm(m.across)), unit(vec_mm(m.along))};
}

Frame outer_frame(const SeamMouth& m, const GapProfile& profile) {
  Frame frame = inner_frame(m);
  for (const Turn turn : profile.turns) {
    // Back out: before a turn to the left, the way in was to the right.
    const Frame f = frame;
    frame.in = turn == Turn::left ? -1 * f.left : f.left;
    frame.left = turn == Turn::left ? f.in : -1 * f.in;
  }
  return frame;
}

SeamDirection seen_by(const Frame& frame, Vec way) {
  return {dot(way, frame.in), dot(way, frame.left), dot(way, frame.along)};
}

}  // namespace

struct SeamWalks::Hollow {
  Surfaces surfaces;
  FilmPlane film;
  std::vector<SeamLight> lights;
  std::vector<SeamMouth> mouths;
  double offset_mm = 0;
  Kernel kernel;
  std::vector<Vec> out;  // of each triangle

  Hollow(const Surfaces& s, const FilmPlane& f, std::vector<SeamLight> l, std::vector<SeamMouth> m)
      : surfaces(s),
        film(f),
        lights(std::move(l)),
        mouths(std::move(m)),
        offset_mm(offset_of(s)),
        kernel(kernel_of(s, &f)) {
    for (const auto& t : s.triangles) {
      const Vec at = vec_mm(s.points[t.corners[0]]);
      const Vec n = cross(vec_mm(s.points[t.corners[1]]) - at, vec_mm(s.points[t.corners[2]]) - at);
      out.push_back(length(n) > 0 ? unit(n) : Vec{0, 0, 1});
    }
  }

  std::size_t patches() const { return film.columns * film.rows; }

  // The mouths lit, and how many of the histories each gets.
  struct Sources {
    std::vector<SeamLight::Source> of_mouths;
    std::vector<double> chances;  // running sums
    double patch_mm2 = 1, whole = 1;
  };
  Sources sources(const Daylight& daylight, bool all_alike) const {
    Sources s;
    s.whole = (daylight.sky + daylight.sun) / lux;
    s.patch_mm2 =
        length(vec_mm(film.width)) * length(vec_mm(film.height)) / static_cast<double>(patches());
    std::vector<double> light;
    double all = 0;
    for (const SeamMouth& m : mouths) {
      const SeamLight& seam = lights[m.light];
      SeamDaylight falling{m.passes * (daylight.sky / lux), m.passes * (daylight.sun / lux), {}};
      if (falling.sun > 0) {
        falling.towards =
            seen_by(outer_frame(m, seam.profile()), -1 * unit(vec_mm(daylight.towards)));
      }
      s.of_mouths.push_back(seam.source(falling));
      light.push_back((s.of_mouths.back().sky_mm + s.of_mouths.back().sun_mm) * (m.length / mm));
      all += light.back();
    }
    double sum = 0;
    for (const double l : light) {
      const double fair = 1 / static_cast<double>(light.size());
      s.chances.push_back(
          sum += all_alike || !(all > 0) ? fair : fair_part * fair + (1 - fair_part) * l / all);
    }
    return s;
  }

  // What a history brings to one patch; unlit when its light is lost.
  struct End {
    std::size_t mouth = 0, patch = 0;
    double sky = 0, sun = 0;
    bool lit() const { return sky + sun > 0; }
  };
  // `watch` is told of each place that the light comes to.
  template <class Watch>
  End history(const Sources& s, std::uint64_t seed, std::size_t number, const Watch& watch) const {
    Random random(seed * 0x9e3779b97f4a7c15 + number);
    End end;
    const double pick = random.unit() * s.chances.back();
    end.mouth = static_cast<std::size_t>(
        std::upper_bound(s.chances.begin(), s.chances.end() - 1, pick) - s.chances.begin());
    const double before = end.mouth == 0 ? 0 : s.chances[end.mouth - 1];
    const SeamMouth& m = mouths[end.mouth];
    const SeamLight::Source::Ray ray = s.of_mouths[end.mouth].ray(random);
    if (!(ray.sky_mm + ray.sun_mm > 0)) return end;
    const Frame f = inner_frame(m);
    Vec at = vec_mm(m.corner) + ray.place * vec_mm(m.across) + random.unit() * vec_mm(m.along);
    Vec normal = f.in;
    Vec way = ray.direction.in * f.in + ray.direction.left * f.left + ray.direction.along * f.along;
    watch(at);
    double weight = 1;
    for (int scatterings = 0;;) {
      const auto met = kernel.first(at + offset_mm * normal, way);
      if (!met) return end;
      at = at + offset_mm * normal + met->far_mm * way;
      watch(at);
      if (met->triangle >= surfaces.triangles.size()) {
        const Vec w = vec_mm(film.width), h = vec_mm(film.height);
        if (!(dot(way, cross(w, h)) < 0)) return end;  // the film's back
        end.patch = patch_at(at - vec_mm(film.corner), w, h);
        const double light = weight * (m.length / mm) * s.chances.back() /
                             ((s.chances[end.mouth] - before) * s.patch_mm2 * s.whole);
        end.sky = light * ray.sky_mm;
        end.sun = light * ray.sun_mm;
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

 private:
  static double offset_of(const Surfaces& s) {
    double most = 0;
    for (const SpacePoint& p : s.points) most = std::max(most, length(vec_mm(p)));
    return 8e-6 * most;
  }

  std::size_t patch_at(Vec from, Vec w, Vec h) const {
    const auto place = [](double part, std::size_t count) {
      return std::min(count - 1,
                      static_cast<std::size_t>(std::max(0.0, part * static_cast<double>(count))));
    };
    return place(dot(from, h) / dot(h, h), film.rows) * film.columns +
           place(dot(from, w) / dot(w, w), film.columns);
  }
};

SeamWalks::SeamWalks(const Surfaces& hollow, const FilmPlane& film, std::vector<SeamLight> lights,
                     std::vector<SeamMouth> mouths) {
  assert(!fault_of(hollow, film) && !mouths.empty());
  hollow_ = std::make_unique<const Hollow>(hollow, film, std::move(lights), std::move(mouths));
}
SeamWalks::~SeamWalks() = default;
SeamWalks::SeamWalks(SeamWalks&&) noexcept = default;

const std::vector<SeamLight>& SeamWalks::lights() const { return hollow_->lights; }
const std::vector<SeamMouth>& SeamWalks::mouths() const { return hollow_->mouths; }

void SeamWalks::Light::add(const Light& other) {
  for (std::size_t i = 0; i < patches.size(); ++i) {
    patches[i].all.add(other.patches[i].all);
    patches[i].sky.add(other.patches[i].sky);
    patches[i].sun.add(other.patches[i].sun);
  }
  for (std::size_t i = 0; i < of_mouths.size(); ++i) {
    of_mouths[i] += other.of_mouths[i];
    if (other.most[i] <= most[i]) continue;
    most[i] = other.most[i];
    brightest[i] = other.brightest[i];
  }
}

SeamWalks::Light SeamWalks::walked(const Daylight& daylight, const Order& order) const {
  assert(order.threads >= 1 && daylight.sky + daylight.sun > Illuminance{});
  const Hollow& h = *hollow_;
  const Hollow::Sources sources = h.sources(daylight, false);
  constexpr std::size_t block = 4096;
  const std::size_t mouths = h.mouths.size();
  const Light dark{std::vector<PatchLight>(h.patches()), std::vector<double>(mouths),
                   std::vector<double>(mouths), std::vector<std::size_t>(mouths)};
  std::vector<Light> blocks((order.histories + block - 1) / block, dark);
  share_out(blocks.size(), order.threads, [&](std::size_t task) {
    Light& b = blocks[task];
    const std::size_t start = task * block, end = std::min(order.histories, start + block);
    std::vector<std::size_t> lit(h.patches());
    for (std::size_t i = start; i < end; ++i) {
      if (i % 256 == 0 && !order.may_go_on()) return;
      const std::size_t number = order.first + i;
      const Hollow::End e = h.history(sources, order.seed, number, [](Vec) {});
      if (!e.lit()) continue;
      PatchLight& patch = b.patches[e.patch];
      patch.all.add(e.sky + e.sun);
      patch.sky.add(e.sky);
      patch.sun.add(e.sun);
      ++lit[e.patch];
      b.of_mouths[e.mouth] += e.sky + e.sun;
      if (e.sky + e.sun > b.most[e.mouth]) {
        b.most[e.mouth] = e.sky + e.sun;
        b.brightest[e.mouth] = number;
      }
    }
    for (std::size_t p = 0; p < lit.size(); ++p) {
      for (Tally* t : {&b.patches[p].all, &b.patches[p].sky, &b.patches[p].sun}) {
        t->add_dark(end - start - lit[p]);
      }
    }
  });
  Light all = dark;
  for (const Light& b : blocks) all.add(b);
  return all;
}

SpacePoint SeamWalks::worst_sun(const Order& order) const {
  const Hollow& h = *hollow_;
  const Daylight sky{1 * lux, {}, {}};
  const Hollow::Sources sources = h.sources(sky, true);
  // How much of what each mouth sends comes to the film.
  std::vector<double> arrived(h.mouths.size());
  for (std::size_t i = 0; i < order.histories; ++i) {
    if (i % 256 == 0 && !order.may_go_on()) break;
    const Hollow::End e = h.history(sources, order.seed, order.first + i, [](Vec) {});
    arrived[e.mouth] += e.sky;
  }
  std::vector<Vec> candidates;
  for (std::size_t i = 0; i < sun_directions; ++i) candidates.push_back(sun_direction(i).towards);
  std::vector<double> angles;
  for (const SeamLight& light : h.lights) angles.push_back(light.worst_angle());
  for (const SeamMouth& m : h.mouths) {
    const Frame f = outer_frame(m, h.lights[m.light].profile());
    const double angle = angles[m.light];
    candidates.push_back(-1 * (std::cos(angle) * f.in + std::sin(angle) * f.left));
  }
  double most = -1;
  Vec worst = candidates.front();
  for (const Vec candidate : candidates) {
    double light = 0;
    for (std::size_t k = 0; k < h.mouths.size(); ++k) {
      if (!(arrived[k] > 0)) continue;
      const SeamLight& seam = h.lights[h.mouths[k].light];
      const SeamDirection d = seen_by(outer_frame(h.mouths[k], seam.profile()), -1 * candidate);
      if (!(d.in > 0)) continue;
      light += arrived[k] * seam.sun(d) * d.in / seam.sky().through;
    }
    if (light > most) {
      most = light;
      worst = candidate;
    }
  }
  return {worst.x * mm, worst.y * mm, worst.z * mm};
}

std::vector<SpacePoint> SeamWalks::way(const Daylight& daylight, std::uint64_t seed,
                                       std::size_t history) const {
  const Hollow& h = *hollow_;
  std::vector<Vec> inside;
  const Hollow::End end =
      h.history(h.sources(daylight, false), seed, history, [&](Vec at) { inside.push_back(at); });
  if (!end.lit()) return {};
  // From the inner mouth back out, corner by corner along the middle.
  const SeamMouth& m = h.mouths[end.mouth];
  const GapProfile& profile = h.lights[m.light].profile();
  Frame f = inner_frame(m);
  std::vector<Vec> out;
  const Vec middle = vec_mm(m.corner) + 0.5 * vec_mm(m.across);
  Vec at = inside.front() - dot(inside.front() - middle, f.left) * f.left;
  for (std::size_t arm = profile.arms.size(); arm-- > 0;) {
    const double before = arm == 0 ? 0 : profile.width(arm - 1) / mm / 2;
    const double corner = arm + 1 == profile.arms.size() ? 0 : profile.width(arm + 1) / mm / 2;
    at = at - (profile.arms[arm] / mm + before + corner) * f.in;
    out.push_back(at);
    if (arm == 0) break;
    const Frame now = f;
    const bool left = profile.turns[arm - 1] == Turn::left;
    f.in = left ? -1 * now.left : now.left;
    f.left = left ? now.in : -1 * now.in;
  }
  std::vector<SpacePoint> points;
  const auto add = [&](Vec v) { points.push_back({v.x * mm, v.y * mm, v.z * mm}); };
  for (std::size_t i = out.size(); i-- > 0;) add(out[i]);
  for (const Vec& v : inside) add(v);
  return points;
}

}  // namespace backfit
