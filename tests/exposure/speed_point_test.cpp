// SPDX-License-Identifier: MIT
#include "exposure/speed_point.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "exposure/contrast.hpp"
#include "exposure/metering.hpp"

namespace backfit {
namespace {

// A synthetic film: base plus fog 0.15, a toe, and a straight line through 0.10 above it at
// 0.0064 lx s that rises by 0.80 over 1.30.
CharacteristicCurve synthetic_film() {
  std::vector<CharacteristicCurve::Point> points;
  const double speed_point = std::log10(0.0064);
  points.push_back({std::pow(10, speed_point - 1) * lux_second, {0.15}});
  for (int i = -1; i <= 14; ++i) {
    const double log_h = speed_point + 0.13 * i;
    points.push_back({std::pow(10, log_h) * lux_second, {0.25 + 0.08 * i}});
  }
  return CharacteristicCurve(std::move(points));
}

// Truth: film-speed-article in data/sources.toml (READ) for the criterion: H_m at 0.10 above base
// plus fog, 0.80 more over 1.30; slow-film-speeds in data/sources.toml (READ) for S = 0.8 / H_m.
// H_m of 0.0064 lx s is ISO 125, average gradient 0.8 / 1.3 = 0.615.
TEST(FilmSpeedPoint, IsIso125At64TenThousandths) {
  const auto s = film_speed(synthetic_film(), {0.15});
  ASSERT_TRUE(s);
  EXPECT_NEAR(s->speed.value, 125, 1e-9);
  EXPECT_EQ(s->named.value, 125);
  EXPECT_NEAR(s->average_gradient, 0.615, 0.0005);
  EXPECT_TRUE(s->developed_to_standard);
  EXPECT_NEAR(s->exposure / lux_second, 0.0064, 1e-12);
}

// Law: a wedge of 0.15 steps under a known light is the same curve.
TEST(FilmSpeedPoint, ComesFromAStepWedge) {
  const CharacteristicCurve film = synthetic_film();
  std::vector<Density> steps, read;
  for (int i = 0; i < 15; ++i) {
    const Density step{0.05 + 0.15 * i};
    const auto d = film.density_at(0.3 * std::pow(10, -step.value) * lux_second);
    if (!d) continue;
    steps.push_back(step);
    read.push_back(*d);
  }
  ASSERT_GE(steps.size(), 12U);
  const auto s =
      film_speed(CharacteristicCurve::under_wedge(steps, read, 0.3 * lux_second), {0.15});
  ASSERT_TRUE(s);
  EXPECT_NEAR(s->speed.value, 125, 125 * 0.01);  // straight lines over a bent toe
}

// Law: on a straight line u(log H) = u(D) / gradient; with u_D = 0.02 and gradient 0.615 that is
// 0.0325, 0.108 stop.
TEST(FilmSpeedPoint, SaysHowSureItIs) {
  const auto s = film_speed(synthetic_film(), {0.15}, {{0.02}, {0}});
  EXPECT_NEAR(s->standard_uncertainty.value, 0.02 / (0.8 / 1.3) / std::log10(2.0), 1e-9);
}

TEST(FilmSpeedPoint, IsNotFoundOffTheWedge) {
  const CharacteristicCurve short_wedge({{0.01 * lux_second, {0.4}}, {0.1 * lux_second, {1.0}}});
  EXPECT_FALSE(film_speed(short_wedge, {0.15}));
  EXPECT_FALSE(film_speed(short_wedge, {0.95}));
  const auto no_rise = film_speed(short_wedge, {0.35});
  ASSERT_TRUE(no_rise);
  EXPECT_FALSE(no_rise->rise);
  EXPECT_FALSE(no_rise->developed_to_standard);
}

// Truth: paper-range-criterion in data/sources.toml (READ): T at 0.04 and S at 0.90 of the highest
// net density. A straight line of gradient 2 from paper white 0.05 at 1 lx s to 2.05 (net 2.00):
// T at log H 0.02, S at 0.90, R = 88 rounded to 90; 0.60 at log H 0.30, P = 1000 / 10^0.3 = 501.
TEST(PaperSpeedPoint, TakesItsThreePointsFromTheCurve) {
  std::vector<CharacteristicCurve::Point> points{{0.1 * lux_second, {0.05}}};
  for (int i = 0; i <= 10; ++i) {
    points.push_back({std::pow(10, 0.1 * i) * lux_second, {0.05 + 0.2 * i}});
  }
  points.push_back({100 * lux_second, {2.05}});
  const auto p = paper_speed(CharacteristicCurve(std::move(points)), {0.05});
  ASSERT_TRUE(p);
  EXPECT_NEAR(std::log10(p->first_tone / lux_second), 0.02, 1e-9);
  EXPECT_NEAR(std::log10(p->deepest / lux_second), 0.90, 1e-9);
  EXPECT_EQ(p->range, 90);
  EXPECT_NEAR(p->speed, 501.19, 0.01);
  // A metered mid-tone at this index gets exactly H_m.
  EXPECT_NEAR(metered_exposure(index_of_paper(p->speed)) / p->exposure, 1, 1e-12);
  EXPECT_NEAR(index_of_paper(500).value, 4.06, 0.005);
}

// Truth: colour-reversal-speed-point in data/sources.toml (READ): the speed point of colour
// reversal film lies 3.67 stops above that of black and white film. H = 10 / S against 0.8 / S is
// log2 12.5 = 3.64; the source's figure is rounded to thirds.
TEST(SpeedPoints, OfReversalAndNegativeFilmLieThatFarApart) {
  EXPECT_NEAR(stops_of(10 / 0.8).value, 3.67, 0.04);
}

// Law: 7 stops of scene squeezed into a range of 1.05 (grade 2), and the flash that does it.
TEST(PreFlash, SqueezesAScene) {
  EXPECT_NEAR(log_range({7}), 2.107, 0.0005);
  const LuminousExposure dark = 1 * lux_second, light = 128 * lux_second;
  const auto flash = pre_flash(dark, light, 1.05);
  ASSERT_TRUE(flash);
  EXPECT_NEAR(range_with_flash(dark, light, *flash), 1.05, 1e-12);
  EXPECT_FALSE(pre_flash(dark, 8 * lux_second, 1.05));
  EXPECT_NEAR(largest_pre_flash(8 * lux_second, {1}) / lux_second, 4, 1e-12);
}

}  // namespace
}  // namespace backfit
