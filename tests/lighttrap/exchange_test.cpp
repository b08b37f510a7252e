// SPDX-License-Identifier: MIT
#include "lighttrap/exchange.hpp"

#include <gtest/gtest.h>

#include <array>

namespace backfit {
namespace {

// A hollow sphere of area 1, whose parts all see each other by area alone: two mouths of `port`
// together, and walls of unequal pieces.
Exchange sphere(double port) {
  const std::array parts{0.1, 0.4, 0.2, 0.3};
  Exchange x(parts.size());
  x.mouth = port / 2;
  x.direct = x.mouth * x.mouth;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    x.area[i] = (1 - port) * parts.at(i);
    x.entry[i] = x.exit[i] = x.area[i] * x.mouth;
    for (std::size_t j = 0; j < parts.size(); ++j) {
      x.mutual(i, j) = x.area[i] * (1 - port) * parts.at(j);
    }
  }
  return x;
}

// Truth: integrating-sphere-multiplier in data/sources.toml: the walls are M = r / (1 - r (1 - f))
// times as bright as the light that first falls on them spread over the sphere: 14.203 for r 0.98
// and f 0.05, 9.744 for 0.95 and 0.05; half a unit of the last digit.
TEST(Passage, BrightensAnIntegratingSphere) {
  const auto multiplier = [](double reflectance, double port) {
    const Exchange x = sphere(port);
    const double walls = passage(x, reflectance).through - x.direct / x.mouth;
    return walls / (x.mouth * (1 - port));  // the first light falls on the walls' part
  };
  EXPECT_NEAR(multiplier(0.98, 0.05), 14.203, 5e-4);
  EXPECT_NEAR(multiplier(0.95, 0.05), 9.744, 5e-4);
  EXPECT_NEAR(multiplier(0.05, 1e-9), 0.05263, 5e-6);
}

// Law: black walls pass the direct light alone and send none back.
TEST(Passage, IsDirectBetweenBlackWalls) {
  const Passage p = passage(sphere(0.2), 0);
  EXPECT_NEAR(p.through, 0.1, 1e-15);
  EXPECT_EQ(p.back, 0);
}

}  // namespace
}  // namespace backfit
