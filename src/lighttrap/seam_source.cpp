// SPDX-License-Identifier: MIT
// Light out of a seam's inner mouth, drawn ray by ray.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "lighttrap/seam_light.hpp"
#include "lighttrap/seam_solved.hpp"

namespace backfit {

using namespace gap;

namespace {

// Part of the rays that leave the inner mouth evenly, whatever promises more.
constexpr double even_part = 0.3;
// Part aimed at the last arm's far end and its images in both walls: what these mirror is bright.
constexpr double grazing_part = 0.2;
// Parts of the inner mouth, narrow by the walls, which from close by mirror the outer mouth.
constexpr std::array<double, 9> mouth_parts{0, 0.01, 0.05, 0.15, 0.5, 0.85, 0.95, 0.99, 1};

// Rays that run nearly along a seam are mirrored all the way: of even light few, and bright. Their
// elevations, by halves down from 1, the last down to 0; and the part of the rays that are spread
// over them evenly, whatever promises more.
constexpr std::size_t elevations = 11, rays_of_each = 128;
constexpr double even_elevations = 0.5;

double top_of(std::size_t elevation) { return std::ldexp(1.0, -static_cast<int>(elevation)); }
double bottom_of(std::size_t elevation) {
  return elevation + 1 == elevations ? 0 : top_of(elevation + 1);
}

// Part of even light whose elevation is among these.
double even_among(std::size_t elevation) {
  const auto below = [](double most) {
    const double angle = std::asin(most);
    return 2 / std::numbers::pi * (angle - std::sin(angle) * std::cos(angle));
  };
  return below(top_of(elevation)) - below(bottom_of(elevation));
}

// One of these as even light has them.
double even_within(std::size_t elevation, Random& random) {
  const double bottom = bottom_of(elevation), top = top_of(elevation);
  if (elevation == 0) {
    for (;;) {
      const double up = 2 * random.unit() - 1, side = 2 * random.unit() - 1;
      const double drawn = std::sqrt(1 - up * up);
      if (up * up + side * side < 1 && drawn >= bottom) return drawn;
    }
  }
  const double from = bottom * bottom * bottom, to = top * top * top;
  for (;;) {
    const double drawn = std::cbrt(from + random.unit() * (to - from));
    if (random.unit() * std::sqrt(1 - drawn * drawn) < std::sqrt(1 - top * top)) return drawn;
  }
}

}  // namespace

struct SeamLight::Source::State {
  std::shared_ptr<const Solved> owner;
  const Solved& solved;
  SeamDaylight daylight;
  std::vector<double> lit_by_sun;  // brightness of each piece
  std::vector<double> promise;     // running sums over the pieces, then the outer mouth
  double beam_mm = 0;              // of the sun's rays that come straight out, of all
  double beam_part = 0;            // of the draws that are given to them
  Point sun_way;
  double sun_elevation = 1;
  double unit_mm = 1;  // of the section
  // Of a ray to have an elevation, evenly and as it is drawn.
  struct Elevation {
    double even = 0, chance = 0;
  };
  std::array<Elevation, elevations> of_elevations{};

