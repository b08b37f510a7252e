// SPDX-License-Identifier: MIT
#include "lighttrap/light_map.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <span>
#include <thread>
#include <tuple>
#include <utility>

#include "lighttrap/aims.hpp"
#include "lighttrap/brightest.hpp"
#include "lighttrap/share_out.hpp"
#include "lighttrap/sought.hpp"

namespace backfit::ray {
namespace {

// A zone counts as no darker than some part of its brightest neighbour, looked for so far outside
// it, in its own size.
constexpr double of_neighbour = 0.2, outside = 0.3;

// So many sets of mirrors are looked by, and some of the looks by all of them alike.
constexpr std::size_t most_glances = 32;
constexpr double all_alike = 0.3;

// So much of what comes by a group of zones is taken as spread over all of it.
constexpr double spread = 0.5;

// What was found at one zone by one way becomes one link.
Links joined(Links links) {
  const auto way = [](const Link& link) { return std::tuple(link.to, link.first, link.mirrors); };
  std::stable_sort(links.begin(), links.end(),
                   [&](const Link& x, const Link& y) { return way(x) < way(y); });
  Links joined;
  for (const Link& link : links) {
    if (joined.empty() || way(joined.back()) != way(link)) {
      joined.push_back(link);
    } else {
      joined.back().exchange += link.exchange;
    }
  }
  return joined;
}

bool is_films_front(const Room& room, const Arrival& a) {
  return dot(a.direction, cross(vec_mm(room.film.width), vec_mm(room.film.height))) < 0;
}

Mirrors reversed(Mirrors mirrors) {
  const auto end = std::find(mirrors.begin(), mirrors.end(), 0);
  std::reverse(mirrors.begin(), end);
  return mirrors;
}

// What two sides exchange is the same both ways: the mean of what each found. So a wide wall
// knows of the narrow gap that few of its own rays find.
void share_between(const Room& room, std::vector<Found>& found) {
  const std::size_t sides = room.zones.sides();
  const double cell_mm2 = length(vec_mm(room.film.width)) * length(vec_mm(room.film.height)) /
                          static_cast<double>(room.cells());
  std::vector<Links> back(found.size());
  for (std::size_t from = 0; from < found.size(); ++from) {
    const double area = from < sides ? 1 : cell_mm2;  // a cell counts as 1, see below
    std::erase_if(found[from].links, [&](Link& link) {
      link.exchange /= 2;
      const double there = link.to < sides ? 1 : cell_mm2;
      if (from < sides) {  // the film sends nothing on
        back[link.to].push_back({from, link.exchange * area / there, link.first_back, link.first,
                                 reversed(link.mirrors)});
      }
      return link.to >= sides;
    });
  }
  for (std::size_t i = 0; i < found.size(); ++i) {
    Links& links = found[i].links;
    links.insert(links.end(), back[i].begin(), back[i].end());
    links = joined(std::move(links));
  }
}

// The film's rays, in all its cells, at least: there every walk begins. And from each place, by the
// ray, looks for zones that are sought.
constexpr std::size_t film_rays_in_all = 65536, looks_by_ray = 1, film_looks_by_ray = 2,
                      film_looks_among_bodies = 8;

// Rays from places in row `number`, all together of weight `all`. Requires rays by the eight.
template <class Starts>
Found found_from(const Room& room, const Aim* aim, const Sought& sought, std::size_t number,
                 std::size_t rays, double all, const Starts& start) {
  const std::size_t by_ray = number < room.zones.sides() ? looks_by_ray
                             : room.surfaces.bodies      ? film_looks_among_bodies
                                                         : film_looks_by_ray;
  const std::size_t looks = sought.times() * by_ray * most_steps;
  Random random((0x5eed + rays) * 0x9e3779b97f4a7c15 + number);
  Found found;
  const auto count = static_cast<double>(rays);
  const double looks_in_all = count * static_cast<double>(sought.times() * by_ray);
  std::array<Step, most_steps> steps;
  const auto back_of = [&](const Arrival& a) {
    return static_cast<std::uint32_t>(
        a.mirrorings > 0 ? side_of(room, a.last_mirror, a.behind_mirror) : number);
  };
  // What both rays and looks can find counts by the density of both.
  const auto add_link = [&](const Step& step, std::uint32_t back) {
    const Arrival& a = step.arrival;
    const bool is_known = a.mirrorings == 0 || a.mirrors[0] != 0;
    const double looked = is_known ? looks_in_all * sought.density(a.side / 2, a.mirrors, a.path_mm,
                                                                   -dot(a.direction, a.normal))
                                   : 0;
    found.links.push_back({a.side,
                           all * step.factor * step.density / (count * step.density + looked),
                           step.first, back, a.mirrors});
  };
  for (std::size_t i = 0; i < rays; i += steps.size()) {
    const Start from = start(random);
    steps_from(room, aim, from, random, steps);
    for (const Step& step : steps) {
      if (step.factor == 0) continue;
      const Arrival& a = step.arrival;
      const double light = all / count * step.factor;
      const std::uint32_t back = back_of(a);
      if (a.at == Arrival::At::sky) {
        found.sky += light;
        found.skies.push_back({step.first, light, a.mirrors});
      } else if (a.at == Arrival::At::wall) {
        add_link(step, back);
      } else if (a.at == Arrival::At::film && is_films_front(room, a)) {
        found.links.push_back(
            {room.zones.sides() + room.cell_at(a.point), light, step.first, back, a.mirrors});
      }
    }
    for (std::size_t look = 0; look < looks; ++look) {
      const std::size_t zone = sought.zone(random);
      const Mirrors by = sought.mirrors(random);
      const Vec to = shown_at(room, start_on_zone(room, 2 * zone, random).at, by);
      const auto step = step_along(room, aim, from, unit(to - from.at), by);
      if (step && step->arrival.side / 2 == zone) add_link(*step, back_of(step->arrival));
    }
  }
  return found;
}

double light_of(const Found& found, const std::vector<double>& bright) {
  double light = found.sky;
  for (const Link& link : found.links) light += link.exchange * bright[link.to];
  return light;
}

// In the middle of each zone; areas of 0 are left out.
std::vector<Crossing> crossings_of(const Room& room, const std::vector<double>& area) {
  std::vector<Crossing> crossings(area.size());
  for (std::size_t side = 0; side < area.size(); ++side) {
    if (area[side] == 0) continue;
    const Zones::Zone& zone = room.zones.zones()[side / 2];
    const auto& [p, q, r] = zone.corners;
    const Vec out = room.faces[zone.triangle].out;
    crossings[side] = crossing_at(room, zone.triangle, side,
                                  {1.0 / 3 * (p + q + r), side % 2 == 0 ? out : -1 * out, nullptr});
  }
  return crossings;
}

// How much of the film's light comes by each zone: what the film's cells take from it goes back
// from zone to zone by the balance's own links, until little is left. Few rays find few zones: some
// of what comes by a group is taken as spread over it.
std::vector<double> worth_of(const Room& room, const std::vector<Found>& found,
                             const std::vector<Crossing>& crossings,
                             const std::vector<double>& area, const std::vector<double>& bright) {
  const std::size_t sides = area.size();
  std::vector<double> now(sides, 0), flux(sides, 0);
  double all = 0;
  for (std::size_t cell = sides; cell < found.size(); ++cell) {
    for (const Link& link : found[cell].links) now[link.to] += link.exchange;
  }
  for (int round = 0; round < 200; ++round) {
    std::vector<double> next(sides, 0);
    double sum = 0;
    for (std::size_t side = 0; side < sides; ++side) {
      if (now[side] == 0 || area[side] == 0) continue;
      flux[side] += now[side];
      sum += now[side] * bright[side];
      const Crossing& c = crossings[side];
      for (const auto& [part, from] : {std::pair{c.scatters, side}, {c.passes, c.side}}) {
        if (part == 0 || area[from] == 0) continue;
        for (const Link& link : found[from].links) {
          next[link.to] += now[side] * part / area[from] * link.exchange;
        }
      }
    }
    all += sum;
    if (!(sum > 1e-3 * all)) break;
    now = std::move(next);
  }
  std::vector<double> worth(sides / 2, 0);
  for (const Zones::Group& group : room.zones.groups()) {
    for (const std::size_t back : {0, 1}) {
      double of_all = 0;
      for (std::size_t z = group.first; z < group.end; ++z) of_all += flux[2 * z + back];
      if (of_all == 0) continue;
      for (std::size_t z = group.first; z < group.end; ++z) {
        const double part = room.zones.zones()[z].area_mm2 / group.area_mm2;
        worth[z] +=
            bright[2 * z + back] * ((1 - spread) * flux[2 * z + back] + spread * part * of_all);
      }
    }
  }
  return worth;
}

// The mirrors by which most light comes to the film. Few rays find them: some of the looks are by
// all alike.
std::vector<Glance> glances_of(const Room& room, const std::vector<Found>& found,
                               const std::vector<double>& bright) {
  std::map<Mirrors, double> lights;
  for (std::size_t cell = room.zones.sides(); cell < found.size(); ++cell) {
    for (const Link& link : found[cell].links) {
      if (link.mirrors[0] != 0) lights[link.mirrors] += link.exchange * bright[link.to];
    }
  }
  const auto most = brightest(lights, most_glances);
  double all = 0;
  for (const auto& [light, mirrors] : most) all += light;
  std::vector<Glance> glances;
  glances.reserve(most.size());
  for (const auto& [light, mirrors] : most) {
    const double alike = 1 / static_cast<double>(most.size());
    glances.push_back({mirrors, all_alike * alike + (1 - all_alike) * light / all});
  }
  return glances;
}

// The balance of all zones, from the sky inwards, until the darkest stands still. Areas of 0 are
// left out.
std::vector<double> balanced(const std::vector<Found>& found,
                             const std::vector<Crossing>& crossings,
                             const std::vector<double>& area, const MapWatch& watch) {
  std::vector<double> bright(area.size(), 0), lit(area.size(), 0);
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

// Each side as bright as it may be in places: beside brighter ones a zone may reach into their
// light by a corner, which few of its own rays start from.
std::vector<double> brightest_in_places(const Room& room, const std::vector<double>& bright,
                                        std::size_t threads) {
  std::vector<double> brightest = bright;
  share_out(bright.size(), threads, [&](std::size_t side) {
    const Zones::Zone& zone = room.zones.zones()[side / 2];
    if (zone.area_mm2 == 0) return;
    const Vec out =
        side % 2 == 0 ? room.faces[zone.triangle].out : -1 * room.faces[zone.triangle].out;
    const auto& c = zone.corners;
    const Vec middle = 1.0 / 3 * (c[0] + c[1] + c[2]);
    const double off = 4 * room.offset_mm;
    for (std::size_t edge = 0; edge < 3; ++edge) {
      for (const double part : {0.02, 0.35, 0.65, 0.98}) {
        const Vec at = c.at(edge) + part * (c.at((edge + 1) % 3) - c.at(edge));
        const Vec beside = at + outside * (at - middle);
        const auto met = room.kernel.first(beside + off * out, -1 * out);
        if (!met || met->far_mm > 2 * off || room.is_film(met->triangle)) continue;
        const bool back = dot(room.faces[met->triangle].out, out) < 0;
        brightest[side] =
            std::max(brightest[side], of_neighbour * bright[side_of(room, *met, back)]);
      }
    }
  });
  return brightest;
}

// Of each zone by a map made before, of parts by their area.
std::vector<double> worth_before(const Room& room, const LightMap& before,
                                 const std::vector<std::size_t>& part_of) {
  if (part_of.empty()) return before.worth;
  std::vector<double> area(before.worth.size()), worth;
  const auto& zones = room.zones.zones();
  for (std::size_t i = 0; i < zones.size(); ++i) area[part_of[i]] += zones[i].area_mm2;
  for (std::size_t i = 0; i < zones.size(); ++i) {
    const std::size_t old = part_of[i];
    worth.push_back(area[old] > 0 ? before.worth[old] * zones[i].area_mm2 / area[old] : 0);
  }
  return worth;
}

}  // namespace

LightMap::LightMap(const Room& room, std::size_t rays_each, std::size_t threads,
                   const LightMap* before, const MapWatch& watch,
                   const std::vector<std::size_t>& part_of) {
  const std::size_t sides = room.zones.sides(), cells = room.cells();
  const std::size_t film_rays =
      std::max(rays_each, film_rays_in_all / cells / most_steps * most_steps);
  rows.resize(sides + cells);
  std::vector<double> area(sides);
  std::vector<Found> found(rows.size());
  const auto caller = std::this_thread::get_id();
  const auto aim_before = [&](std::size_t number) -> const Aim* {
    if (before == nullptr) return nullptr;
    if (part_of.empty()) return &before->aim_of(number);
    const std::size_t old = number < sides ? 2 * part_of[number / 2] + number % 2
                                           : before->rows.size() - cells + number - sides;
    return &before->aim_of(old);
  };
  const Sought sought = before == nullptr
                            ? Sought()
                            : Sought(room, worth_before(room, *before, part_of), before->glances);
  share_out(rows.size(), threads, [&](std::size_t number) {
    if (!watch.may_go_on()) return;
    if (number % 16 == 0 && std::this_thread::get_id() == caller) {
      watch.progress(static_cast<double>(number) / static_cast<double>(rows.size()));
    }
    if (number >= sides) {
      found[number] =
          found_from(room, aim_before(number), sought, number, film_rays, 1,
                     [&](Random& random) { return start_on_cell(room, number - sides, random); });
      return;
    }
    const Zones::Zone& zone = room.zones.zones()[number / 2];
    const auto stuff = room.surfaces.triangles[zone.triangle].stuff;
    if (zone.area_mm2 == 0 || room.surfaces.stuffs[stuff].is_mirror) return;
    if (room.surfaces.bodies && number % 2 == 1 && room.surfaces.stuffs[stuff].passes == 0) return;
    area[number] = zone.area_mm2 * room.let_out[stuff];
    found[number] = found_from(room, aim_before(number), sought, number, rays_each, area[number],
                               [&](Random& random) { return start_on_zone(room, number, random); });
  });
  if (!watch.may_go_on()) return;
  share_between(room, found);
  const std::vector<Crossing> crossings = crossings_of(room, area);
  const std::vector<double> bright = balanced(found, crossings, area, watch);
  brightness = brightest_in_places(room, bright, threads);
  worth = worth_of(room, found, crossings, area, brightness);
  aims = aims_by(room, found, bright, worth, threads);
  to_sky = mirrors_to_sky(room, found, threads);
  glances = glances_of(room, found, bright);
  for (std::size_t number = 0; number < rows.size(); ++number) {
    rows[number] = {light_of(found[number], bright), aim_number(room, number)};
  }
  patch_light.resize(room.patches());
  const double cells_each = static_cast<double>(cells) / static_cast<double>(room.patches());
  for (std::size_t cell = 0; cell < cells; ++cell) {
    patch_light[room.patch_of(cell)] += rows[sides + cell].light / cells_each;
  }
}

}  // namespace backfit::ray
