// SPDX-License-Identifier: MIT
#include "lighttrap/seam_light.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <optional>
#include <utility>

#include "lighttrap/gloss.hpp"
#include "lighttrap/labyrinth.hpp"
#include "lighttrap/pieces.hpp"

namespace backfit {
namespace {

using namespace gap;

// What is left of a ray below this part is dropped.
constexpr double negligible = 1e-9;
// Part of the rays that leave the inner mouth evenly, whatever promises more.
constexpr double even_part = 0.3;
// Part aimed at the last arm's far end and its images in both walls: what these mirror is bright.
constexpr double grazing_part = 0.2;
constexpr std::size_t sun_rays = 128;
// Parts of the inner mouth, narrow by the walls, which from close by mirror the outer mouth.
constexpr std::array<double, 9> mouth_parts{0, 0.01, 0.05, 0.15, 0.5, 0.85, 0.95, 0.99, 1};

double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }

// A ray in the section, and the cosine of its angle to the section's plane.
struct Ray2 {
  std::size_t cell = 0;
  Point at, way;
  double elevation = 1;
};

}  // namespace

struct SeamLight::Solved {
  GapProfile profile;
  SeamWalls walls;
  Section section;
  Pieces pieces;  // of the finest mesh
  Transmission sky;
  std::vector<double> lit_by_sky;  // brightness of each piece under a sky of 1
  std::vector<double> worth;       // of light that has entered each piece: what of it comes out
  double scale = 1;                // of both, from the finest mesh to the answer
  std::optional<Balance> balance;

  Solved(const GapProfile& p, const SeamWalls& w, std::size_t fineness, Cut cut)
      : profile(p), walls(w), section(cells_of(p)), pieces(section, fineness, cut) {}

  const Wall& wall_of(std::size_t wall) const {
    const WallPiece& piece = section.walls()[wall];
    return walls.of(piece.arm, piece.right);
  }
  double mirrored_by(const Hit& hit, Point way, double elevation) const {
    const double index = wall_of(hit.wall).gloss_index;
    if (index == 1) return 0;
    return mirrored(std::min(1.0, std::abs(dot(way, hit.inward)) * elevation), index);
  }

  // Follows a ray while faces mirror it: enter(piece, part) wherever some of it enters a wall, and
  // leave(mouth, part) at the end.
  template <class Enter, class Leave>
  void follow(Ray2 ray, const Enter& enter, const Leave& leave) const {
    double left = 1;
    while (left > negligible) {
      const Hit hit = section.met_by(ray.cell, ray.at, ray.way);
      if (hit.meets != Meets::wall) return leave(hit.meets, left, hit.at, ray.way);
      const double mirror = mirrored_by(hit, ray.way, ray.elevation);
      enter(pieces.at(hit.wall, hit.along), left * (1 - mirror));
      left *= mirror;
      (hit.inward.x != 0 ? ray.way.x : ray.way.y) *= -1;
      ray.cell = hit.cell;
      ray.at = hit.at;
    }
  }

  Point at_mouth(const SeamDirection& d, double& elevation) const {
    elevation = std::hypot(d.in, d.left);
    return 1 / elevation * (d.in * section.way_in() + d.left * left_of(section.way_in()));
  }
};

namespace {

std::vector<double> reflectances_of(const Section& section, const Pieces& pieces,
                                    const SeamWalls& walls) {
  std::vector<double> of_pieces;
  for (std::size_t i = 0; i < pieces.count; ++i) {
    const WallPiece& wall = section.walls()[pieces.wall[i]];
    of_pieces.push_back(walls.of(wall.arm, wall.right).reflectance);
  }
  return of_pieces;
}

double through(const Exchange& x, const std::vector<double>& bright) {
  double sum = x.direct;
  for (std::size_t i = 0; i < x.pieces(); ++i) sum += x.exit[i] * bright[i];
  return sum / x.mouth;
}

// The mean of both, piece by piece.
Exchange mean_of(Exchange a, const Exchange& b) {
  a.direct = (a.direct + b.direct) / 2;
  for (std::size_t i = 0; i < a.pieces(); ++i) {
    a.area[i] = (a.area[i] + b.area[i]) / 2;
    a.entry[i] = (a.entry[i] + b.entry[i]) / 2;
    a.exit[i] = (a.exit[i] + b.exit[i]) / 2;
    for (std::size_t j = 0; j < a.pieces(); ++j)
      a.mutual(i, j) = (a.mutual(i, j) + b.mutual(i, j)) / 2;
  }
  return a;
}

bool any_gloss(const SeamWalls& walls) {
  const auto mirrors = [](const Wall& wall) { return wall.gloss_index > 1; };
  return std::ranges::any_of(walls.right, mirrors) || std::ranges::any_of(walls.left, mirrors);
}

}  // namespace