  struct Light {
    double sky = 0, sun = 0;
  };
  // Brightness of what a ray sees that goes back into the inner mouth.
  Light seen(const Ray2& ray) const {
    Light light;
    solved.follow(
        ray,
        [&](std::size_t piece, double part) {
          light.sky += part * solved.scale * daylight.sky * solved.lit_by_sky[piece];
          light.sun += part * solved.scale * lit_by_sun[piece];
        },
        [&](Meets mouth, double part, Point, Point) {
          if (mouth == Meets::outer_mouth) light.sky += part * daylight.sky;
        });
    return light;
  }
  // By what the same rays see at each, all round.
  void foresee_elevations() {
    double all = 0;
    for (std::size_t k = 0; k < elevations; ++k) {
      Elevation& e = of_elevations.at(k);
      e.even = even_among(k);
      for (std::size_t n = 0; n < rays_of_each; ++n) {
        const double sine = (2 * static_cast<double>(n) + 1) / rays_of_each - 1;
        const double place = (static_cast<double>(n * 37 % rays_of_each) + 0.5) / rays_of_each;
        const Light light =
            seen({last_cell(), solved.section.on_inner_mouth(place),
                  std::sqrt(1 - sine * sine) * back() + sine * left_of(back()), 0.75 * top_of(k)});
        e.chance += e.even * (light.sky + light.sun);
      }
      all += e.chance;
    }
    for (Elevation& e : of_elevations) {
      e.chance =
          all > 0 ? even_elevations * e.even + (1 - even_elevations) * e.chance / all : e.even;
    }
  }
  std::size_t last_cell() const { return 2 * solved.profile.arms.size() - 2; }
  Point back() const { return -1 * solved.section.way_out(); }
  double last_arm() const { return solved.profile.arms.back() / solved.profile.gap; }
  // The density of grazing rays over that of even ones; `place` on the inner mouth.
  double grazing(double place, Point way) const {
    const double inner = solved.section.inner_mouth(), cosine = dot(way, back());
    const double at =
        place * inner + last_arm() * dot(way, left_of(solved.section.way_out())) / cosine;
    if (at < -inner || at > 2 * inner) return 0;
    return 2 * last_arm() / (3 * inner * cosine * cosine * cosine);
  }
  double even_density(Point way, double far, Point normal, Point from_normal) const {
    return std::abs(dot(way, from_normal)) * std::abs(dot(way, normal)) / (2 * far * far * far);
  }
};

SeamLight::Source::Source(std::unique_ptr<const State> state) : state_(std::move(state)) {}
SeamLight::Source::~Source() = default;
SeamLight::Source::Source(Source&&) noexcept = default;

SeamLight::Source SeamLight::source(const SeamDaylight& daylight) const {
  const Solved& s = *solved_;
  auto state = std::make_unique<Source::State>(
      Source::State{solved_, s, daylight, {}, {}, 0, 0, {}, 1, 1, {}});
  state->unit_mm = s.profile.gap / mm;
  const double mouth = s.section.mouth();
  std::vector<double> lit(s.pieces.count, 0);
  double beam = 0;
  if (daylight.sun > 0 && daylight.towards.in > 0) {
    state->sun_way = s.at_mouth(daylight.towards, state->sun_elevation);
    const double each = daylight.sun * daylight.towards.in * mouth / sun_rays;
    for (std::size_t i = 0; i < sun_rays; ++i) {
      const Point at = s.section.on_mouth((static_cast<double>(i) + 0.5) / sun_rays);
      s.follow(
          {0, at, state->sun_way, state->sun_elevation},
          [&](std::size_t piece, double part) { lit[piece] += each * part; },
          [&](Meets m, double part, Point, Point) {
            if (m == Meets::inner_mouth) beam += each * part;
          });
    }
  }
  state->lit_by_sun = s.balance->brightness(lit);
  state->foresee_elevations();
  // Promise of each piece by a few rays to it from the inner mouth; of the outer mouth by even
  // ones.
  double sum = 0;
  for (std::size_t i = 0; i < s.pieces.count; ++i) {
    double promise = 0;
    for (std::size_t k = 0; k < 2 * (mouth_parts.size() - 1); ++k) {
      const double low = mouth_parts.at(k / 2), high = mouth_parts.at(k / 2 + 1);
      const Point from = s.section.on_inner_mouth((low + high) / 2);
      const std::size_t wall = s.pieces.wall[i];
      const double along = s.pieces.start[i] + s.pieces.width[i] * (k % 2 == 0 ? 0.3 : 0.7);
      const Point way = s.section.on_wall(wall, along) - from;
      const double far = std::hypot(way.x, way.y);
      if (!(dot(way, state->back()) > 1e-12 * far)) continue;
      const Ray2 ray{state->last_cell(), from, 1 / far * way, 0.85};
      const Hit hit = s.section.met_by(ray.cell, ray.at, ray.way);
      if (hit.meets != Meets::wall || hit.wall != wall) continue;
      const Source::State::Light light = state->seen(ray);
      promise += (high - low) / 2 * (light.sky + light.sun) *
                 state->even_density(way, far, hit.inward, state->back()) * s.pieces.width[i];
    }
    state->promise.push_back(sum += promise);
  }
  double straight = 0;
  constexpr int fan = 4096;
  for (int k = 0; k < fan; ++k) {
    const double sine = 2 * (k + 0.5) / fan - 1;
    const Point out = state->back();
    const Ray2 ray{state->last_cell(), s.section.on_inner_mouth((k * 1237 % fan + 0.5) / fan),
                   std::sqrt(1 - sine * sine) * out + sine * left_of(out), 1};
    const Hit hit = s.section.met_by(ray.cell, ray.at, ray.way);
    if (hit.meets == Meets::outer_mouth) straight += daylight.sky / fan;
  }
  state->promise.push_back(sum + straight);
  Source source(nullptr);
  double out_of_sun = 0;
  for (std::size_t i = 0; i < s.pieces.count; ++i) out_of_sun += lit[i] * s.worth[i] * s.scale;
  source.sky_mm = daylight.sky * s.sky.through * mouth * state->unit_mm;
  source.sun_mm = (out_of_sun + beam) * state->unit_mm;
  state->beam_mm = beam * state->unit_mm;
  const double all = source.sky_mm + source.sun_mm;
  if (beam > 0) state->beam_part = std::clamp(state->beam_mm / all, 0.1, 0.9);
  source.state_ = std::move(state);
  return source;
}

SeamLight::Source::Ray SeamLight::Source::ray(Random& random) const {
  const State& st = *state_;
  const Solved& s = st.solved;
  const double inner = s.section.inner_mouth();
  Ray ray;
  const auto direction = [&](Point way, double elevation, double along) {
    const Point out = s.section.way_out();
    return SeamDirection{elevation * dot(way, out), elevation * dot(way, left_of(out)), along};
  };
  if (st.beam_part > 0 && random.unit() < st.beam_part) {
    // A ray of the sun by any place of the outer mouth: lost, unless it comes straight out.
    const Point at = s.section.on_mouth(random.unit());
    s.follow(
        {0, at, st.sun_way, st.sun_elevation}, [](std::size_t, double) {},
        [&](Meets mouth, double part, Point place, Point way) {
          if (mouth != Meets::inner_mouth) return;
          const Point right = s.section.on_inner_mouth(0);
          ray.place = std::clamp(distance(right, place) / inner, 0.0, 1.0);
          ray.direction = direction(way, st.sun_elevation, st.daylight.towards.along);
          ray.sun_mm = st.daylight.sun * st.daylight.towards.in * s.section.mouth() * part *
                       st.unit_mm / st.beam_part;
        });
    return ray;
  }
  std::size_t k = 0;
  for (double pick = random.unit(); k + 1 < elevations && pick >= st.of_elevations.at(k).chance;
       ++k) {
    pick -= st.of_elevations.at(k).chance;
  }
  const double elevation = even_within(k, random);
  const double up = std::copysign(std::sqrt(1 - elevation * elevation), random.unit() - 0.5);
  ray.place = random.unit();
  const Point from = s.section.on_inner_mouth(ray.place), out = st.back();
  const double all = st.promise.back();
  const std::size_t outer = s.pieces.count;
  Point way;
  const double strategy = all > 0 ? random.unit() : 0;
  if (strategy < even_part) {
    const double side = 2 * random.unit() - 1;
    way = std::sqrt(1 - side * side) * out + side * left_of(out);
  } else if (strategy < even_part + grazing_part) {
    const double aim = (3 * random.unit() - 1) * inner;
    const Point line =
        st.last_arm() * out + (aim - ray.place * inner) * left_of(s.section.way_out());
    way = 1 / std::hypot(line.x, line.y) * line;
  } else {
    const double pick = random.unit() * all;
    const auto found = std::upper_bound(st.promise.begin(), st.promise.end() - 1, pick);
    const auto target = static_cast<std::size_t>(found - st.promise.begin());
    const double part = random.unit();
    const Point aim =
        target == outer ? s.section.on_mouth(part)
                        : s.section.on_wall(s.pieces.wall[target],
                                            s.pieces.start[target] + part * s.pieces.width[target]);
    const Point line = aim - from;
    const double far = std::hypot(line.x, line.y);
    if (!(dot(line, out) > 1e-12 * far)) return ray;
    way = 1 / far * line;
    const Hit hit = s.section.met_by(st.last_cell(), from, way);
    if (hit.meets == Meets::inner_mouth) return ray;
    const std::size_t met = hit.meets == Meets::wall ? s.pieces.at(hit.wall, hit.along) : outer;
    if (met != target) return ray;
  }
  const Hit hit = s.section.met_by(st.last_cell(), from, way);
  if (hit.meets == Meets::inner_mouth) return ray;
  const std::size_t target = hit.meets == Meets::wall ? s.pieces.at(hit.wall, hit.along) : outer;
  double weight = st.of_elevations.at(k).even / st.of_elevations.at(k).chance;
  if (all > 0) {
    const Point line = hit.at - from;
    const double far = std::max(1e-12, std::hypot(line.x, line.y));
    const Point normal = hit.meets == Meets::wall ? hit.inward : s.section.way_in();
    const double even = st.even_density(line, far, normal, out);
    const double width = target == outer ? s.section.mouth() : s.pieces.width[target];
    const double before = target == 0 ? 0 : st.promise[target - 1];
    const double chance = (st.promise[target] - before) / all / width;
    weight *= even / ((even_part + grazing_part * st.grazing(ray.place, way)) * even +
                      (1 - even_part - grazing_part) * chance);
  }
  const State::Light light = st.seen({st.last_cell(), from, way, elevation});
  const double scale = weight * inner * st.unit_mm / (1 - st.beam_part);
  ray.sky_mm = scale * light.sky;
  ray.sun_mm = scale * light.sun;
  ray.direction = direction(-1 * way, elevation, up);
  return ray;
}

}  // namespace backfit
