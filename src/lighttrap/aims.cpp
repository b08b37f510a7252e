// SPDX-License-Identifier: MIT
#include "lighttrap/aims.hpp"

#include <algorithm>
#include <compare>
#include <map>
#include <span>
#include <utility>

#include "lighttrap/brightest.hpp"
#include "lighttrap/share_out.hpp"
#include "lighttrap/sky_fields.hpp"
#include "lighttrap/step.hpp"

namespace backfit::ray {
namespace {

// No more than the brightest, and those only that bring most of the light.
constexpr std::size_t most_goals = 32768;
constexpr double enough = 0.9999;
// What no ray has found is dark for want of rays: so much of what is found in a group of zones is
// taken as spread over all of it; a field of the sky beside one that was found, or found by a group
// nearby, so many of them, counts this much of one.
constexpr double spread = 0.5, beside = 0.3;
constexpr std::size_t nearby = 8;
// So much of what an image brings to the film is taken as spread over it by its zones' worth.
constexpr double by_worth = 0.3;
// So many sets of mirrors are known to show the sky.
constexpr std::size_t most_to_sky = 16;

// Rows that share an aim (a cell of the film what it and those next to it found), where their light
// is scattered to, and those of groups nearby.
struct Sharing {
  std::vector<std::size_t> rows, around;
  Vec normal;
};

// What is met first: by exchange where light comes from there, by light where it is mirrored.
struct First {
  std::uint32_t id;
  double exchange, light;
};

Sharing sharing(const Room& room, std::size_t aim) {
  const auto& groups = room.zones.groups();
  const auto& zones = room.zones.zones();
  Sharing s;
  if (aim >= 2 * groups.size()) {
    const std::size_t cell = aim - 2 * groups.size();
    const std::size_t column = cell % room.cell_columns, row = cell / room.cell_columns;
    for (std::size_t other = 0; other < room.cells(); ++other) {
      const std::size_t c = other % room.cell_columns, r = other / room.cell_columns;
      if (std::max(c, column) - std::min(c, column) <= 1 &&
          std::max(r, row) - std::min(r, row) <= 1)
        s.rows.push_back(room.zones.sides() + other);
    }
    s.normal = unit(cross(vec_mm(room.film.width), vec_mm(room.film.height)));
    return s;
  }
  const std::size_t number = aim / 2, side = aim % 2;
  const std::uint32_t triangle = zones[groups[number].first].triangle;
  for (std::size_t g = number - std::min(number, nearby);
       g < std::min(groups.size(), number + nearby + 1); ++g) {
    if (zones[groups[g].first].triangle != triangle) continue;
    for (std::size_t z = groups[g].first; z < groups[g].end; ++z) {
      s.around.push_back(2 * z + side);
      if (g == number) s.rows.push_back(2 * z + side);
    }
  }
  const Vec out = room.faces[triangle].out;
  s.normal = side == 0 ? out : -1 * out;
  return s;
}

// The sky is bright alike: a field that was found brings as much as it is seen to.
void add_sky(const Room& room, const Sharing& of, const std::vector<Found>& found,
             std::vector<Aim::Goal>& goals) {
  const std::size_t sides = room.zones.sides();
  const auto each_seen = [&](std::span<const std::size_t> rows, const auto& see) {
    for (const std::size_t row : rows) {
      for (const auto& [id, light, mirrors] : found[row].skies) {
        if (id >= sides) see(id - sides, light);
      }
    }
  };
  double sky = 0;
  std::vector<double> fields(aim_fields.count());
  each_seen(of.rows, [&](std::size_t field, double light) {
    sky += light;
    if (fields[field] == 1) return;
    for (const double across : {-1, 0, 1}) {
      for (const double up : {-1, 0, 1}) {
        const Vec about = aim_fields.towards(field, 0.5 + across, 0.5 + up);
        double& there = fields[aim_fields.of(about)];
        there = std::max(there, beside);
      }
    }
    fields[field] = 1;
  });
  double sky_around = 0;
  each_seen(of.around, [&](std::size_t field, double light) {
    sky_around += light;
    fields[field] = std::max(fields[field], beside);
  });
  if (!(sky + sky_around > 0)) return;
  if (!of.around.empty()) {
    const auto area = [&room](const std::vector<std::size_t>& rows) {
      double sum = 0;
      for (const std::size_t row : rows) sum += room.zones.zones()[row / 2].area_mm2;
      return sum;
    };
    sky = std::max(sky, beside * area(of.rows) / area(of.around) * sky_around);
  }
  double all = 0;
  for (std::size_t field = 0; field < fields.size(); ++field) {
    if (fields[field] == 0) continue;
    // No field that was seen is quite edge on.
    const double cosine = std::max(0.05, dot(of.normal, aim_fields.towards(field, 0.5, 0.5)));
    all += fields[field] *= aim_fields.solid_angle(field) * cosine;
  }
  for (std::size_t field = 0; field < fields.size(); ++field) {
    if (fields[field] > 0)
      goals.push_back({goal_in_sky(room, field), sky * fields[field] / all, 1});
  }
}

// Goals by their side's number and `number` on.
void add_sides(const Room& room, std::vector<First> firsts, const std::vector<double>& bright,
               std::uint32_t number, std::vector<Aim::Goal>& goals) {
  const auto& zones = room.zones.zones();
  // A group's sides that look the same way come together.
  const auto place = [&](const First& f) {
    return std::pair(2 * zones[f.id / 2].group + f.id % 2, f.id);
  };
  std::stable_sort(firsts.begin(), firsts.end(),
                   [&](const First& a, const First& b) { return place(a) < place(b); });
  for (auto at = firsts.begin(); at != firsts.end();) {
    const std::uint32_t of_group = place(*at).first;
    const Zones::Group& group = room.zones.groups()[of_group / 2];
    const auto end =
        std::find_if(at, firsts.end(), [&](const First& f) { return place(f).first != of_group; });
    First all{};
    for (auto f = at; f != end; ++f) {
      all.exchange += f->exchange;
      all.light += f->light;
    }
    for (std::size_t zone = group.first; zone < group.end; ++zone) {
      const auto id = static_cast<std::uint32_t>(2 * zone + of_group % 2);
      const double part = spread * zones[zone].area_mm2 / group.area_mm2;
      double exchange = part * all.exchange, mirrored = part * all.light;
      for (; at != end && at->id == id; ++at) {
        exchange += (1 - spread) * at->exchange;
        mirrored += (1 - spread) * at->light;
      }
      const double light = exchange * bright[id] + mirrored;
      if (light > 0) goals.push_back({number + id, light, zones[zone].area_mm2});
    }
  }
}

// Some of the light of a triangle's goals, which are numbered so, to all its zones by their worth:
// few rays come by several mirrors to the same zone.
void spread_by_worth(const Room& room, const std::vector<double>& worth, std::uint32_t number,
                     std::span<const Aim::Goal> of_triangle, std::vector<Aim::Goal>& goals) {
  if (of_triangle.empty()) return;
  const auto& zones = room.zones.zones();
  const std::size_t side = of_triangle.front().id - number;
  const std::uint32_t triangle = zones[side / 2].triangle;
  std::size_t first = side / 2;
  while (first > 0 && zones[first - 1].triangle == triangle) --first;
  double all_worth = 0, all_light = 0;
  std::size_t end = first;
  for (; end < zones.size() && zones[end].triangle == triangle; ++end) all_worth += worth[end];
  std::vector<double> lights(2 * (end - first));
  const double part = all_worth > 0 ? by_worth : 0;
  for (const Aim::Goal& goal : of_triangle) {
    lights[goal.id - number - 2 * first] = (1 - part) * goal.light;
    all_light += goal.light;
  }
  for (std::size_t i = 0; i < lights.size(); ++i) {
    const std::size_t zone = first + i / 2;
    if (part > 0 && i % 2 == side % 2) lights[i] += part * all_light * worth[zone] / all_worth;
    if (lights[i] == 0) continue;
    const auto id = static_cast<std::uint32_t>(number + 2 * first + i);
    goals.push_back({id, lights[i], zones[zone].area_mm2});
  }
}

// Of how many images a goal's number tells, its own the last; 0 if it is in none.
std::size_t images_to(const Room& room, std::uint32_t id) {
  const std::uint32_t first = goal_in_image(room, 0, 0);
  return id < first ? 0 : (id - first) / room.zones.sides() + 1;
}

// A triangle as mirrors show it.
struct Image {
  std::uint32_t triangle;
  Mirrors mirrors;
  auto operator<=>(const Image&) const = default;
};

// Returns the images that goals are numbered by.
std::vector<Image> add_zones(const Room& room, const Sharing& of, const std::vector<Found>& found,
                             const std::vector<double>& bright, const std::vector<double>& worth,
                             std::vector<Aim::Goal>& goals) {
  std::vector<First> firsts;
  std::map<Image, double> lights;
  std::map<Image, std::vector<First>> shown;
  for (const std::size_t row : of.rows) {
    for (const auto& [id, light, mirrors] : found[row].skies) {
      if (id < room.zones.sides()) firsts.push_back({id, 0, light});
    }
    for (const Link& link : found[row].links) {
      const double light = link.exchange * bright[link.to];
      if (link.mirrors[0] != 0) {
        const Image image{room.zones.zones()[link.to / 2].triangle, link.mirrors};
        lights[image] += light;
        shown[image].push_back({static_cast<std::uint32_t>(link.to), link.exchange, 0});
      } else if (link.first == link.to) {
        firsts.push_back({link.first, link.exchange, 0});
      } else {
        firsts.push_back({link.first, 0, light});
      }
    }
  }
  add_sides(room, std::move(firsts), bright, 0, goals);
  std::vector<Image> images;
  const bool is_cell = of.around.empty();
  for (const auto& [light, image] : brightest(lights, Images::most)) {
    const std::uint32_t number = goal_in_image(room, images.size(), 0);
    std::vector<Aim::Goal> of_image;
    add_sides(room, std::move(shown[image]), bright, number, of_image);
    if (is_cell) {
      spread_by_worth(room, worth, number, of_image, goals);
    } else {
      goals.insert(goals.end(), of_image.begin(), of_image.end());
    }
    images.push_back(image);
  }
  return images;
}

}  // namespace

std::vector<Aim> aims_by(const Room& room, const std::vector<Found>& found,
                         const std::vector<double>& bright, const std::vector<double>& worth,
                         std::size_t threads) {
  std::vector<Aim> aims(2 * room.zones.groups().size() + room.cells());
  share_out(aims.size(), threads, [&](std::size_t number) {
    const Sharing of = sharing(room, number);
    std::vector<Aim::Goal> goals;
    add_sky(room, of, found, goals);
    const std::vector<Image> shown = add_zones(room, of, found, bright, worth, goals);
    std::stable_sort(goals.begin(), goals.end(),
                     [](const Aim::Goal& a, const Aim::Goal& b) { return a.light > b.light; });
    double light = 0, sum = 0;
    for (const Aim::Goal& goal : goals) light += goal.light;
    std::size_t some = 0, used = 0;
    while (some < std::min(most_goals, goals.size()) && sum <= enough * light) {
      used = std::max(used, images_to(room, goals[some].id));
      sum += goals[some++].light;
    }
    goals.resize(some);
    Images images;
    for (std::size_t i = 0; i < used; ++i) images.add(room, shown[i].triangle, shown[i].mirrors);
    aims[number] = Aim(goals, std::move(images));
  });
  return aims;
}

std::vector<std::vector<Mirrors>> mirrors_to_sky(const Room& room, const std::vector<Found>& found,
                                                 std::size_t threads) {
  std::vector<std::vector<Mirrors>> by_aim(2 * room.zones.groups().size() + room.cells());
  if (room.planes.empty()) return by_aim;
  share_out(by_aim.size(), threads, [&](std::size_t number) {
    const Sharing of = sharing(room, number);
    std::map<Mirrors, double> lights;
    for (const auto* rows : {&of.rows, &of.around}) {
      for (const std::size_t row : *rows) {
        for (const Found::Sky& sky : found[row].skies) {
          if (sky.mirrors[0] != 0) lights[sky.mirrors] += sky.light;
        }
      }
    }
    for (const auto& [light, mirrors] : brightest(lights, most_to_sky)) {
      by_aim[number].push_back(mirrors);
    }
  });
  return by_aim;
}

std::uint32_t aim_number(const Room& room, std::size_t row) {
  const std::size_t sides = room.zones.sides();
  return static_cast<std::uint32_t>(
      row < sides ? std::size_t{2} * room.zones.zones()[row / 2].group + row % 2
                  : 2 * room.zones.groups().size() + row - sides);
}

}  // namespace backfit::ray
