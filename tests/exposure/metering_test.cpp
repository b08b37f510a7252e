// SPDX-License-Identifier: MIT
#include "exposure/metering.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace backfit {
namespace {

constexpr double exact = 1e-9;  // rounding only
constexpr IsoSpeed iso_100{100};

// Truth: meter-standard-thread in data/sources.toml (READ, quoting the meter standard's table 1
// and appendix C): f/16 at 1/S with K = 12.5 is 3200 cd/m2; it puts 8.12 lx on film, which is
// 0.065 lx s for ISO 125; both printed to the last figure shown.
TEST(Metering, ReachesTheStandardsSceneAndItsExposureOnFilm) {
  const IsoSpeed iso_125{125};
  const Ev sun = ev_of(FNumber{16}, second / iso_125.value);
  EXPECT_NEAR(luminance_of(sun, iso_125) / cd_per_m2, 3200, exact);
  EXPECT_NEAR(film_illuminance(3200 * cd_per_m2, {16}) / lux, 8.12, 0.01);
  EXPECT_NEAR(metered_exposure(iso_125) / lux_second, 0.065, 0.0005);
  EXPECT_NEAR(film_illuminance(3200 * cd_per_m2, {16}) / iso_125.value * second / lux_second,
              metered_exposure(iso_125) / lux_second, exact);
}

// Truth: exposure-value-article in data/sources.toml (READ): with K = 12.5 and ISO 100 the
// luminance is 2^(EV - 3) cd/m2; with C = 250 the illuminance is 2.5 times 2^EV lx.
TEST(Metering, TurnsExposureValuesToLight) {
  for (const int ev : {-6, 0, 1, 12, 15, 16}) {
    const Ev at{static_cast<double>(ev)};
    EXPECT_NEAR(luminance_of(at, iso_100) / cd_per_m2, std::exp2(ev - 3), exact);
    EXPECT_NEAR(illuminance_of(at, iso_100) / lux, 2.5 * std::exp2(ev), exact);
    EXPECT_NEAR(ev_of(luminance_of(at, iso_100), iso_100).value, ev, exact);
    EXPECT_NEAR(ev_of(illuminance_of(at, iso_100), iso_100).value, ev, exact);
  }
  EXPECT_NEAR(luminance_of({15}, iso_100) / cd_per_m2, 4096, exact);
  EXPECT_NEAR(illuminance_of({15}, iso_100) / lux, 81920, exact);
  EXPECT_NEAR(ev_of(100000 * lux, iso_100).value, 15.288, 0.0005);
}

// Truth: definition (EV 0 is f/1 at 1 s), and f/16 at 1/100 s worked out by hand: log2(25600).
TEST(Metering, CountsSettingsFromOneSecondAtF1) {
  const Ev sun = ev_of(FNumber{16}, second / 100);
  EXPECT_NEAR(ev_of(FNumber{1}, second).value, 0, exact);
  EXPECT_NEAR(sun.value, 14.644, 0.0005);
  EXPECT_NEAR(time_at(sun, {8}) / second, 1.0 / 400, exact);
  EXPECT_NEAR(aperture_at(sun, second / 25).value, 32, exact);
}

// Law: the full-sun rule (common practice), f/16 at 1/S, is 64 000 lx on a flat receptor and
// 87 040 lx on a dome: which constant a meter has decides over two fifths of a stop.
TEST(Metering, NamesTheReceptorBehindTheFullSunRule) {
  const Ev rule = ev_of(FNumber{16}, second / 100);
  EXPECT_NEAR(illuminance_of(rule, iso_100, incident_flat) / lux, 64000, 1e-6);
  EXPECT_NEAR(illuminance_of(rule, iso_100, incident_dome) / lux, 87040, 1e-6);
}

// Law: the share's closed form; the standard's 0.65 from the usual three figures.
TEST(Metering, KeepsTheCamerasShareOfTheLight) {
  EXPECT_NEAR(camera_share(0.9, 0.98, 10 * deg), usual_camera_share, 0.005);
  EXPECT_NEAR(camera_share(1, 1, 0 * deg), std::numbers::pi / 4, exact);
}

// Truth: foot-candle-definition in data/sources.toml (READ): one lumen a square foot is
// 10.7639 lx. Trap: the 10.752 lx that is also in print is not it.
TEST(Light, AFootCandleIsOneLumenASquareFoot) { EXPECT_NEAR(foot_candle / lux, 10.7639, 0.00005); }

}  // namespace
}  // namespace backfit
