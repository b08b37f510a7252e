// SPDX-License-Identifier: MIT
#include "lighttrap/step.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <tuple>
#include <utility>

#include "lighttrap/gloss.hpp"
#include "lighttrap/sky_fields.hpp"

namespace backfit::ray {
namespace {

// Part of the steps that go out as light is scattered, whatever promises more, and of those that
// graze: in a narrow gap light that flies far carries most, and even light seldom finds it.
constexpr double even_part = 0.3, grazing_part = 0.2;
// Grazing steps have cosines from 1 down to 2^-octaves, every halving alike.
constexpr int octaves = 13;

// A step that was aimed at images is mirrored at least so often.
constexpr double mirrored_at_least = 0.8;

// A light path among perfect mirrors may have no end; one this long carries nothing.
constexpr std::uint32_t most_mirrorings = 10000;

// By a number evenly between 0 and 1, which chooses the halving.
Vec grazing(const Start& from, double choice, Random& random) {
  const double place = choice * octaves;
  const auto octave = std::min(octaves - 1, static_cast<int>(place));
  // The exponent field of a double, 1023 for 1.
  const auto least = std::bit_cast<double>((1022 - static_cast<std::uint64_t>(octave)) << 52);
  const double cosine = least * (1 + (place - octave));
  const OnDisc disc = on_disc(random);
  const double sine = std::sqrt((1 - cosine * cosine) / disc.square);
  const auto [along, beside] = across(from.normal);
  return cosine * from.normal + sine * disc.x * along + sine * disc.y * beside;
}

// Per sr.
double grazing_density(double cosine) {
  if (cosine < std::bit_cast<double>(std::uint64_t{1023 - octaves} << 52)) return 0;
  const std::uint64_t exponent = std::bit_cast<std::uint64_t>(cosine) >> 52 << 52;
  return 1 / (2 * std::numbers::pi * octaves * std::bit_cast<double>(exponent));
}

// One ray's way, which goes on as long as faces mirror, chosen at random.
struct Way {
  Step* step = nullptr;
  std::uint32_t goal = 0;        // that it was aimed at
  double plain = 0, cosine = 0;  // of its direction: density of scattered light, and its cosine
  double in_images = 0;          // the density by which it is aimed at images
  double imaged = 0;             // as a part of all
};
constexpr std::uint32_t no_goal = ~std::uint32_t{0};

bool is_in_image(const Room& room, std::uint32_t goal) {
  return goal != no_goal && goal >= goal_in_image(room, 0, 0);
}

// Whether a ray met a wall; and what it met. Light that meets an edge is lost: rounding could send
// it on behind the wall, and what is open there is many million times as bright.
bool meets_wall(const Room& room, const Ray& ray, const std::optional<Meeting>& met, Arrival& a) {
  a.direction = ray.direction;
  if (!met) {
    a.at = Arrival::At::sky;
    return false;
  }
  a.path_mm += met->far_mm;
  a.triangle = met->triangle;
  if (room.is_film(met->triangle)) {
    a.at = Arrival::At::film;
    a.point = ray.from + met->far_mm * ray.direction;
    return false;
  }
  const Room::Face& face = room.faces[met->triangle];
  a.behind = dot(face.out, ray.direction) > 0;
  if (face.one_sided ? a.behind : face.on_edge(met->u, met->v)) return false;
  a.normal = a.behind ? -1 * face.out : face.out;
  a.point = face.at(met->u, met->v);
  return true;
}

// How much of what meets a wall its face mirrors.
double mirrored_by(const Room& room, const Arrival& a) {
  const Stuff& stuff = room.stuff_of(a.triangle);
  if (stuff.is_mirror) return 1;
  if (stuff.wall.gloss_index == 1) return 0;
  return mirrored(std::min(1.0, -dot(a.normal, a.direction)), stuff.wall.gloss_index);
}

// How often a step is mirrored that may have been aimed at images: those need mirrors.
double chance_of_mirroring(double fair, double imaged) {
  return fair + imaged * std::max(0.0, mirrored_at_least - fair);
}

// That it was chosen to go on as a mirror sends it, or not to.
void choose(Step& step, bool goes_on, double fair, double imaged) {
  const double chance = chance_of_mirroring(fair, imaged);
  step.factor *= goes_on ? fair / chance : (1 - fair) / (1 - chance);
  step.density *= goes_on ? chance : 1 - chance;
}

// How a ray goes on that a wall mirrors.
Ray mirrored_at(const Room& room, const Meeting& met, Arrival& a) {
  const Mirrors before = std::exchange(a.mirrors, {});
  const std::uint16_t plane = room.faces[a.triangle].plane;
  const bool known = a.mirrorings == 0 || before[0] != 0;
  if (known && plane != 0 && a.mirrorings < before.size()) {
    a.mirrors = before;
    a.mirrors.at(a.mirrorings) = plane;
  }
  a.last_mirror = met;
  a.behind_mirror = a.behind;
  ++a.mirrorings;
  return {a.point + room.offset_mm * a.normal,
          a.direction - 2 * dot(a.normal, a.direction) * a.normal};
}

// The ways under way, kept between steps: to clear them each time would take as long as a ray.
struct Ways {
  std::array<Way, most_steps> ways;
  std::array<Ray, most_steps> rays;
  std::array<std::optional<Meeting>, most_steps> met;
  std::size_t count = 0;

