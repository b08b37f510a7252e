// SPDX-License-Identifier: MIT
#include "lighttrap/light_map.hpp"

#include <algorithm>
#include <numbers>
#include <thread>
#include <utility>

#include "lighttrap/share_out.hpp"

namespace backfit::ray {
namespace {

// What a row aims at: no more than the brightest, and those only that bring most of its light.
constexpr std::size_t most_ways = 8, most_goals = 64;
constexpr double enough = 0.98;

// How much wider than its zone is narrow a goal's cone is.
constexpr double widening = 2;

// What one row found: so much of its exchange with the side of a zone.
struct Link {
  std::size_t to;
  double exchange;
  Vec place,
      place_back;  // found on the zone, or where a mirror shows it; and of this one from there
  bool mirrored = false;
};
using Links = std::vector<Link>;

// And of the sky, by some ways to it.
struct Found {
  double sky = 0;
  std::vector<Vec> ways;
  double cone = 0;  // solid angle of each way's, in sr
  Links links;
};

// What was found at one zone, straight or in one mirror, becomes one link to the middle of it.
Links joined(const Room& room, Links links) {
  std::stable_sort(links.begin(), links.end(),
                   [](const Link& x, const Link& y) { return x.to < y.to; });
  Links joined;
  std::size_t first = 0;  // of the links to the same zone
  for (const Link& link : links) {
    if (joined.empty() || joined.back().to != link.to) first = joined.size();
    const double near = link.to < room.zones.sides() ? room.zones.longest_mm(link.to) : 0;
    const auto same = std::find_if(joined.begin() + static_cast<std::ptrdiff_t>(first),
                                   joined.end(), [&](const Link& j) {
                                     return j.mirrored == link.mirrored &&
                                            (!link.mirrored || length(j.place - link.place) < near);
                                   });
    if (same == joined.end()) {
      joined.push_back(link);
      continue;
    }
    same->exchange += link.exchange;
    const double part = same->exchange > 0 ? link.exchange / same->exchange : 0;
    same->place = same->place + part * (link.place - same->place);
    same->place_back = same->place_back + part * (link.place_back - same->place_back);
  }
  return joined;
}

std::size_t patch_at(const Room& room, const Arrival& a) {
  const FilmPlane& f = room.film;
  const Vec w = vec_mm(f.width), h = vec_mm(f.height), from = a.point - vec_mm(f.corner);
  const auto place = [](double part, std::size_t count) {
    return std::min(count - 1,
                    static_cast<std::size_t>(std::max(0.0, part * static_cast<double>(count))));
  };
  return place(dot(from, h) / dot(h, h), f.rows) * f.columns +
         place(dot(from, w) / dot(w, w), f.columns);
}

bool is_films_front(const Room& room, const Arrival& a) {
  return dot(a.direction, cross(vec_mm(room.film.width), vec_mm(room.film.height))) < 0;
}

// What two sides exchange is the same both ways: the mean of what each found. So a wide wall
// knows of the narrow gap that few of its own rays find.
void share_between(const Room& room, std::vector<Found>& found) {
  const std::size_t sides = room.zones.sides();
  const double patch_mm2 = length(vec_mm(room.film.width)) * length(vec_mm(room.film.height)) /
                           static_cast<double>(room.patches());
  std::vector<Links> back(found.size());
  for (std::size_t from = 0; from < found.size(); ++from) {
    const double area = from < sides ? 1 : patch_mm2;  // a patch counts as 1, see below
    std::erase_if(found[from].links, [&](Link& link) {
      link.exchange /= 2;
      const double there = link.to < sides ? 1 : patch_mm2;
      if (from < sides) {  // the film sends nothing on
        back[link.to].push_back(
            {from, link.exchange * area / there, link.place_back, link.place, link.mirrored});
      }
      return link.to >= sides;
    });
  }
  for (std::size_t i = 0; i < found.size(); ++i) {
    Links& links = found[i].links;
    links.insert(links.end(), back[i].begin(), back[i].end());
    links = joined(room, std::move(links));
  }
}

// Rays from a place in row `number`, all together of weight `all`.
template <class Starts>
Found found_from(const Room& room, const LightMap* before, std::size_t number, std::size_t rays,
                 double all, const Starts& start) {
  Random random((0x5eed + rays) * 0x9e3779b97f4a7c15 + number);
  Found found;
  const double weight = all / static_cast<double>(rays);
  const Aim* aim = before == nullptr ? nullptr : &before->rows[number].aim;
  Step step;
  for (std::size_t i = 0; i < rays; ++i) {
    const Start from = start(random);
    steps_from(room, aim, from, random, std::span(&step, 1));
    const Arrival& a = step.arrival;
    const double light = weight * step.factor;
    if (a.at == Arrival::At::sky) {
      found.sky += light;
      if (found.ways.size() < most_ways) found.ways.push_back(step.direction);
    } else if (a.at == Arrival::At::wall) {
      const bool mirrored = a.mirrorings > 0;
      found.links.push_back({a.side, light,
                             mirrored ? from.at + a.path_mm * step.direction : a.point,
                             mirrored ? a.point - a.path_mm * a.direction : from.at, mirrored});
    } else if (a.at == Arrival::At::film && is_films_front(room, a)) {
      found.links.push_back(
          {room.zones.sides() + patch_at(room, a), light, a.point, from.at, a.mirrorings > 0});
    }
  }
  // Twice the sky's share of the half sphere, so that a cone about one way holds much of it.
  found.cone = std::clamp(4 * std::numbers::pi * found.sky / all, 1e-3, 2 * std::numbers::pi);
  return found;
}

double light_of(const Found& found, const std::vector<double>& bright) {
  double light = found.sky;
  for (const Link& link : found.links) light += link.exchange * bright[link.to];
  return light;
}

// The balance of all zones, from the sky inwards, until the darkest stands still. Areas of 0 are
// left out.
std::vector<double> balanced(const Room& room, const std::vector<Found>& found,
                             const std::vector<double>& area, const MapWatch& watch) {
  std::vector<double> bright(area.size(), 0), lit(area.size(), 0);
  std::vector<Crossing> crossings(area.size());  // in the middle of each zone
  for (std::size_t side = 0; side < area.size(); ++side) {
    if (area[side] == 0) continue;
    const Zones::Zone& zone = room.zones.zones()[side / 2];
    const auto& [p, q, r] = zone.corners;
    const Vec out = room.faces[zone.triangle].out;
    crossings[side] = crossing_at(room, zone.triangle, side,
                                  {1.0 / 3 * (p + q + r), side % 2 == 0 ? out : -1 * out, nullptr});
  }
  for (int round = 0; round < 2000 && watch.may_go_on(); ++round) {
    double change = 0;
    for (std::size_t side = 0; side < area.size(); ++side) {
      if (area[side] == 0) continue;
      const Crossing& c = crossings[side];
      lit[side] = light_of(found[side], bright) / area[side];
      // Never above what even light from all round would give.
      const double now = std::min(1.0, c.scatters * lit[side] + c.passes * lit[c.side]);
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

LightMap::Row row_of(const Room& room, Found found, const std::vector<double>& bright) {
  LightMap::Row row{light_of(found, bright), {}};
  Links& links = found.links;
  for (Link& link : links) link.exchange *= bright[link.to];
  std::stable_sort(links.begin(), links.end(),
                   [](const Link& a, const Link& b) { return a.exchange > b.exchange; });
  std::vector<Aim::Goal> goals;
  double sum = found.sky;
  for (const Link& link : links) {
    if (goals.size() == most_goals || sum > enough * row.light) break;
    const double narrow =
        2 * room.zones.zones()[link.to / 2].area_mm2 / room.zones.longest_mm(link.to);
    goals.push_back({link.place, widening * narrow, link.exchange});
    sum += link.exchange;
  }
  row.aim = Aim(found.sky, std::move(found.ways), found.cone, std::move(goals));
  return row;
}

}  // namespace

LightMap::LightMap(const Room& room, std::size_t rays_each, std::size_t threads,
                   const LightMap* before, const MapWatch& watch) {
  const std::size_t sides = room.zones.sides(), patches = room.patches();
  const std::size_t film_rays = std::max<std::size_t>(rays_each, 16384 / patches);
  rows.resize(sides + patches);
  std::vector<double> area(sides);
  std::vector<Found> found(rows.size());
  const auto caller = std::this_thread::get_id();
  share_out(rows.size(), threads, [&](std::size_t number) {
    if (!watch.may_go_on()) return;
    if (number % 16 == 0 && std::this_thread::get_id() == caller) {
      watch.progress(static_cast<double>(number) / static_cast<double>(rows.size()));
    }
    if (number >= sides) {
      found[number] = found_from(room, before, number, film_rays, 1, [&](Random& random) {
        return start_on_film(room, number - sides, random);
      });
      return;
    }
    const Zones::Zone& zone = room.zones.zones()[number / 2];
    const auto stuff = room.surfaces.triangles[zone.triangle].stuff;
    if (zone.area_mm2 == 0 || room.surfaces.stuffs[stuff].is_mirror) return;
    if (room.surfaces.bodies && number % 2 == 1 && room.surfaces.stuffs[stuff].passes == 0) return;
    area[number] = zone.area_mm2 * room.let_out[stuff];
    found[number] = found_from(room, before, number, rays_each, area[number],
                               [&](Random& random) { return start_on_zone(room, number, random); });
  });
  if (!watch.may_go_on()) return;
  share_between(room, found);
  brightness = balanced(room, found, area, watch);
  share_out(rows.size(), threads, [&](std::size_t number) {
    rows[number] = row_of(room, std::move(found[number]), brightness);
  });
}

}  // namespace backfit::ray
