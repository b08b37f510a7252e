// SPDX-License-Identifier: MIT
#include "exposure/lens_change.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace backfit {
namespace {

// Truth: closeup-factor in data/sources.toml (READ): half life size needs 2 1/4 times the
// exposure; the source rounds to a quarter.
TEST(CloseUp, HalfSizeNeedsTwoAndAQuarterTimes) { EXPECT_NEAR(close_up_factor(0.5), 2.25, 1e-12); }

// Law: pupils enter as (1 + m / p)^2: life size through a lens with p = 2 costs what half life
// size costs through a symmetrical one.
TEST(CloseUp, FollowsThePupils) {
  EXPECT_NEAR(close_up_factor(1, 2), close_up_factor(0.5, 1), 1e-12);
}

// Law: focused by extension, m = e / f, so both forms agree.
TEST(CloseUp, AgreesWithExtension) {
  for (const double m : {0.0, 0.1, 0.5, 1.0, 2.0}) {
    EXPECT_NEAR(extension_factor(m * 118 * mm, 118 * mm, 1.3), close_up_factor(m, 1.3), 1e-12);
  }
  EXPECT_NEAR(extension_factor({}, 118 * mm), 1, 1e-12);
}

// Law: first order: u = 2 u_e / (f + e) / ln 2 when only the extension is unsure.
TEST(Extension, SaysHowSureItIs) {
  const StopsEstimate s = extension_stops({12 * mm, 0.6 * mm}, exactly(118.0 * mm), exactly(1.0));
  EXPECT_NEAR(s.value.value, 2 * std::log2(130.0 / 118), 1e-12);
  EXPECT_NEAR(s.standard_uncertainty.value, 2 * (0.6 / std::sqrt(3)) / 130 / std::log(2), 1e-5);
}

// Law: an attachment in front keeps the f-number until its own glass is the stop.
TEST(Attachment, InFrontKeepsTheFNumberWhileItsGlassIsWideEnough) {
  EXPECT_DOUBLE_EQ(with_front_attachment({9}, 1.5, 118 * mm, 25 * mm).value, 9);
  EXPECT_DOUBLE_EQ(with_front_attachment({9}, 1.5, 118 * mm, {}).value, 9);
  EXPECT_NEAR(with_front_attachment({4.5}, 1.5, 118 * mm, 25 * mm).value, 7.08, 1e-12);
  EXPECT_DOUBLE_EQ(with_rear_extender({8}, 2).value, 16);
}

TEST(Stop, IsTheWidestThatKeepsBothCoverageAndSpeed) {
  const std::array<StopChoice, 3> stops{
      {{{9}, {2.5}, second / 250}, {{18}, {1.2}, second / 60}, {{36}, {0.8}, second / 15}}};
  EXPECT_EQ(widest_that_keeps_both(stops, {1.5}, second / 30)->aperture.value, 18);
  EXPECT_EQ(widest_that_keeps_both(stops, {3}, second / 30)->aperture.value, 9);
  EXPECT_FALSE(widest_that_keeps_both(stops, {1.0}, second / 30));
  EXPECT_DOUBLE_EQ(corner_compromise({1.2}).value, 0.6);
}

}  // namespace
}  // namespace backfit
