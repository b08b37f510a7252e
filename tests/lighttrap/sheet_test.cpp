// SPDX-License-Identifier: MIT
// Light through sheets of felt or foam in the way of walks in space.
#include "lighttrap/sheet.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "lighttrap/leak.hpp"
#include "surfaces.hpp"

namespace backfit {
namespace {

using namespace surfaces;

PatchLight light(const Built& b, const Daylight& daylight, std::size_t histories) {
  return LeakWalks(b.surfaces, b.film, 2).walked(daylight, {{0}, 0, histories, 2, 1, [] {
                                                              return true;
                                                            }})[0];
}

constexpr Daylight sky{1 * lux, {}, {}};

// A duct 1 by 1 from the film at 0, with a sheet across at each of `places`; open at the last.
Built sheeted(const std::vector<double>& places, const Stuff& wall, const Stuff& sheet) {
  Built b;
  Surfaces& s = b.surfaces;
  s.stuffs = {wall, sheet};
  const auto ring = [&](double z) {
    return std::array{point(s, 0, 0, z), point(s, 1, 0, z), point(s, 1, 1, z), point(s, 0, 1, z)};
  };
  std::array<std::uint32_t, 4> low = ring(0);
  for (const double z : places) {
    const std::array<std::uint32_t, 4> high = ring(z);
    for (std::size_t i = 0; i < 4; ++i) {
      const std::size_t j = (i + 1) % 4;
      quad(s, {low.at(i), low.at(j), high.at(j), high.at(i)}, 0);
    }
    quad(s, high, 1);
    low = high;
  }
  b.film.width = {1 * mm, {}, {}};
  b.film.height = {{}, 1 * mm, {}};
  return b;
}

// Truth: the two-flux equations solved apart: S 2 and K 1 per mm: 0.091437 at 1 mm. Between
// mirrors, where all is as in a plane, two sheets one behind the other are the slab of both.
TEST(Sheet, TwoAreTheSlabOfBoth) {
  const Slab slab{2, 1};
  const Stuff half = sheet_of(slab, 0.5 * mm);
  EXPECT_NEAR(half.passes * half.passes / (1 - half.wall.reflectance * half.wall.reflectance),
              0.091437, 5e-7);
  const TallyResult t = light(sheeted({1, 2}, {{}, true}, half), sky, 40000).all.result();
  EXPECT_NEAR(t.mean, transmission(slab, 1 * mm), 3.9 * t.standard_error);
  EXPECT_LT(t.standard_error, 0.02 * t.mean);
}

// Law: without absorption nothing is lost: what doesn't pass comes back, 1 / (1 + S x) and the
// rest.
TEST(Sheet, LosesNothingThatItDoesNotAbsorb) {
  for (const double x : {0.0, 1e-9, 0.3, 40.0}) {
    const Stuff s = sheet_of({3, 0}, x * mm);
    EXPECT_NEAR(s.passes + s.wall.reflectance, 1, 1e-12);
    EXPECT_NEAR(s.passes, 1 / (1 + 3 * x), 1e-12);
    const Stuff dark = sheet_of({3, 0.5}, x * mm);
    EXPECT_LE(dark.passes + dark.wall.reflectance, 1);
  }
}

// Truth: view-factor-discs in data/sources.toml (READ): from square to square at their side
// 0.1998. A sheet at the mouth of a black duct spreads what it passes, of sky and of sun alike.
TEST(Sheet, SpreadsWhatItPasses) {
  const Stuff sheet{{0.3}, false, 0.25};
  const Built b = sheeted({1}, {Wall{0}, false}, sheet);
  const double known = 0.25 * 0.1998;
  const TallyResult by_sky = light(b, sky, 60000).all.result();
  EXPECT_NEAR(by_sky.mean, known, 3.9 * by_sky.standard_error + 0.25 * 5e-5);
  const Daylight sun{{}, 1 * lux, {0.75 * mm, {}, 1 * mm}};  // 0.8 of it falls on the mouth
  const TallyResult by_sun = light(b, sun, 60000).all.result();
  EXPECT_NEAR(by_sun.mean, 0.8 * known, 3.9 * by_sun.standard_error + 0.2 * 5e-5);
  EXPECT_LT(by_sun.standard_error, 0.02 * by_sun.mean);
}

// A ball whose hole is shut by a sheet.
Built shut_ball(double reflectance, const Stuff& sheet) {
  Built b = ball(reflectance, 0.9);
  Surfaces& s = b.surfaces;
  s.stuffs.push_back(sheet);
  const std::uint32_t middle = point(s, 0, 0, 0.9);
  const double sine = std::sin(std::acos(0.9)), z = std::cos(std::acos(0.9));
  const auto at = [&](int turn) {
    const double t = 2 * std::numbers::pi * (turn % 32) / 32;
    return point(s, sine * std::cos(t), sine * std::sin(t), z);
  };
  for (int turn = 0; turn < 32; ++turn) {
    s.triangles.push_back({{middle, at(turn), at(turn + 1)}, 1});
  }
  return b;
}

// Truth, by the balance of a ball (integrating-sphere-multiplier in data/sources.toml is that of an
// open hole): its walls get f T / ((1 - f) (1 - r) + f (1 - R)), f the hole's part. With walls and
// sheet that lose nothing that is the sky's light itself, however little passes. 2 % as for the
// open ball. Sheets may stand among bodies.
TEST(Sheet, BeforeAnIntegratingSphere) {
  for (const auto& [reflectance, sheet] : {std::pair{0.98, Stuff{{0.5}, false, 0.3}},
                                           {0.9, Stuff{{0.2}, false, 0.01}},
                                           {1.0, Stuff{{0.7}, false, 0.3}}}) {
    constexpr double f = 0.05;
    const double known =
        f * sheet.passes / ((1 - f) * (1 - reflectance) + f * (1 - sheet.wall.reflectance));
    Built b = shut_ball(reflectance, sheet);
    b.surfaces.bodies = reflectance == 0.9;
    const TallyResult t = light(b, sky, b.surfaces.bodies ? 4000 : 20000).all.result();
    EXPECT_NEAR(t.mean, known, 3.9 * t.standard_error + 0.02 * known) << reflectance;
    EXPECT_LT(t.standard_error, 0.08 * known);
  }
}

// A box, its faces seen from outside or, of a hollow, from inside; open above if it has no lid.
void add_box(Surfaces& s, const std::array<double, 3>& low, const std::array<double, 3>& high,
             bool hollow, bool lid, std::uint32_t stuff) {
  std::array<std::uint32_t, 8> c{};
  for (std::size_t i = 0; i < 8; ++i) {
    c.at(i) = point(s, i % 2 == 1 ? high[0] : low[0], i / 2 % 2 == 1 ? high[1] : low[1],
                    i / 4 == 1 ? high[2] : low[2]);
  }
  using Corners = std::array<std::uint32_t, 4>;
  for (const Corners& f : {Corners{0, 2, 3, 1},
                           {0, 1, 5, 4},
                           {2, 6, 7, 3},
                           {0, 4, 6, 2},
                           {1, 3, 7, 5},
                           {4, 5, 7, 6}}) {
    if (f[0] == 4 && !lid) continue;
    Corners q{c.at(f[0]), c.at(f[1]), c.at(f[2]), c.at(f[3])};
    if (hollow) std::swap(q[1], q[3]);
    quad(s, q, stuff);
  }
}

// A black box with a hollow 10 by 10 that a plate of felt 1 thick shuts above, sunk a tenth into
// its rim; the film just below the plate.
Built felted(const Slab& slab) {
  Built b;
  Surfaces& s = b.surfaces;
  s.bodies = true;
  s.stuffs = {{Wall{0}}, {Wall{0}, false, 0, slab}};
  add_box(s, {-6, -6, -6}, {6, 6, 0}, false, false, 0);
  add_box(s, {-5, -5, -5}, {5, 5, 0}, true, false, 0);
  constexpr std::array<std::pair<int, int>, 4> ring{{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}};
  for (std::size_t i = 0; i < 4; ++i) {
    const auto at = [&](std::size_t corner, double size) {
      const auto [x, y] = ring.at(corner % 4);
      return point(s, size * x, size * y, 0);
    };
    quad(s, {at(i, 6), at(i + 1, 6), at(i + 1, 5), at(i, 5)}, 0);
  }
  add_box(s, {-5.5, -5.5, -0.1}, {5.5, 5.5, 0.9}, false, true, 1);
  b.film.corner = {-0.5 * mm, 0.5 * mm, -0.12 * mm};
  b.film.width = {0 * mm, -1 * mm, {}};
  b.film.height = {1 * mm, {}, {}};
  return b;
}

// Truth: the slab's closed form, of Kubelka and Munk: 0.091437 for S 2 and K 1 at 1 mm. A body of
// felt is that slab straight across, to the sky and to the sun; all that the film sees but for a
// thousandth is the felt.
TEST(Sheet, ABodyOfFeltIsTheSlabStraightAcross) {
  const Built b = felted({2, 1});
  ASSERT_FALSE(fault_of(b.surfaces, b.film));
  const TallyResult by_sky = light(b, sky, 4000).all.result();
  EXPECT_NEAR(by_sky.mean, 0.091437, 3.9 * by_sky.standard_error + 1e-3 * 0.091437);
  EXPECT_LT(by_sky.standard_error, 0.03 * by_sky.mean);
  const Daylight sun{{}, 1 * lux, {0.75 * mm, {}, 1 * mm}};  // 0.8 of it falls on the felt
  const TallyResult by_sun = light(b, sun, 4000).all.result();
  EXPECT_NEAR(by_sun.mean, 0.8 * 0.091437, 3.9 * by_sun.standard_error + 1e-3 * 0.8 * 0.091437);
  EXPECT_LT(by_sun.standard_error, 0.03 * by_sun.mean);
}

// Law: what stands in felt shuts it, and felt that is a body needs bodies round it.
TEST(Sheet, WhatStandsInFeltShutsIt) {
  Built b = felted({2, 1});
  add_box(b.surfaces, {-5.2, -5.2, 0.3}, {5.2, 5.2, 0.6}, false, true, 0);
  EXPECT_LT(light(b, sky, 2000).all.result().mean, 1e-4);
  b.surfaces.bodies = false;
  EXPECT_TRUE(fault_of(b.surfaces, b.film));
}

// Law: a sheet can't give more light than falls on it.
TEST(Sheet, RefusesToMakeLight) {
  EXPECT_FALSE(fault_of(sheeted({1}, {Wall{0}, false}, {{0.5}, false, 0.5}).surfaces,
                        sheeted({1}, {}, {}).film));
  EXPECT_TRUE(fault_of(sheeted({1}, {Wall{0}, false}, {{0.5}, false, 0.6}).surfaces,
                       sheeted({1}, {}, {}).film));
  EXPECT_TRUE(fault_of(sheeted({1}, {Wall{0}, false}, {{0.5}, false, -0.1}).surfaces,
                       sheeted({1}, {}, {}).film));
}

}  // namespace
}  // namespace backfit
