// SPDX-License-Identifier: MIT
#include "exposure/bulb.hpp"

#include <gtest/gtest.h>

#include <tuple>

namespace backfit {
namespace {

constexpr auto megalumen = 1e6 * lumen;

// A large M-class bulb: peak 1.8 Mlm at 20 ms, rated 23 000 lm s after the shutter has opened,
// 1/800 s before the peak.
BulbLight bulb_of_class_m() {
  const Time width = 23000 * lumen_second / (1.8 * megalumen);
  return *bulb_with(23000 * lumen_second, 20 * ms, width);
}

// Truth: flash-synchronisation-article in data/sources.toml (READ) for the ratings; 23 000 lm s
// over 1.8 Mlm is 12.78 ms, from 20 - 1.25 = 18.75 ms on.
TEST(Bulb, HasItsRatingsBack) {
  const BulbLight bulb = bulb_of_class_m();
  EXPECT_NEAR(equivalent_width(bulb) / ms, 12.78, 0.01);
  EXPECT_NEAR(peak_flux(bulb) / megalumen, 1.8, 1e-6);
  EXPECT_NEAR((20 * ms - second / 800) / ms, 18.75, 1e-12);
  EXPECT_NEAR(flux_at(bulb, 20 * ms) / megalumen, 1.8, 1e-6);
  EXPECT_LT(flux_at(bulb, 19 * ms), flux_at(bulb, 20 * ms));
  EXPECT_LT(flux_at(bulb, 21 * ms), flux_at(bulb, 20 * ms));
  EXPECT_FALSE(bulb_with(23000 * lumen_second, 20 * ms, second));
}

// Truth: shares of the same model computed by another program, n = 15.56: from 1/800 s before the
// peak on, and centred on it; printed to three digits.
TEST(Bulb, GivesAFastShutterItsShare) {
  const BulbLight bulb{23000 * lumen_second, 20 * ms, 15.56};
  EXPECT_NEAR(equivalent_width(bulb) / ms, 12.78, 0.005);
  for (const auto& [per_second, after, centred] : {std::tuple{32.0, 0.664, 0.991},
                                                   {64.0, 0.650, 0.865},
                                                   {128.0, 0.509, 0.555},
                                                   {256.0, 0.296, 0.298},
                                                   {512.0, 0.152, 0.152}}) {
    const Time open = second / per_second;
    const Time begin = 20 * ms - second / 800;
    EXPECT_NEAR(light_between(bulb, begin, begin + open), after, 0.0005) << per_second;
    EXPECT_NEAR(light_between(bulb, 20 * ms - open / 2, 20 * ms + open / 2), centred, 0.0005);
  }
}

// Law: blades that take no time pass what lies between; with blades, the integral of flux times
// clear share (midpoint, done here on the flux).
TEST(Bulb, ShinesThroughTheBlades) {
  const BulbLight bulb = bulb_of_class_m();
  const LeafShutter at_once{second / 64, {}, {}};
  EXPECT_NEAR(light_through(bulb, at_once, 1, 12 * ms),
              light_between(bulb, 12 * ms, 12 * ms + second / 64), 1e-9);
  const LeafShutter blades{16 * ms, 4 * ms, 4 * ms};
  double sum = 0;
  constexpr int steps = 20000;
  for (int i = 0; i < steps; ++i) {
    const Time t = blades.total * ((i + 0.5) / steps);
    sum += flux_at(bulb, 12 * ms + t) * clear_share(blades, 0.7, t) * blades.total / steps /
           bulb.total;
  }
  EXPECT_NEAR(light_through(bulb, blades, 0.7, 12 * ms), sum, 1e-5);
}

// Truth: slr-manual-on-bulbs in data/sources.toml (READ): an M-class bulb on an X contact needs
// 1/15 s or slower. By the model 1/15 s passes nearly all of
// it, 1/60 s under two fifths, 1/125 s nothing to speak of.
TEST(Bulb, OnAnXContactNeedsASlowSpeed) {
  const BulbLight bulb = bulb_of_class_m();
  const auto on_x = [&](double per_second) {
    const LeafShutter shutter = shutter_with(second / per_second, 3 * ms, 3 * ms);
    return light_through(bulb, shutter, 1, first_light_of_x(shutter));
  };
  EXPECT_GT(on_x(15), 0.99);
  EXPECT_GT(on_x(32), 0.8);
  EXPECT_LT(on_x(60), 0.4);
  EXPECT_LT(on_x(125), 0.01);
}

// Law: the M contact is there for fast speeds: at 1/60 s it passes well over twice what X does.
TEST(Bulb, OnAnMContactMeetsTheOpenShutter) {
  const BulbLight bulb = bulb_of_class_m();
  const LeafShutter shutter = shutter_with(second / 60, 3 * ms, 3 * ms);
  EXPECT_GT(light_through(bulb, shutter, 1, first_light_of_m(usual_m_lead)),
            2 * light_through(bulb, shutter, 1, first_light_of_x(shutter)));
}

}  // namespace
}  // namespace backfit