SeamLight::SeamLight(const GapProfile& profile, const SeamWalls& walls) {
  assert(!fault_of(profile));
  assert(walls.right.size() == profile.arms.size() && walls.left.size() == profile.arms.size());
  const bool glossy = any_gloss(walls);
  std::vector<double> answers;
  const auto solve = [&](const Exchange& x, std::size_t fineness) {
    auto s = std::make_unique<Solved>(profile, walls, fineness, Cut::coarse);
    s->balance.emplace(x, reflectances_of(s->section, s->pieces, walls));
    s->lit_by_sky = s->balance->brightness(x.entry);
    answers.push_back(through(x, s->lit_by_sky));
    return s;
  };
  std::unique_ptr<Solved> finest;
  Exchange last(0);
  if (glossy) {
    constexpr std::size_t rays = 2048;
    const auto traced = [&](std::size_t fineness, double shift) {
      return glossy_exchange(profile, walls, fineness, rays, shift, Cut::coarse);
    };
    solve(traced(1, 0), 1);
    const Exchange one = traced(2, 0), other = traced(2, 0.5);
    solve(one, 2);
    solve(other, 2);
    last = mean_of(one, other);
    finest = solve(last, 2);
    finest->sky = {answers[3], std::hypot(answers[1] - answers[2], (answers[3] - answers[0]) / 3)};
  } else {
    for (const std::size_t fineness : {1U, 2U, 4U}) {
      last = exchange_of(profile, fineness, Cut::coarse);
      finest = solve(last, fineness);
    }
    finest->sky = refined({answers[0], answers[1], answers[2]});
  }
  finest->scale = answers.back() > 0 ? finest->sky.through / answers.back() : 1;
  finest->worth = finest->balance->brightness(last.exit);
  solved_ = std::move(finest);
}

Transmission SeamLight::sky() const { return solved_->sky; }
const GapProfile& SeamLight::profile() const { return solved_->profile; }

double SeamLight::sun(const SeamDirection& towards) const {
  if (!(towards.in > 0)) return 0;
  const Solved& s = *solved_;
  double elevation = 1, sum = 0;
  const Point way = s.at_mouth(towards, elevation);
  for (std::size_t i = 0; i < sun_rays; ++i) {
    const Point at = s.section.on_mouth((static_cast<double>(i) + 0.5) / sun_rays);
    s.follow(
        {0, at, way, elevation},
        [&](std::size_t piece, double part) { sum += part * s.worth[piece] * s.scale; },
        [&](Meets mouth, double part, Point, Point) {
          if (mouth == Meets::inner_mouth) sum += part;
        });
  }
  return sum / sun_rays;
}

double SeamLight::worst_angle() const {
  double worst = 0, most = -1;
  // Finely about the straight way in, where a long arm takes most.
  for (int i = -40; i <= 40; ++i) {
    const double t = i / 40.0, angle = 1.5 * t * std::abs(t * t);
    const double light = sun({std::cos(angle), std::sin(angle), 0}) * std::cos(angle);
    if (light > most) {
      most = light;
      worst = angle;
    }
  }
  return worst;
}

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
  auto state =
      std::make_unique<Source::State>(Source::State{solved_, s, daylight, {}, {}, 0, 0, {}, 1, 1});
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
  // Along the seam as even light goes.
  double up = 0, side = 0, square = 0;
  do {
    up = 2 * random.unit() - 1;
    side = 2 * random.unit() - 1;
    square = up * up + side * side;
  } while (square >= 1);
  const double elevation = std::sqrt(1 - up * up);
  ray.place = random.unit();
  const Point from = s.section.on_inner_mouth(ray.place), out = st.back();
  const double all = st.promise.back();
  const std::size_t outer = s.pieces.count;
  Point way;
  const double strategy = all > 0 ? random.unit() : 0;
  if (strategy < even_part) {
    way = 1 / elevation * (std::sqrt(1 - square) * out + side * left_of(out));
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
  double weight = 1;
  if (all > 0) {
    const Point line = hit.at - from;
    const double far = std::max(1e-12, std::hypot(line.x, line.y));
    const Point normal = hit.meets == Meets::wall ? hit.inward : s.section.way_in();
    const double even = st.even_density(line, far, normal, out);
    const double width = target == outer ? s.section.mouth() : s.pieces.width[target];
    const double before = target == 0 ? 0 : st.promise[target - 1];
    const double chance = (st.promise[target] - before) / all / width;
    weight = even / ((even_part + grazing_part * st.grazing(ray.place, way)) * even +
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
