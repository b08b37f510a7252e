// SPDX-License-Identifier: MIT
#include "lighttrap/gloss.hpp"

#include <gtest/gtest.h>

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

// Law: gloss helps light round corners, and a gap passes the same both ways.
TEST(GlossyTransmission, IsMoreAndTheSameBothWays) {
  const GapProfile p = profile({2, 5, 1}, "LR");
  const Wall matt{0.05}, glossy{0.05, 1.5};
  const Transmission in = transmission(p, glossy), out = transmission(turned_round(p), glossy);
  EXPECT_GT(in.through, 2 * transmission(p, matt).through);
  EXPECT_NEAR(in.through, out.through, 3 * std::hypot(in.mesh_error, out.mesh_error));
  EXPECT_LT(in.mesh_error, 0.1 * in.through);
}

}  // namespace
}  // namespace backfit
