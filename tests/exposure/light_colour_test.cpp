// SPDX-License-Identifier: MIT
#include "exposure/light_colour.hpp"

#include <gtest/gtest.h>

#include <tuple>

namespace backfit {
namespace {

// Truth: computed separately by another program of the same model (Planck, box, the eye's curve of
// the tables rather than a Gaussian): the two eyes differ by under 0.015 stop.
TEST(LightColour, MakesSlowMaterialsFasterInDaylight) {
  for (const auto& [band, of_3200, of_2856] : {std::tuple{blue_only, 1.24, 1.59},
                                               {blue_and_green, 0.89, 1.12},
                                               {orthochromatic, 0.69, 0.86},
                                               {panchromatic, 0.26, 0.29}}) {
    EXPECT_NEAR(gain_by_colour(band, daylight, {3200}).value, of_3200, 0.015);
    EXPECT_NEAR(gain_by_colour(band, daylight, tungsten).value, of_2856, 0.015);
  }
}

// Law: there and back is nothing; warmer than the reference is slower.
TEST(LightColour, TurnsAround) {
  const double there = gain_by_colour(blue_only, tungsten, daylight).value;
  EXPECT_NEAR(there, -gain_by_colour(blue_only, daylight, tungsten).value, 1e-12);
  EXPECT_LT(there, 0);
  EXPECT_NEAR(index_in({6}, blue_only, daylight, daylight).value, 6, 1e-12);
  EXPECT_NEAR(index_in({6}, blue_only, tungsten, daylight).value, 2.0, 0.05);
}

// Truth: colour-meter-manual in data/sources.toml (READ) prints the shifts of the conversion
// filters; their kelvins are from memory. To half a mired.
TEST(MiredShift, IsTheConversionFilters) {
  for (const auto& [kelvin, shift] :
       {std::pair{3200.0, 131.0}, {3400.0, 112.0}, {3800.0, 81.0}, {4200.0, 56.0}}) {
    EXPECT_NEAR(mired_shift({5500}, {kelvin}).value, shift, 0.5);
    EXPECT_NEAR(mired_shift({kelvin}, {5500}).value, -shift, 0.5);
  }
}

}  // namespace
}  // namespace backfit
