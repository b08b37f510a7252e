// SPDX-License-Identifier: MIT
#include "timer/photocell.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include <vector>

namespace backfit {
namespace {

std::vector<CellReading> between(double one_lux_kohm, double hundred_lux_kohm) {
  return {{exactly(1 * lux), exactly(one_lux_kohm * kohm)},
          {exactly(100 * lux), exactly(hundred_lux_kohm * kohm)}};
}

// Truth: photocell-slope-notes in data/sources.toml (READ): 13 kohm at 1 lx and 0.9 kohm at 100 lx
// are a slope of -0.5799, 15 and 1.1 kohm one of -0.5673. Tolerance: half of the last digit.
TEST(PhotocellLaw, HasThePublishedSlope) {
  EXPECT_NEAR(photocell_law(between(13, 0.9))->slope, 0.5799, 5e-5);
  EXPECT_NEAR(photocell_law(between(15, 1.1))->slope, 0.5673, 5e-5);
}

// Truth: worked out apart from this program: 25 kohm at 10 lx and a slope of 0.6 are 6.280 kohm at
// 100 lx; over five stops such a cell strays by 2.0 stops, one of slope 0.9 by 0.5.
TEST(PhotocellLaw, GivesResistanceAndWhatTheAutomaticStrays) {
  const PhotocellLaw law{25 * kohm, 0.6};
  EXPECT_NEAR(law.at(100 * lux) / kohm, 6.280, 5e-4);
  EXPECT_NEAR(automatic_error(law, {5}).value, -2.0, 1e-12);
  EXPECT_NEAR(automatic_error({25 * kohm, 0.9}, {5}).value, -0.5, 1e-12);
}

// Law: readings off a line give it back, and their doubts make the slope's: two readings of 5 %
// each way, two decades apart, by hand 0.05 / sqrt(3) sqrt(2) / ln(100).
TEST(PhotocellLaw, CarriesTheDoubtOfItsReadings) {
  std::vector<CellReading> readings = between(25, 25);
  const PhotocellLaw law{25 * kohm, 0.7};
  for (CellReading& r : readings) {
    const Resistance value = law.at(r.light.value);
    r.resistance = {value, 0.05 * value};
  }
  const auto found = photocell_law(readings);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->slope, 0.7, 1e-12);
  EXPECT_NEAR(found->at_ten_lux / kohm, 25, 1e-9);
  EXPECT_NEAR(found->slope_u, 0.05 / std::sqrt(3) * std::sqrt(2) / std::log(100), 1e-12);
}

TEST(PhotocellLaw, IsNotFoundWithoutAFall) {
  EXPECT_FALSE(photocell_law(between(1, 5)));
  EXPECT_FALSE(photocell_law(std::vector<CellReading>{{exactly(1 * lux), exactly(1 * kohm)}}));
  EXPECT_FALSE(photocell_law(std::vector<CellReading>{{exactly(1 * lux), exactly(1 * kohm)},
                                                      {exactly(1 * lux), exactly(2 * kohm)}}));
}

}  // namespace
}  // namespace backfit
