// SPDX-License-Identifier: MIT
#include "lighttrap/light_map.hpp"

#include <algorithm>
#include <numbers>
#include <optional>
#include <utility>

#include "lighttrap/share_out.hpp"

namespace backfit::ray {
namespace {

constexpr std::size_t most_ways = 8, most_goals = 200;

// How much wider than its zone is narrow a goal's cone is.
constexpr double widening = 2;

// Part of the steps that go out as light is scattered, whatever promises more, and of those that
// graze: in a narrow gap light that flies far carries most, and even light seldom finds it.
constexpr double even_part = 0.3, grazing_part = 0.2;
// Grazing steps have cosines of all sizes down to this alike.
constexpr double least_cosine = 1e-4;

// A direction evenly within the cone of that solid angle.
Vec within_cone(Vec axis, double solid_angle, Random& random) {
  const double cosine = 1 - random.unit() * solid_angle / (2 * std::numbers::pi);
  const double sine = std::sqrt(std::max(0.0, 1 - cosine * cosine));
  const double turn = 2 * std::numbers::pi * random.unit();
  const auto [along, beside] = across(axis);
  return unit(cosine * axis + sine * std::cos(turn) * along + sine * std::sin(turn) * beside);
}

Vec grazing(const Start& from, Random& random) {
  const double cosine = std::exp(std::log(least_cosine) * random.unit());
  const double sine = std::sqrt(1 - cosine * cosine);
  const double turn = 2 * std::numbers::pi * random.unit();
  const auto [along, beside] = across(from.normal);
  return cosine * from.normal + sine * std::cos(turn) * along + sine * std::sin(turn) * beside;
}

double grazing_density(const Start& from, Vec direction) {
  const double cosine = dot(from.normal, direction);
  if (cosine < least_cosine) return 0;
  return 1 / (2 * std::numbers::pi * cosine * -std::log(least_cosine));
}

double solid_angle_of(double radius, double square_of_distance) {
  const double cosine = std::sqrt(square_of_distance / (square_of_distance + radius * radius));
  return 2 * std::numbers::pi * (1 - cosine);
}

// Per sr, within the cone.
double aimed_density(const LightMap::Row::Goal& goal, Vec at, Vec direction) {
  const Vec way = goal.middle - at;
  const double ahead = dot(way, direction), square = dot(way, way);
  const double radius = goal.radius_mm;
  if (ahead <= 0 || ahead * ahead * (square + radius * radius) < square * square) return 0;
  return 1 / solid_angle_of(radius, square);
}

}  // namespace

double LightMap::Row::density(Vec at, Vec direction) const {
  double density = 0;
  if (!ways.empty()) {
    const double edge = 1 - cone / (2 * std::numbers::pi);
    const auto inside = std::count_if(ways.begin(), ways.end(),
                                      [&](Vec way) { return dot(way, direction) >= edge; });
    density = sky * static_cast<double>(inside) / (static_cast<double>(ways.size()) * cone);
  }
  double before = sky;
  for (std::size_t i = 0; i < goals.size(); ++i) {
    const double light = sums[i] - before;
    before = sums[i];
    density += light * aimed_density(goals[i], at, direction);
  }
  return density / aimed();
}

Vec LightMap::Row::direction(Vec at, Random& random) const {
  const double pick = random.unit() * aimed();
  if (pick < sky) {
    const double i = random.unit() * static_cast<double>(ways.size());
    return within_cone(ways[static_cast<std::size_t>(i)], cone, random);
  }
  const auto found = std::upper_bound(sums.begin(), sums.end() - 1, pick);
  const Goal& goal = goals[static_cast<std::size_t>(found - sums.begin())];
  const Vec way = goal.middle - at;
  return within_cone(unit(way), solid_angle_of(goal.radius_mm, dot(way, way)), random);
}

Step step_from(const Room& room, const LightMap* map, std::size_t row_number, const Start& from,
               Random& random) {
  Step step;
  step.arrival.at = Arrival::At::film;  // until it arrives
  const LightMap::Row* row = map == nullptr ? nullptr : &map->rows[row_number];
  if (row != nullptr && !(row->aimed() > 0)) row = nullptr;
  const double graze = row == nullptr ? 1 - even_part : grazing_part;
  const double pick = random.unit();
  step.direction = pick < even_part           ? scattered(from, random)
                   : pick < even_part + graze ? grazing(from, random)
                                              : row->direction(from.at, random);
  if (!(dot(step.direction, from.normal) > 0)) return step;
  const double plain = scattered_density(room, from, step.direction) / std::numbers::pi;
  double density = even_part * plain + graze * grazing_density(from, step.direction);
  if (row != nullptr) {
    density += (1 - even_part - graze) * row->density(from.at, step.direction);
  }
  step.factor = plain / density;
  const Arrival seen = stretch(room, from.at, from.normal, step.direction);
  step.arrival = settled(room, seen, step.direction, random);
  return step;
}

namespace {

// What one row found: so much of its exchange with the side of a zone.
struct Link {
  std::size_t to;
  double exchange;
  Vec place,
      place_back;  // found on the zone, or where a mirror shows it; and of this one from there
  bool mirrored = false;
};
using Links = std::vector<Link>;

// What was found straight at one zone becomes one link; images stay apart.
Links joined(Links links) {
  std::sort(links.begin(), links.end(), [](const Link& x, const Link& y) {
    return std::pair(x.mirrored, x.to) < std::pair(y.mirrored, y.to);
  });
  Links joined;
  for (const Link& link : links) {
    if (!joined.empty() && !link.mirrored && joined.back().to == link.to) {
      joined.back().exchange += link.exchange;
    } else {
      joined.push_back(link);
    }
  }
  return joined;
}

// The patch of film that a ray came to, and not a way that was lost.
std::optional<std::size_t> patch_at(const Room& room, const Arrival& a) {
  if (a.at != Arrival::At::film || !room.is_film(a.triangle) || a.path_mm == 0) return {};
  const FilmPlane& f = room.film;
  const Vec w = vec_mm(f.width), h = vec_mm(f.height), from = a.point - vec_mm(f.corner);
  if (!(dot(a.direction, cross(w, h)) < 0)) return {};  // the film's back
  const auto place = [](double part, std::size_t count) {
    return std::min(count - 1,
                    static_cast<std::size_t>(std::max(0.0, part * static_cast<double>(count))));
  };
  return place(dot(from, h) / dot(h, h), f.rows) * f.columns +
         place(dot(from, w) / dot(w, w), f.columns);
}

// What two sides exchange is the same both ways: the mean of what each found. So a wide wall
// knows of the narrow gap that few of its own rays find.
void share_between(const Room& room, std::vector<Links>& links) {
  const std::size_t sides = room.zones.sides();
  const double patch_mm2 = length(vec_mm(room.film.width)) * length(vec_mm(room.film.height)) /
                           static_cast<double>(room.film.columns * room.film.rows);
  std::vector<Links> back(links.size());
  for (std::size_t from = 0; from < links.size(); ++from) {
    const double area = from < sides ? 1 : patch_mm2;  // a patch counts as 1, see below
    std::erase_if(links[from], [&](Link& link) {
      link.exchange /= 2;
      const double there = link.to < sides ? 1 : patch_mm2;
      back[link.to].push_back(
          {from, link.exchange * area / there, link.place_back, link.place, link.mirrored});
      return link.to >= sides;  // the film sends nothing on
    });
  }
  for (std::size_t i = 0; i < links.size(); ++i) {
    std::erase_if(back[i], [&](const Link& link) { return link.to >= sides; });
    links[i].insert(links[i].end(), back[i].begin(), back[i].end());
    links[i] = joined(std::move(links[i]));
  }
}

// Rays from a place in row `number`, all together of weight `all`.
template <class Starts>
Links found_links(const Room& room, const LightMap* before, std::size_t number, std::size_t rays,
                  double all, const Starts& start, LightMap::Row& row) {
  Random random((0x5eed + rays) * 0x9e3779b97f4a7c15 + number);
  Links links;
  const double weight = all / static_cast<double>(rays);
  for (std::size_t i = 0; i < rays; ++i) {
    const Start from = start(random);
    const Step step = step_from(room, before, number, from, random);
    const Arrival& a = step.arrival;
    if (a.at == Arrival::At::sky) {
      row.sky += weight * step.factor;
      if (row.ways.size() < most_ways) row.ways.push_back(step.direction);
    } else if (a.at == Arrival::At::wall) {
      links.push_back({a.side, weight * step.factor, a.point, from.at, a.mirrored});
      if (a.mirrored) {
        links.back().place = from.at + a.path_mm * step.direction;
        links.back().place_back = a.point - a.path_mm * a.direction;
      }
    } else if (const auto patch = patch_at(room, a)) {
      links.push_back(
          {room.zones.sides() + *patch, weight * step.factor, a.point, from.at, a.mirrored});
    }
  }
  // Twice the sky's share of the half sphere, so that a cone about one way holds much of it.
  row.cone = std::clamp(4 * std::numbers::pi * row.sky / all, 1e-3, 2 * std::numbers::pi);
  return links;
}

double light_of(const LightMap::Row& row, const Links& links, const std::vector<double>& bright) {
  double light = row.sky;
  for (const Link& link : links) light += link.exchange * bright[link.to];
  return light;
}

// The balance of all zones, from the sky inwards, until the darkest stands still. Areas of 0 are
// left out.
std::vector<double> balanced(const Room& room, const std::vector<LightMap::Row>& rows,
                             const std::vector<Links>& links, const std::vector<double>& area) {
  std::vector<double> bright(area.size(), 0);
  for (int round = 0; round < 2000; ++round) {
    double change = 0;
    for (std::size_t side = 0; side < area.size(); ++side) {
      if (area[side] == 0) continue;
      const double reflectance =
          room.stuff_of(room.zones.zones()[side / 2].triangle).wall.reflectance;
      // Never above what even light from all round would give.
      const double now =
          std::min(1.0, reflectance * light_of(rows[side], links[side], bright) / area[side]);
      if (now > 0) change = std::max(change, std::abs(now - bright[side]) / now);
      bright[side] = now;
    }
    if (change < 1e-3) break;
  }
  double least = 1;
  for (const double b : bright) {
    if (b > 0) least = std::min(least, b);
  }
  for (double& b : bright) b = std::max(b, least);
  return bright;
}

// The brightest links become goals.
void add_goals(const Room& room, Links links, const std::vector<double>& bright,
               LightMap::Row& row) {
  for (Link& link : links) link.exchange *= bright[link.to];
  std::stable_sort(links.begin(), links.end(),
                   [](const Link& a, const Link& b) { return a.exchange > b.exchange; });
  if (links.size() > most_goals) links.resize(most_goals);
  double sum = row.sky;
  for (const Link& link : links) {
    const auto& c = room.zones.zones()[link.to / 2].corners;
    const double longest =
        std::max({length(c[1] - c[0]), length(c[2] - c[1]), length(c[0] - c[2])});
    const double narrow = 2 * room.zones.zones()[link.to / 2].area_mm2 / longest;
    row.goals.push_back({link.place, widening * narrow});
    row.sums.push_back(sum += link.exchange);
  }
}

}  // namespace

LightMap::LightMap(const Room& room, std::size_t rays_each, std::size_t threads,
                   const LightMap* before) {
  const std::size_t sides = room.zones.sides(), patches = room.film.columns * room.film.rows;
  const std::size_t film_rays = std::max<std::size_t>(rays_each, 16384 / patches);
  rows.resize(sides + patches);
  std::vector<double> area(sides);
  std::vector<Links> links(rows.size());
  share_out(rows.size(), threads, [&](std::size_t number) {
    if (number >= sides) {
      links[number] = found_links(
          room, before, number, film_rays, 1,
          [&](Random& random) { return start_on_film(room, number - sides, random); },
          rows[number]);
      return;
    }
    const Zones::Zone& zone = room.zones.zones()[number / 2];
    const auto stuff = room.surfaces.triangles[zone.triangle].stuff;
    if (zone.area_mm2 == 0 || room.surfaces.stuffs[stuff].is_mirror) return;
    if (room.surfaces.bodies && number % 2 == 1) return;
    area[number] = zone.area_mm2 * room.let_out[stuff];
    links[number] = found_links(
        room, before, number, rays_each, area[number],
        [&](Random& random) { return start_on_zone(room, number, random); }, rows[number]);
  });
  share_between(room, links);
  brightness = balanced(room, rows, links, area);
  share_out(rows.size(), threads, [&](std::size_t number) {
    rows[number].all = light_of(rows[number], links[number], brightness);
    add_goals(room, std::move(links[number]), brightness, rows[number]);
  });
}

}  // namespace backfit::ray