  void add(const Way& way, const Ray& ray) {
    ways[count] = way;
    rays[count++] = ray;
  }
  // What all meet; returns how many, and begins anew.
  std::size_t cast(const Kernel& kernel) {
    kernel.first(std::span(rays).first(count), std::span(met).first(count));
    return std::exchange(count, 0);
  }
  // From a wall, which way `i` has met.
  void go_on(const Room& room, std::size_t i, Random& random) {
    const Way way = ways[i];
    Arrival& a = way.step->arrival;
    const double fair = mirrored_by(room, a);
    const bool on =
        fair == 1 || (fair > 0 && random.unit() < chance_of_mirroring(fair, way.imaged));
    if (fair > 0 && fair < 1) choose(*way.step, on, fair, way.imaged);
    if (!on) {
      a.at = Arrival::At::wall;
    } else if (a.mirrorings < most_mirrorings) {
      add(way, mirrored_at(room, *met[i], a));
    }
  }
};

const Images no_images;

// Which part of the steps is of which kind.
struct Mixture {
  const Room& room;
  const Aim* aim;
  double graze, aimed;
  Images::Sight sight;
  Mixture(const Room& in, const Aim* at, Vec start)
      : room(in),
        aim(at != nullptr && !at->empty() ? at : nullptr),
        graze(aim != nullptr ? grazing_part : 1 - even_part),
        aimed(1 - even_part - graze),
        sight(aim != nullptr ? aim->images() : no_images, start) {}
  double unaimed(double plain, double cosine) const {
    return even_part * plain + graze * grazing_density(cosine);
  }
  // And whether a goal in one is among what is seen there.
  struct ToImages {
    double density = 0;
    bool sees_goal = false;
  };
  ToImages to_images(Vec direction, std::uint32_t goal = no_goal) const {
    ToImages to;
    sight.along(direction, [&](const Images::Seen& seen) {
      const std::size_t side = room.zones.side_at(seen.triangle, seen.u, seen.v, seen.cosine < 0);
      const std::uint32_t id = goal_in_image(room, seen.image, side);
      to.density += aimed * aim->density(id) * seen.far_mm * seen.far_mm / std::abs(seen.cosine);
      if (id == goal) to.sees_goal = true;
    });
    return to;
  }
  double to_zone(std::size_t side, double far_mm, double cosine) const {
    if (!(aimed > 0)) return 0;
    return aimed * aim->density(static_cast<std::uint32_t>(side)) * far_mm * far_mm / cosine;
  }
  double to_sky(std::uint32_t goal, Vec direction) const {
    return aimed > 0 ? aimed * aim->density(goal) * aim_fields.density(direction) : 0;
  }
};

// To a place evenly on a goal.
Vec direction_to(const Room& room, const Aim& aim, std::uint32_t goal, Vec start, Random& random) {
  const double u = random.unit(), v = random.unit();
  const std::size_t sides = room.zones.sides();
  const bool in_image = is_in_image(room, goal);
  if (goal >= sides && !in_image) return aim_fields.towards(goal - sides, u, v);
  const std::size_t of_images = in_image ? goal - goal_in_image(room, 0, 0) : 0;
  const auto& [a, b, c] = room.zones.zones()[(in_image ? of_images % sides : goal) / 2].corners;
  const double less = std::min(u, v), more = std::max(u, v);
  Vec place = (1 - more) * a + less * b + (more - less) * c;
  if (in_image) place = shown_at(room, place, aim.images().mirrors(of_images / sides));
  return unit(place - start);
}

}  // namespace

Vec scattered(const Start& from, Random& random) {
  const auto [along, beside] = across(from.normal);
  for (;;) {
    const OnDisc disc = on_disc(random);
    const double cosine = std::sqrt(1 - disc.square);
    const bool held = from.stuff != nullptr && from.stuff->wall.gloss_index > 1 &&
                      random.unit() < mirrored(cosine, from.stuff->wall.gloss_index);
    if (!held) return cosine * from.normal + disc.x * along + disc.y * beside;
  }
}

double scattered_density(const Room& room, const Start& from, Vec direction) {
  const double cosine = std::min(1.0, std::max(0.0, dot(from.normal, direction)));
  if (from.stuff == nullptr || from.stuff->wall.gloss_index == 1) return cosine;
  const double let_out =
      room.let_out[static_cast<std::size_t>(from.stuff - room.surfaces.stuffs.data())];
  return cosine * (1 - mirrored(cosine, from.stuff->wall.gloss_index)) / let_out;
}

namespace {

// A ray's way by those mirrors, and how much each mirrors, the wall at its end as well.
struct Traced {
  Arrival arrival;
  std::array<double, std::tuple_size_v<Mirrors> + 1> mirrored{};
  std::size_t mirrors = 0;
  double first_far_mm = 0, first_cosine = 0;
  std::size_t first_side = 0;
};

// Empty if it doesn't meet all of them.
std::optional<Traced> traced(const Room& room, Ray ray, const Mirrors& mirrors) {
  Traced t;
  Arrival& a = t.arrival;
  t.mirrors =
      static_cast<std::size_t>(std::find(mirrors.begin(), mirrors.end(), 0) - mirrors.begin());
  for (std::size_t i = 0; i <= t.mirrors; ++i) {
    const auto met = room.kernel.first(ray.from, ray.direction);
    const bool wall = meets_wall(room, ray, met, a);
    if (!wall && i < t.mirrors) return std::nullopt;
    if (!wall) return t;
    a.side = side_of(room, *met, a.behind);
    if (i == 0) {
      t.first_side = a.side;
      t.first_far_mm = a.path_mm;
      t.first_cosine = -dot(a.normal, a.direction);
    }
    t.mirrored.at(i) = mirrored_by(room, a);
    if (i == t.mirrors) break;
    if (room.faces[a.triangle].plane != mirrors.at(i)) return std::nullopt;
    ray = mirrored_at(room, *met, a);
  }
  a.at = Arrival::At::wall;
  return t;
}

}  // namespace

std::optional<Step> step_along(const Room& room, const Aim* aim, const Start& from, Vec direction,
                               const Mirrors& mirrors) {
  const double cosine = dot(direction, from.normal);
  if (!(cosine > 0)) return std::nullopt;
  const Vec start = from.at + room.offset_mm * from.normal;
  const auto way = traced(room, {start, direction}, mirrors);
  if (!way || way->arrival.at != Arrival::At::wall || way->mirrored.at(way->mirrors) == 1) {
    return std::nullopt;
  }
  const Mixture mixture(room, aim, start);
  const double plain = scattered_density(room, from, direction) / std::numbers::pi;
  const double in_images = mixture.to_images(direction).density;
  Step step{way->arrival, direction};
  step.first = static_cast<std::uint32_t>(way->first_side);
  step.density = mixture.unaimed(plain, cosine) + in_images +
                 mixture.to_zone(way->first_side, way->first_far_mm, way->first_cosine);
  step.factor = plain / step.density;
  const double imaged = in_images / step.density;
  for (std::size_t i = 0; i <= way->mirrors; ++i) {
    if (way->mirrored.at(i) > 0) choose(step, i < way->mirrors, way->mirrored.at(i), imaged);
  }
  return step;
}

double sky_along(const Room& room, const Start& from, Vec direction, const Mirrors& mirrors) {
  if (!(dot(direction, from.normal) > 0)) return 0;
  const Vec start = from.at + room.offset_mm * from.normal;
  const auto way = traced(room, {start, direction}, mirrors);
  if (!way || way->arrival.at != Arrival::At::sky) return 0;
  double part = 1;
  for (std::size_t i = 0; i < way->mirrors; ++i) part *= way->mirrored.at(i);
  return part;
}

void steps_from(const Room& room, const Aim* aim, const Start& from, Random& random,
                std::span<Step> steps) {
  assert(steps.size() <= most_steps);
  thread_local Ways w;
  w.count = 0;
  const Vec start = from.at + room.offset_mm * from.normal;
  const Mixture mixture(room, aim, start);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    Step& step = steps[i];
    step.arrival.at = Arrival::At::lost;
    step.arrival.mirrorings = 0;
    step.arrival.mirrors = {};
    step.arrival.path_mm = 0;
    step.factor = 0;
    const double pick =
        (static_cast<double>(i) + random.unit()) / static_cast<double>(steps.size());
    const double beyond = pick - even_part, last = beyond - mixture.graze;
    std::uint32_t goal = no_goal;
    if (beyond < 0) {
      step.direction = scattered(from, random);
    } else if (last < 0) {
      step.direction = grazing(from, beyond / mixture.graze, random);
    } else {
      goal = aim->goal(last / mixture.aimed);
      step.direction = direction_to(room, *aim, goal, start, random);
    }
    const double cosine = dot(step.direction, from.normal);
    if (!(cosine > 0)) continue;
    const auto [in_images, sees_goal] = mixture.to_images(step.direction, goal);
    if (is_in_image(room, goal) && !sees_goal) continue;
    const double plain = scattered_density(room, from, step.direction) / std::numbers::pi;
    w.add({&step, goal, plain, cosine, in_images}, {start, step.direction});
  }
  const std::size_t cast = w.cast(room.kernel);
  for (std::size_t i = 0; i < cast; ++i) {
    auto& [step, goal, plain, cosine, in_images, imaged] = w.ways[i];
    Arrival& a = step->arrival;
    double density = mixture.unaimed(plain, cosine) + in_images;
    std::uint32_t first = no_goal - 1;
    const bool wall = meets_wall(room, w.rays[i], w.met[i], a);
    if (wall) {
      a.side = side_of(room, *w.met[i], a.behind);
      first = static_cast<std::uint32_t>(a.side);
      density += mixture.to_zone(a.side, a.path_mm, -dot(a.normal, a.direction));
    } else if (a.at == Arrival::At::sky) {
      first = goal_in_sky(room, aim_fields.of(a.direction));
      density += mixture.to_sky(first, a.direction);
    }
    if (goal != no_goal && !is_in_image(room, goal) && goal != first) {
      a.at = Arrival::At::lost;
      continue;
    }
    step->first = first;
    step->density = density;
    step->factor = plain / density;
    imaged = in_images / density;
    if (wall) w.go_on(room, i, random);
  }
  while (w.count > 0) {
    const std::size_t on = w.cast(room.kernel);
    for (std::size_t i = 0; i < on; ++i) {
      Arrival& a = w.ways[i].step->arrival;
      if (!meets_wall(room, w.rays[i], w.met[i], a)) continue;
      w.go_on(room, i, random);
      if (a.at == Arrival::At::wall) a.side = side_of(room, *w.met[i], a.behind);
    }
  }
}

}  // namespace backfit::ray
