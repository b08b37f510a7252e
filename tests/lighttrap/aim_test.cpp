// SPDX-License-Identifier: MIT
// Where walks are aimed at, and how densely.
#include "lighttrap/aim.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

#include "lighttrap/sky_fields.hpp"
#include "lighttrap/step.hpp"
#include "surfaces.hpp"

namespace backfit::ray {
namespace {

// Law: goals are drawn by their light, which is spread over what they measure.
TEST(Aim, DrawsAsItSays) {
  std::vector<Aim::Goal> goals;
  for (std::uint32_t i = 0; i < 100; ++i) goals.push_back({7 * i + 3, 1.0 + i % 13, 0.5 + i % 3});
  const Aim aim(goals);
  double all = 0;
  for (const Aim::Goal& g : goals) all += g.light;
  constexpr int count = 1000000;
  std::vector<int> drawn(700);
  Random random(1);
  for (int i = 0; i < count; ++i) ++drawn.at(aim.goal((i + random.unit()) / count));
  double whole = 0;
  for (const Aim::Goal& g : goals) {
    const double chance = aim.density(g.id) * g.measure;
    whole += chance;
    EXPECT_NEAR(chance, g.light / all, 1e-6 * chance);
    // Dealt out evenly, which spreads less than by chance: 4 standard errors of that.
    EXPECT_NEAR(drawn.at(g.id), chance * count, 4 * std::sqrt(chance * count));
  }
  EXPECT_NEAR(whole, 1, 1e-6);
  EXPECT_EQ(aim.density(4), 0);
  EXPECT_TRUE(Aim({{1, 0, 1}}).empty());
}

// Laws: the sky's fields fill the sphere, a field holds its own places, and as densely as it says.
// 4 standard errors of 400 000 even directions.
TEST(SkyFields, FillTheSphere) {
  constexpr SkyFields fields{5};
  double sphere = 0;
  for (std::size_t f = 0; f < fields.count(); ++f) {
    sphere += fields.solid_angle(f);
    for (const double u : {0.001, 0.4, 0.999}) {
      for (const double v : {0.001, 0.7, 0.999}) {
        EXPECT_EQ(fields.of(fields.towards(f, u, v)), f);
        EXPECT_NEAR(length(fields.towards(f, u, v)), 1, 1e-12);
      }
    }
  }
  EXPECT_NEAR(sphere, 4 * std::numbers::pi, 1e-12);
  Random random(2);
  constexpr int count = 400000;
  double sum = 0, squares = 0;
  for (int i = 0; i < count; ++i) {
    const double z = 2 * random.unit() - 1, turn = 2 * std::numbers::pi * random.unit();
    const double across = std::sqrt(1 - z * z);
    const double of_one = 4 * std::numbers::pi *
                          fields.density({across * std::cos(turn), across * std::sin(turn), z}) /
                          static_cast<double>(fields.count());
    sum += of_one;
    squares += of_one * of_one;
  }
  const double mean = sum / count;
  EXPECT_NEAR(mean, 1, 4 * std::sqrt((squares / count - mean * mean) / count));
}

// By one and by two planes, from wherever they may be seen.
Images images_of(const Room& room, std::uint32_t triangle) {
  Images images;
  const auto planes = static_cast<std::uint16_t>(room.planes.size());
  for (std::uint16_t one = 1; one <= planes; ++one) {
    images.add(room, triangle, {one});
    for (std::uint16_t two = 1; two <= planes; ++two) images.add(room, triangle, {one, two});
  }
  return images;
}

// Law: a mirror shows a place as far behind it as it lies before it, and a way by mirrors to a
// place is as long as the straight one to where they show it.
TEST(Images, LieWhereMirrorsShowThem) {
  const surfaces::Built b = surfaces::duct(2, 3, 4, Stuff{Wall{0.5, 1.5}});
  const Room room(b.surfaces, b.film);
  ASSERT_EQ(room.planes.size(), 4U);
  EXPECT_NEAR(length(shown_at(room, {0.5, 1, 1}, {1}) - Vec{0.5, -1, 1}), 0, 1e-12);
  EXPECT_NEAR(length(shown_at(room, {0.5, 1, 1}, {1, 2}) - Vec{3.5, -1, 1}), 0, 1e-12);
  EXPECT_NEAR(length(shown_at(room, {0.5, 1, 1}, {3, 1}) - Vec{0.5, 7, 1}), 0, 1e-12);
  Random random(6);
  int found = 0, close = 0;
  for (std::size_t side = 0; side < room.zones.sides(); ++side) {
    const std::uint32_t triangle = room.zones.zones()[side / 2].triangle;
    const Images images = images_of(room, triangle);
    const Start from = start_on_film(room, 0, random), to = start_on_zone(room, side, random);
    const Images::Sight sight(images, from.at);
    for (std::size_t i = 0; i < images.count(); ++i) {
      const Vec way = shown_at(room, to.at, images.mirrors(i)) - from.at;
      bool seen = false;
      sight.along(unit(way), [&](const Images::Seen& s) {
        if (s.image != i) return;
        const auto& c = b.surfaces.triangles[triangle].corners;
        const auto corner = [&](std::size_t n) { return vec_mm(b.surfaces.points[c.at(n)]); };
        const Vec at = corner(0) + s.u * (corner(1) - corner(0)) + s.v * (corner(2) - corner(0));
        seen = length(at - to.at) < 1e-9 && std::abs(s.far_mm - length(way)) < 1e-9;
      });
      EXPECT_TRUE(seen);
      const auto step = step_along(room, nullptr, from, unit(way), images.mirrors(i));
      if (!step || step->arrival.triangle != triangle) continue;
      ++found;
      close += length(step->arrival.point - to.at) < 1e-3 &&
                       std::abs(step->arrival.path_mm - length(way)) < 1e-3
                   ? 1
                   : 0;
    }
  }
  EXPECT_GT(found, 100);
  // Single precision turns ways that graze a mirror.
  EXPECT_GE(close, 0.9 * found);
}

// Law: whatever steps are aimed at, seen or hidden or shown by mirrors, they bring all of the light
// that a place sends. Truth: view-factor-discs in data/sources.toml (READ): two squares at their
// side, 0.1998, to its last digit, is the mouth's part. 4 standard errors.
TEST(Steps, AreFairWhateverTheyAimAt) {
  for (const double index : {1.0, 1.5}) {
    const surfaces::Built b = surfaces::duct(1, 1, 1, Stuff{Wall{0.5, index}});
    const Room room(b.surfaces, b.film);
    std::vector<Aim::Goal> goals;
    for (std::uint32_t side = 0; side < room.zones.sides(); side += 3) {
      goals.push_back({side, 1.0 + side % 5, room.zones.zones()[side / 2].area_mm2});
    }
    for (std::size_t field = 0; field < aim_fields.count(); field += 2) {
      goals.push_back({goal_in_sky(room, field), 0.3, 1});
    }
    const Images images = index > 1 ? images_of(room, 0) : Images();
    for (std::uint32_t side = 0; side < room.zones.sides(); side += 2) {
      const Zones::Zone& zone = room.zones.zones()[side / 2];
      for (std::size_t i = 0; zone.triangle == 0 && i < images.count(); ++i) {
        goals.push_back({goal_in_image(room, i, side), 2.0 + side % 3, zone.area_mm2});
      }
    }
    const Aim aim(goals, images);
    Random random(3);
    constexpr int count = 60000;
    double all = 0, all_squares = 0, mouth = 0, mouth_squares = 0;
    std::array<Step, most_steps> steps;
    for (int i = 0; i < count; ++i) {
      steps_from(room, &aim, start_on_film(room, 0, random), random, steps);
      double of_all = 0, of_mouth = 0;
      for (const Step& s : steps) {
        of_all += s.factor / most_steps;
        if (s.arrival.at == Arrival::At::sky && s.arrival.mirrorings == 0) {
          of_mouth += s.factor / most_steps;
        }
      }
      all += of_all;
      all_squares += of_all * of_all;
      mouth += of_mouth;
      mouth_squares += of_mouth * of_mouth;
    }
    EXPECT_NEAR(all / count, 1, 4 * std::sqrt(all_squares) / count);
    EXPECT_NEAR(mouth / count, 0.1998, 4 * std::sqrt(mouth_squares) / count + 5e-5);
  }
}

// Law: a place in a zone is found in it, whether zones are halves or end at shadows.
TEST(Zones, FindTheirPlaces) {
  for (const surfaces::Built& b :
       {surfaces::duct(1, 3, 5, Stuff{Wall{0.5}}), surfaces::box_and_lid(Stuff{Wall{0.5}})}) {
    Room room(b.surfaces, b.film);
    Random random(4);
    const auto all_found = [&] {
      int found = 0;
      const std::size_t sides = room.zones.sides();
      for (std::size_t side = 0; side < sides; side += b.surfaces.bodies ? 2 : 1) {
        const Zones::Zone& zone = room.zones.zones()[side / 2];
        const Vec out = room.faces[zone.triangle].out;
        const Zones::Group& group = room.zones.groups().at(zone.group);
        EXPECT_TRUE(group.first <= side / 2 && side / 2 < group.end);
        for (int i = 0; i < 20; ++i) {
          const Start at = start_on_zone(room, side, random);
          const auto met = room.kernel.first(at.at + 0.001 * at.normal, -1 * at.normal);
          ASSERT_TRUE(met && met->triangle == zone.triangle);
          found += side_of(room, *met, dot(out, at.normal) < 0) == side ? 1 : 0;
        }
      }
      // Single precision may put a place beyond the edge of a narrow zone.
      const auto all = static_cast<double>(10 * (b.surfaces.bodies ? sides : 2 * sides));
      EXPECT_GE(found, (b.surfaces.bodies ? 0.999 : 1) * all);
    };
    all_found();
    std::vector<double> worth(room.zones.zones().size());
    worth[5] = 1;
    const std::vector<std::size_t> part_of =
        room.zones.refine(room.surfaces, room.kernel, worth, 2 * worth.size());
    EXPECT_EQ(part_of.size(), room.zones.zones().size());
    EXPECT_GT(part_of.size(), worth.size());
    all_found();
  }
}

}  // namespace
}  // namespace backfit::ray
