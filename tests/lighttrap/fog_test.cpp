// SPDX-License-Identifier: MIT
#include "lighttrap/fog.hpp"

#include <gtest/gtest.h>

namespace backfit {
namespace {

// Truth: film-speed-article and slow-film-speeds in data/sources.toml (both READ): the speed is 0.8
// over the exposure that gives 0.10 over base and fog.
TEST(FogExposure, IsTheSpeedPointsAtATenth) {
  EXPECT_NEAR(fog_exposure({100}, {0.10}) / lux_second, 0.008, 1e-15);
  EXPECT_NEAR(fog_exposure({400}, {0.10}) / lux_second, 0.002, 1e-15);
  EXPECT_NEAR(fog_exposure({400}, {0.02}) / lux_second, 0.0004, 1e-15);
}

// Truth: worked out apart: an hour at 100 000 lx is 3.6e8 lx s, so ISO 100 film needs 4.5e10 times
// less for 0.10, which is 35.4 stops, and 37.7 for 0.02; last digits.
TEST(TimeToFog, IsAnHourBehindTheAttenuationThatItNeeds) {
  EXPECT_NEAR(time_to_fog({100}, {0.10}, 1 / 4.5e10, 0).time / second, 3600, 1e-6);
  EXPECT_NEAR(stops_of(3600 * second * full_sun.value / fog_exposure({100}, {0.10})).value, 35.4,
              0.05);
  EXPECT_NEAR(stops_of(3600 * second * full_sun.value / fog_exposure({100}, {0.02})).value, 37.7,
              0.05);
}

// Law: the doubts of sun, film and leak add as squares, and the smaller rise is less sure.
TEST(TimeToFog, CarriesAllDoubts) {
  const double film = 0.5 / 3 / std::sqrt(3) * std::log(2), sun = 0.2 / std::sqrt(3);
  EXPECT_NEAR(time_to_fog({100}, {0.10}, 1e-9, 3e-10).relative_u,
              std::sqrt(film * film + sun * sun + 0.09), 1e-12);
  EXPECT_GT(fog_exposure_u({0.02}), fog_exposure_u({0.10}));
  EXPECT_TRUE(std::isinf(time_to_fog({100}, {0.02}, 0, 0).time / second));
}

}  // namespace
}  // namespace backfit
