// SPDX-License-Identifier: MIT
#include "lighttrap/gloss.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "lighttrap/bore.hpp"
#include "lighttrap/labyrinth.hpp"
#include "lighttrap/transmission.hpp"
#include "profiles.hpp"

namespace backfit {
namespace {

using namespace profiles;

// Truth: Fresnel's equations for index 1.5, computed apart: 0.0400 square on, 0.0892 at 60 degrees,
// 0.388 at 80, 0.613 at 85, 0.819 at 88; last digits.
TEST(Mirrored, IsFresnels) {
  EXPECT_NEAR(mirrored(1, 1.5), 0.0400, 5e-5);
  EXPECT_NEAR(mirrored(cos(60 * deg), 1.5), 0.0892, 5e-5);
  EXPECT_NEAR(mirrored(cos(80 * deg), 1.5), 0.388, 5e-4);
  EXPECT_NEAR(mirrored(cos(85 * deg), 1.5), 0.613, 5e-4);
  EXPECT_NEAR(mirrored(cos(88 * deg), 1.5), 0.819, 5e-4);
  EXPECT_EQ(mirrored(0, 1.5), 1);
  EXPECT_EQ(mirrored(0.3, 1), 0);
}

// Law: without a mirroring face the rays find what the taut strings find, within the fraction of
// a per cent by which even points miss the edges of shadows.
TEST(GlossyExchange, WithoutGlossIsTheExactOne) {
  Random random(5);
  for (int i = 0; i < 4; ++i) {
    const GapProfile p = some_profile(random);
    const Exchange exact = exchange_of(p, 1), by_rays = glossy_exchange(p, 1, 1, 4096, 0.3);
    const auto ratio = [&](double reflectance) {
      return passage(by_rays, reflectance).through / passage(exact, reflectance).through;
    };
    EXPECT_NEAR(ratio(1), 1, 5e-3) << i;
    EXPECT_NEAR(ratio(0.05), 1, 0.02) << i;
  }
  const Bore bore{1 * mm, 3 * mm};
  EXPECT_NEAR(passage(glossy_exchange(bore, 1, 2, 4096, 0.3), 0.3).through /
                  passage(exchange_of(bore, 2), 0.3).through,
              1, 2e-3);
}

// Law: white glossy walls lose nothing either.
TEST(GlossyExchange, KeepsTheLightWithWhiteWalls) {
  const GapProfile p = profile({1, 2, 1}, "LR");
  for (const Exchange& x : {glossy_exchange(p, 1.5, 1, 2048, 0),
                            glossy_exchange(Bore{1 * mm, 4 * mm}, 1.5, 1, 2048, 0)}) {
    const Passage white = passage(x, 1);
    // What the mouth mirrors straight back is the outer mouth's own exchange, told by neither.
    double entered = x.direct;
    for (const double e : x.entry) entered += e;
    EXPECT_NEAR((white.through + white.back) * x.mouth, entered, 1e-9);
    EXPECT_LT(entered, x.mouth * 1.001);
  }
}

// Truth: between black walls that only mirror, a straight slit passes what its images show: by each
// number k of mirrorings the strip of lines that meets the walls k times, at one angle, integrated
// here over angle and elevation apart from the engine. Tolerance: its own quadrature.
TEST(GlossyTransmission, OfABlackSlitIsThatOfItsImages) {
  const double length = 6, index = 1.5;
  double through = 0;
  const int steps = 4000, elevations = 60;
  for (int i = 0; i < steps; ++i) {
    const double sine = (i + 0.5) / steps, cosine = std::sqrt(1 - sine * sine);  // from the axis
    const double climb = length * sine / cosine;  // in gaps, over the whole length
    const double full = std::floor(climb), rest = climb - full;
    for (int j = 0; j < elevations; ++j) {
      // Midpoints in the angle for the weight cos^2.
      const double g = std::numbers::pi / 2 * (j + 0.5) / elevations;
      const double weight = 2.0 / elevations * std::cos(g) * std::cos(g);
      const double r = mirrored(sine * std::cos(g), index);
      through += weight / steps * std::pow(r, full) * (1 - rest + rest * r);
    }
  }
  const Transmission t = transmission(profile({length}, ""), {0, index});
  EXPECT_NEAR(t.through / through, 1, 2e-3);
  EXPECT_LE(std::abs(t.through - through), 3 * t.mesh_error + 5e-4 * through);
  EXPECT_GT(t.through, 1.2 * transmission(profile({length}, ""), {0}).through);
}

// Part of even light on the mouth of an arm of 4 gaps that leaves one of 3 round a corner, by rays
// between black walls that only mirror: over place, angle and elevation, each in even steps.
double mirrored_round_a_corner(double index, double length) {
  struct Room {
    double left, right, low, high;
    int beyond[4];  // on each side: a room, or -1 a wall, -2 the outer and -3 the inner mouth
  };
  const Room rooms[3] = {
      {0, 1, 0, 4, {-1, -1, -2, 1}}, {0, 1, 4, 5, {2, -1, 0, -1}}, {-3, 0, 4, 5, {-3, 1, -1, -1}}};
  constexpr int elevations = 600, angles = 120, places = 12;
  double through = 0;
  for (int j = 0; j < elevations; ++j) {
    // ln(elevation) from -7 to 0: even light has 4 / pi e^2 / sqrt(1 - e^2) de.
    const double e = std::exp(-7 * (j + 0.5) / elevations);
    const double weight = 4 / std::numbers::pi * e * e * e / std::sqrt(1 - e * e) * 7 / elevations;
    double of_this = 0;
    for (int i = 0; i < angles * places; ++i) {
      double dx = 2 * (i / places + 0.5) / angles - 1, dy = std::sqrt(1 - dx * dx);
      double x = (i % places + 0.5) / places, y = 0, left = 1, path = 0;
      for (int at = 0; left > 1e-9;) {
        const Room& r = rooms[at];
        const double by_x = dx == 0 ? 1e9 : ((dx > 0 ? r.right : r.left) - x) / dx;
        const double by_y = dy == 0 ? 1e9 : ((dy > 0 ? r.high : r.low) - y) / dy;
        const bool across = by_x < by_y;
        const double step = std::min(by_x, by_y);
        x += step * dx;
        y += step * dy;
        path += step;
        const int side = across ? (dx > 0 ? 1 : 0) : (dy > 0 ? 3 : 2);
        at = r.beyond[side] == -1 ? at : r.beyond[side];
        if (r.beyond[side] == -3) {
          of_this += left * std::max(0.0, 1 - path * std::sqrt(1 - e * e) / e / length);
        }
        if (at < 0) break;
        if (r.beyond[side] == -1) {
          left *= mirrored(std::abs(across ? dx : dy) * e, index);
          (across ? dx : dy) *= -1;
        }
      }
    }
    through += weight * of_this / (angles * places);
  }
  return through;
}

// Truth: the integral above, apart from the engine but for Fresnel's law. Most of it runs nearly
// along the seam; ends take that away. Tolerance: the quadrature of both.
TEST(GlossyTransmission, RoundACornerIsThatOfItsRays) {
  const GapProfile p = profile({4, 3}, "L");
  const double long_one = mirrored_round_a_corner(1.5, 1e9),
               short_one = mirrored_round_a_corner(1.5, 30);
  EXPECT_LT(short_one, 0.7 * long_one);
  EXPECT_NEAR(transmission(p, {0, 1.5}).through / long_one, 1, 0.02);
  EXPECT_NEAR(transmission(p, {0, 1.5}, 30 * mm).through / short_one, 1, 0.02);
}

// Law: gloss helps light round corners, and a gap passes the same both ways.
TEST(GlossyTransmission, IsMoreAndTheSameBothWays) {
  const GapProfile p = profile({2, 5, 1}, "LR");
  const Wall matt{0.05}, glossy{0.05, 1.5};
  const Transmission in = transmission(p, glossy, 100 * mm),
                     out = transmission(turned_round(p), glossy, 100 * mm);
  EXPECT_GT(in.through, 2 * transmission(p, matt).through);
  EXPECT_NEAR(in.through, out.through, 3 * std::hypot(in.mesh_error, out.mesh_error));
  EXPECT_LT(in.mesh_error, 0.1 * in.through);
}

}  // namespace
}  // namespace backfit
