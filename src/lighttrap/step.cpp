// SPDX-License-Identifier: MIT
#include "lighttrap/step.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>

#include "lighttrap/gloss.hpp"

namespace backfit::ray {
namespace {

// Part of the steps that go out as light is scattered, whatever promises more, and of those that
// graze: in a narrow gap light that flies far carries most, and even light seldom finds it.
constexpr double even_part = 0.3, grazing_part = 0.2;
// Grazing steps have cosines from 1 down to 2^-octaves, every halving alike.
constexpr int octaves = 13;

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
  Ray ray;
  Arrival* arrival = nullptr;
};

// Whether the way goes on, mirrored, from what its ray met. Light that meets an edge is lost:
// rounding could send it on behind the wall, and what is open there is many million times as
// bright.
bool goes_on(const Room& room, Way& way, const std::optional<Meeting>& met, Random& random) {
  Arrival& a = *way.arrival;
  const Vec direction = way.ray.direction;
  a.direction = direction;
  if (!met) {
    a.at = Arrival::At::sky;
    return false;
  }
  a.path_mm += met->far_mm;
  a.triangle = met->triangle;
  if (room.is_film(met->triangle)) {
    a.at = Arrival::At::film;
    a.point = way.ray.from + met->far_mm * direction;
    return false;
  }
  const Room::Face& face = room.faces[met->triangle];
  const double ahead = dot(face.out, direction);
  if (face.one_sided ? ahead > 0 : face.on_edge(met->u, met->v)) return false;
  a.normal = ahead > 0 ? -1 * face.out : face.out;
  a.point = face.at(met->u, met->v);
  const Stuff& stuff = *face.stuff;
  if (!stuff.is_mirror &&
      (stuff.wall.gloss_index == 1 ||
       random.unit() >= mirrored(std::min(1.0, std::abs(ahead)), stuff.wall.gloss_index))) {
    a.at = Arrival::At::wall;
    a.side = room.zones.side_at(met->triangle, met->u, met->v, ahead > 0);
    return false;
  }
  way.ray = {a.point + room.offset_mm * a.normal,
             direction - 2 * dot(direction, a.normal) * a.normal};
  return ++a.mirrorings < most_mirrorings;
}

// What steps are made with, kept between them: to clear it each time would take as long as a ray.
struct Tools {
  Sight sight;
  std::array<Way, most_steps> ways;
  std::array<Ray, most_steps> rays;
  std::array<std::optional<Meeting>, most_steps> met;
};

// The first `count` ways to their ends.
void follow(const Room& room, Tools& tools, std::size_t count, Random& random) {
  auto& [sight, all, rays, met] = tools;
  std::span<Way> ways = std::span(all).first(count);
  while (!ways.empty()) {
    for (std::size_t i = 0; i < ways.size(); ++i) rays[i] = ways[i].ray;
    room.kernel.first(std::span(rays).first(ways.size()), std::span(met).first(ways.size()));
    std::size_t on = 0;
    for (std::size_t i = 0; i < ways.size(); ++i) {
      if (goes_on(room, ways[i], met[i], random)) ways[on++] = ways[i];
    }
    ways = ways.first(on);
  }
}

// Which part of the steps is of which kind.
struct Mixture {
  double graze, aimed;
  explicit Mixture(const Aim* aim)
      : graze(aim != nullptr && aim->light() > 0 ? grazing_part : 1 - even_part),
        aimed(1 - even_part - graze) {}
  double density(Sight& sight, double plain, double cosine, Vec direction) const {
    const double rest = even_part * plain + graze * grazing_density(cosine);
    return aimed > 0 ? rest + aimed * sight.density(direction) : rest;
  }
};

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

double step_density(const Room& room, const Aim* aim, const Start& from, Vec direction) {
  thread_local Sight sight;
  const Mixture mixture(aim);
  if (mixture.aimed > 0) sight.look(*aim, from.at);
  const double plain = scattered_density(room, from, direction) / std::numbers::pi;
  return mixture.density(sight, plain, dot(direction, from.normal), direction);
}

void steps_from(const Room& room, const Aim* aim, const Start& from, Random& random,
                std::span<Step> steps) {
  assert(steps.size() <= most_steps);
  thread_local Tools tools;
  Sight& sight = tools.sight;
  const Mixture mixture(aim);
  if (mixture.aimed > 0) sight.look(*aim, from.at);
  const Vec start = from.at + room.offset_mm * from.normal;
  std::size_t count = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    Step& step = steps[i];
    step.arrival.at = Arrival::At::lost;
    step.arrival.mirrorings = 0;
    step.arrival.path_mm = 0;
    step.factor = 0;
    const double pick =
        (static_cast<double>(i) + random.unit()) / static_cast<double>(steps.size());
    const double beyond = pick - even_part, last = beyond - mixture.graze;
    step.direction = beyond < 0 ? scattered(from, random)
                     : last < 0 ? grazing(from, beyond / mixture.graze, random)
                                : sight.direction(last / mixture.aimed, random);
    const double cosine = dot(step.direction, from.normal);
    if (!(cosine > 0)) continue;
    const double plain = scattered_density(room, from, step.direction) / std::numbers::pi;
    step.factor = plain / mixture.density(sight, plain, cosine, step.direction);
    tools.ways[count++] = {{start, step.direction}, &step.arrival};
  }
  follow(room, tools, count, random);
}

}  // namespace backfit::ray
