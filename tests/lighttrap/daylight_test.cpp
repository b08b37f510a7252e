// SPDX-License-Identifier: MIT
// Sun, sky, hollows and ways among surfaces in space.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "lighttrap/leak.hpp"
#include "lighttrap/transmission.hpp"
#include "profiles.hpp"
#include "surfaces.hpp"

namespace backfit {
namespace {

using namespace profiles;
using namespace surfaces;

LeakWalks::Order order(std::size_t histories, std::uint64_t seed = 1) {
  return {{0}, 0, histories, 2, seed, [] { return true; }};
}

TallyResult sun_on(const Built& b, SpacePoint towards, std::size_t histories) {
  return LeakWalks(b.surfaces, b.film, 2)
      .walked({{}, 1 * lux, towards}, order(histories))[0]
      .all.result();
}

// Truth: integrating-sphere-multiplier in data/sources.toml: with M = r / (1 - r (1 - f)) the walls
// of a ball lit through its hole get f M / r of the light on the hole: 0.05 * 14.203 / 0.98 and
// 0.05 * 0.052493 / 0.05. 2 % for a ball of flat faces and a film that is not quite at its wall.
TEST(Daylight, BrightensAnIntegratingSphere) {
  for (const auto& [reflectance, known] : {std::pair{0.98, 0.72464}, {0.05, 0.052493}}) {
    const Built b = ball(reflectance, 0.9);
    const TallyResult t =
        LeakWalks(b.surfaces, b.film, 2).walked({1 * lux, {}, {}}, order(20000))[0].all.result();
    EXPECT_NEAR(t.mean, known, 3.9 * t.standard_error + 0.02 * known) << reflectance;
    EXPECT_LT(t.standard_error, 0.03 * known);
  }
}

// Law: walls that lose nothing leave a hollow as bright as the sky. The film takes what its own
// area is of the hole's, under a thousandth.
TEST(Daylight, FillsAWhiteHollow) {
  const Built b = ball(1, 0.9);
  const TallyResult t =
      LeakWalks(b.surfaces, b.film, 2).walked({1 * lux, {}, {}}, order(20000))[0].all.result();
  EXPECT_NEAR(t.mean, 1, 3.9 * t.standard_error + 2e-3);
}

// Truth: the sun straight into a black duct lights the film by the cosine, as far as the duct's
// shadow leaves it: 1 x 1, 2 long, the sun at tan 0.25 from the axis: half of it.
TEST(Daylight, FallsStraightIntoADuct) {
  const Built b = duct(1, 1, 2, {Wall{0}, false});
  const TallyResult t = sun_on(b, {0.25 * mm, {}, 1 * mm}, 40000);
  const double known = 0.5 / std::hypot(0.25, 1);
  EXPECT_NEAR(t.mean, known, 3.9 * t.standard_error);
  EXPECT_LT(t.standard_error, 0.02 * known);
  EXPECT_EQ(sun_on(b, {{}, {}, -1 * mm}, 1000).mean, 0);
}

// Truth: the same duct with glossy walls, which scatter nothing: what they mirror of the sun falls
// where their shadow lies, by Fresnel's law, over a disc of 5 degrees about the sun. 3.9 standard
// errors, 0.2 % for the sum.
TEST(Daylight, FallsByMirrorsIntoADuct) {
  const auto fresnel = [](double cosine, double index) {
    const double inside = std::sqrt(1 - (1 - cosine * cosine) / index / index);
    const double across = (cosine - index * inside) / (cosine + index * inside);
    const double along = (index * cosine - inside) / (index * cosine + inside);
    return (across * across + along * along) / 2;
  };
  constexpr double index = 1.5, tan = 0.25;
  double mirrored = 0;
  constexpr int rings = 200, turns = 200;
  for (int i = 0; i < rings; ++i) {
    for (int k = 0; k < turns; ++k) {
      const double c = 1 - (i + 0.5) / rings * (1 - std::cos(5 * std::numbers::pi / 180));
      const double s = std::sqrt(1 - c * c), t = 2 * std::numbers::pi * (k + 0.5) / turns;
      // Off the sun by s cos t in the plane of the duct's axis, and by s sin t square to it.
      const double sun = std::atan(tan);
      const double x = c * std::sin(sun) + s * std::cos(t) * std::cos(sun);
      const double z = c * std::cos(sun) - s * std::cos(t) * std::sin(sun);
      const double y = std::abs(s * std::sin(t));
      const double shadow_x = 2 * x / z, shadow_y = 2 * y / z;
      const double by_x = shadow_x * fresnel(x, index), by_y = shadow_y * fresnel(y, index);
      mirrored += z * (by_x * (1 - shadow_y) + by_y * (1 - shadow_x) + by_x * by_y);
    }
  }
  mirrored /= rings * turns;
  const double straight = 0.5 / std::hypot(tan, 1);
  const TallyResult t =
      sun_on(duct(1, 1, 2, {Wall{0, index}, false}), {tan * mm, {}, 1 * mm}, 1000000);
  EXPECT_NEAR(t.mean - straight, mirrored, 3.9 * t.standard_error + 0.002 * mirrored);
  EXPECT_LT(t.standard_error, 0.005 * mirrored);
}

// Law: a sky is many suns: the mean of what each gives, by its part of the sky, is the sky's.
TEST(Daylight, OfASkyIsThatOfAllItsSuns) {
  const Built b = duct(1, 1, 1, {Wall{0.5}, false});
  const LeakWalks walks(b.surfaces, b.film, 2);
  const TallyResult sky = walks.light(40000, 2)[0];
  // By its definition: over the half sphere before the mouth, by Gauss-like rows of equal weight.
  double sum = 0, variance = 0;
  constexpr int rows = 8, turns = 8;
  for (int i = 0; i < rows; ++i) {
    for (int k = 0; k < turns; ++k) {
      const double z = (i + 0.5) / rows, t = 2 * std::numbers::pi * (k + 0.5) / turns;
      const double r = std::sqrt(1 - z * z);
      const TallyResult s =
          walks
              .walked({{}, 1 * lux, {r * std::cos(t) * mm, r * std::sin(t) * mm, z * mm}},
                      order(4000, 7 + static_cast<std::uint64_t>(i * turns + k)))[0]
              .all.result();
      // A sky of brightness 1 / pi over 2 pi, half of it before the mouth.
      sum += 2 * s.mean / (rows * turns);
      variance += std::pow(2 * s.standard_error / (rows * turns), 2);
    }
  }
  EXPECT_NEAR(sum, sky.mean, 3.9 * std::hypot(std::sqrt(variance), sky.standard_error) + 0.01);
}

// Law: sun and sky add, history by history.
TEST(Daylight, OfSunAndSkyIsTheSum) {
  const Built b = seam(profile({1, 2}, "L"), 2, {Wall{0.1}, false});
  const LeakWalks walks(b.surfaces, b.film, 2);
  const SpacePoint towards{-1 * mm, 0.3 * mm, {}};
  const auto both = walks.walked({1 * lux, 3 * lux, towards}, order(20000))[0];
  const double sky = walks.walked({1 * lux, {}, {}}, order(20000))[0].all.result().mean;
  const double sun = walks.walked({{}, 3 * lux, towards}, order(20000))[0].all.result().mean;
  EXPECT_NEAR(both.all.result().mean * 4, sky + 3 * sun, 1e-9);
  EXPECT_NEAR(both.sky.result().mean * 4, sky, 1e-9);
  EXPECT_NEAR(both.sun.result().mean * 4, 3 * sun, 1e-9);
}

// Law: what the walks note by direction adds up to the sky, and the sun in the worst of them gives
// what they say, as far as it is even over so wide a field (half of it allowed).
TEST(Daylight, IsWorstWhereTheWalksSaySo) {
  const Built b = duct(1, 1, 1, {Wall{0.3}, false});
  const LeakWalks walks(b.surfaces, b.film, 2);
  const auto responses = walks.by_sun(order(40000));
  ASSERT_EQ(responses.size(), 96U);
  const SunResponse& worst = responses.front();
  EXPECT_GT(worst.towards.z / mm, 0.8);
  const TallyResult t = walks.walked({{}, 1 * lux, worst.towards}, order(40000))[0].all.result();
  EXPECT_NEAR(t.mean, worst.part, 0.5 * t.mean);
  EXPECT_LT(responses.back().part, 1e-12);
}

// Law: the way in is the way out: a bent seam passes from either end what it passes from the other.
TEST(Daylight, PassesTheSameBothWays) {
  const GapProfile p = profile({1, 3}, "L");
  const auto light = [](const Built& b) {
    return LeakWalks(b.surfaces, b.film, 2).light(30000, 2)[0];
  };
  const TallyResult in = light(seam(p, 3, {Wall{0.1}, false}));
  const TallyResult out = light(seam(turned_round(p), 3, {Wall{0.1}, false}));
  EXPECT_NEAR(in.mean, out.mean, 3.9 * std::hypot(in.standard_error, out.standard_error));
  EXPECT_LT(in.standard_error, 0.04 * in.mean);
}

// Law: more light through wider gaps and off brighter walls.
TEST(Daylight, GrowsWithGapAndReflectance) {
  const auto light = [](double gap, double reflectance) {
    const Built b = seam(profile({2, 3}, "L", gap * mm), 3, {Wall{reflectance}, false});
    return LeakWalks(b.surfaces, b.film, 2).light(20000, 2)[0].mean;
  };
  EXPECT_LT(1.3 * light(0.5, 0.05), light(1, 0.05));
  EXPECT_LT(1.3 * light(1, 0.05), light(1, 0.1));
}

// Law: walks in space and the balance of the section, which share no solution, agree on any gap
// drawn out between mirrors. 3.9 standard errors, 1 % for the balance.
TEST(Daylight, AgreesWithTheSectionOnRandomGaps) {
  Random random(5);
  for (int i = 0; i < 6; ++i) {
    GapProfile p = some_profile(random);
    p = profile({p.arms[0] / p.gap, p.arms.size() > 1 ? p.arms[1] / p.gap : 1.0},
                random.unit() < 0.5 ? "L" : "R");
    const Wall wall{0.03 + 0.3 * random.unit()};
    const double through = transmission(p, wall).through;
    const TallyResult t = [&] {
      const Built b = seam(p, 3, {wall, false});
      return LeakWalks(b.surfaces, b.film, 2).light(20000, 2)[0];
    }();
    EXPECT_NEAR(t.mean, through, 3.9 * t.standard_error + 0.01 * through) << i;
    EXPECT_LT(t.standard_error, 0.1 * through) << i;
  }
}

// Law: walks in parts are the walks in one go, and a stop stops.
TEST(Daylight, AddsUpFromRounds) {
  const Built b = duct(1, 1, 2, {Wall{0.5}, false});
  const LeakWalks walks(b.surfaces, b.film, 2);
  const Daylight sky{1 * lux, {}, {}};
  PatchLight sum = walks.walked(sky, order(3000))[0];
  LeakWalks::Order rest = order(2000);
  rest.first = 3000;
  sum.all.add(walks.walked(sky, rest)[0].all);
  EXPECT_NEAR(sum.all.result().mean, walks.walked(sky, order(5000))[0].all.result().mean, 1e-12);
  LeakWalks::Order never = order(2000);
  never.may_go_on = [] { return false; };
  EXPECT_EQ(walks.walked(sky, never)[0].all.result().histories, 0U);
}

// Law: the ways' shares add up to all the light, and each runs from the opening to the film.
TEST(Ways, CarryAllTheLight) {
  Built b = seam(profile({2, 3}, "L"), 3, {Wall{0.05}, false});
  const LeakWalks walks(b.surfaces, b.film, 2);
  const auto paths = walks.paths(order(4000), 5 * mm, 100);
  ASSERT_FALSE(paths.empty());
  double all = 0;
  for (const LeakPath& p : paths) all += p.share;
  EXPECT_NEAR(all, 1, 1e-9);
  EXPECT_GE(paths.front().share, paths.back().share);
  EXPECT_GE(paths.front().points.size(), 2U);
  EXPECT_TRUE(std::ranges::any_of(paths, [](const LeakPath& p) { return !p.seams.empty(); }));
}

// By hand: into a box comes what passes between it and its lid, by all four sides, by the two long
// ones as by the two short ones; most without a touch of the walls that it passes.
TEST(Ways, NameTheSeamThatLightFlewThrough) {
  const Built b = box_and_lid(Stuff{Wall{0.05}});
  const LeakWalks walks(b.surfaces, b.film, 2);
  const auto paths = walks.paths(order(16384), 3 * mm, 8);
  ASSERT_GE(paths.size(), 4U);
  double named = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_GT(paths[i].share, 0.1);
    EXPECT_LT(paths[i].share, 0.4);
    named += paths[i].share;
    ASSERT_EQ(paths[i].seams.size(), 1U);
    EXPECT_EQ(paths[i].seams[0].one, 0U);
    EXPECT_EQ(paths[i].seams[0].other, 1U);
  }
  EXPECT_GT(named, 0.9);
}

}  // namespace
}  // namespace backfit
