// SPDX-License-Identifier: MIT
#include "lighttrap/step.hpp"

#include <algorithm>
#include <bit>

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

Vec grazing(const Start& from, Random& random) {
  const std::uint64_t bits = random.bits();
  const auto octave = static_cast<int>((bits >> 32) * octaves >> 32);
  const double within = (static_cast<double>(static_cast<std::uint32_t>(bits)) + 0.5) * 0x1p-32;
  // The exponent field of a double, 1023 for 1.
  const auto least = std::bit_cast<double>((1022 - static_cast<std::uint64_t>(octave)) << 52);
  const double cosine = least * (1 + within);
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

// Goes straight, and on as long as faces mirror, chosen at random. Light that meets an edge is
// lost: rounding could send it on behind the wall, and what is open there is many million times as
// bright.
void follow(const Room& room, const Start& from, Vec direction, Random& random, Arrival& a) {
  Vec at = from.at, normal = from.normal;
  double path = 0;
  for (std::uint32_t mirrorings = 0; mirrorings < most_mirrorings; ++mirrorings) {
    const Vec start = at + room.offset_mm * normal;
    const auto met = room.kernel.first(start, direction);
    if (!met) {
      a.at = Arrival::At::sky;
      a.direction = direction;
      a.mirrorings = mirrorings;
      return;
    }
    path += met->far_mm;
    const bool film = room.is_film(met->triangle);
    bool stays = film;
    if (film) {
      at = start + met->far_mm * direction;
    } else {
      const Room::Face& face = room.faces[met->triangle];
      const double ahead = dot(face.out, direction);
      if (face.one_sided ? ahead > 0 : face.on_edge(met->u, met->v)) return;
      normal = ahead > 0 ? -1 * face.out : face.out;
      at = face.at(met->u, met->v);
      const Stuff& stuff = *face.stuff;
      stays = !stuff.is_mirror &&
              (stuff.wall.gloss_index == 1 ||
               random.unit() >= mirrored(std::min(1.0, std::abs(ahead)), stuff.wall.gloss_index));
      if (stays) a.side = room.zones.side_at(met->triangle, met->u, met->v, ahead > 0);
    }
    if (stays) {
      a.at = film ? Arrival::At::film : Arrival::At::wall;
      a.point = at;
      a.normal = normal;
      a.direction = direction;
      a.triangle = met->triangle;
      a.mirrorings = mirrorings;
      a.path_mm = path;
      return;
    }
    direction = direction - 2 * dot(direction, normal) * normal;
  }
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

double Aim::density(Vec at, Vec direction) const {
  double density = 0;
  for (const Vec way : ways_) {
    if (dot(way, direction) >= 1 - cap_) density += strength_;
  }
  for (std::size_t k = 0; k < balls_.size(); ++k) {
    const Ball& ball = balls_[k];
    const Vec way{ball.x - at.x, ball.y - at.y, ball.z - at.z};
    const double along = dot(way, direction), far = dot(way, way);
    if (far > ball.square && (along < 0 || far - along * along > ball.square)) continue;
    const Pack& p = packs_[k];
    // All first and the choice after, so that the compiler takes several at once.
    std::array<double, pack_size> over{}, cone{};
    for (std::size_t i = 0; i < pack_size; ++i) {
      const double x = p.x[i] - at.x, y = p.y[i] - at.y, z = p.z[i] - at.z;
      const double ahead = x * direction.x + y * direction.y + z * direction.z;
      const double square = x * x + y * y + z * z;
      cone[i] = square + p.square[i];
      // The cosine to the axis against 1 - r^2 / 2 (d^2 + r^2); a goal behind is never in.
      const double edge = 2 * cone[i] - p.square[i];
      over[i] = 4 * cone[i] * cone[i] * ahead * std::abs(ahead) - edge * edge * square;
    }
    for (std::size_t i = 0; i < pack_size; ++i) {
      if (over[i] >= 0) density += p.strength[i] * cone[i];
    }
  }
  return density;
}

Vec Aim::direction(Vec at, Random& random) const {
  const std::uint64_t bits = random.bits();
  const std::size_t fair = (bits >> 32) * choices_.size() >> 32;
  const double own = (static_cast<double>(static_cast<std::uint32_t>(bits)) + 0.5) * 0x1p-32;
  const std::size_t chosen = own < choices_[fair].own ? fair : choices_[fair].other;
  if (chosen < ways_.size()) return within_cone(ways_[chosen], cap_, random);
  const std::size_t goal = chosen - ways_.size(), i = goal % pack_size;
  const Pack& p = packs_[goal / pack_size];
  const Vec way = Vec{p.x[i], p.y[i], p.z[i]} - at;
  const double square = dot(way, way);
  return within_cone(1 / std::sqrt(square) * way, p.square[i] / (2 * (square + p.square[i])),
                     random);
}

Step step_from(const Room& room, const Aim* aim, const Start& from, Random& random) {
  Step step;
  const bool aims = aim != nullptr && aim->light() > 0;
  const double graze = aims ? grazing_part : 1 - even_part;
  const double pick = random.unit();
  step.direction = pick < even_part                    ? scattered(from, random)
                   : !aims || pick < even_part + graze ? grazing(from, random)
                                                       : aim->direction(from.at, random);
  const double cosine = dot(step.direction, from.normal);
  if (!(cosine > 0)) return step;
  const double plain = scattered_density(room, from, step.direction) / std::numbers::pi;
  double density = even_part * plain + graze * grazing_density(cosine);
  if (aims) density += (1 - even_part - graze) * aim->density(from.at, step.direction);
  step.factor = plain / density;
  follow(room, from, step.direction, random, step.arrival);
  return step;
}

}  // namespace backfit::ray
