// SPDX-License-Identifier: MIT
#include "parts/focus_gauge.hpp"

#include <gtest/gtest.h>

#include "piece_checks.hpp"

namespace backfit {
namespace {

// On a seat 0.8 behind the old plane, film 7.8 behind the seat, glass of 1.5.
FocusGauge sample() {
  FocusGauge g;
  g.width = 125 * mm;
  g.height = 155 * mm;
  g.rest = g.front = 0.8 * mm;
  g.film = 8.6 * mm;
  g.ledge = 10.2 * mm;
  g.back = 12.2 * mm;
  g.glass_width = 100 * mm;
  g.glass_height = 125 * mm;
  g.glass_thickness = 1.5 * mm;
  g.gap = 0.25 * mm;
  g.view_width = 95 * mm;
  g.view_height = 120 * mm;
  g.smallest_wall = 1.2 * mm;
  return g;
}

// On a seat 0.8 behind the film.
FocusGauge with_nose() {
  FocusGauge g = sample();
  g.film = 0 * mm;
  g.ledge = 1.6 * mm;
  g.front = 0.2 * mm;
  g.back = 3.6 * mm;
  g.nose_width = 105 * mm;
  g.nose_height = 130 * mm;
  return g;
}

// Truth: by hand, 125 x 155 x 11.4, less a pocket of 100.5 x 125.5 x 9.4 and a hole of 95 x 120 in
// the 2 that are left.
TEST(FocusGauge, FrameIsABoxLessPocketAndOpening) {
  expect_no_faults(sample());
  EXPECT_NEAR(volume_of(sample()) / mm3, 125 * 155 * 11.4 - 100.5 * 125.5 * 9.4 - 95.0 * 120 * 2,
              1e-6);
  expect_well_made(solid_of(sample()), volume_of(sample()), "frame");
  expect_good_set(set_of(sample()));
}

// Truth: by hand, a plate of 2.8 and a nose 0.6 before it; the pocket 1.4 deep.
TEST(FocusGauge, NoseCarriesThePocketForward) {
  expect_no_faults(with_nose());
  EXPECT_NEAR(volume_of(with_nose()) / mm3,
              125 * 155 * 2.8 + 105 * 130 * 0.6 - 100.5 * 125.5 * 1.4 - 95.0 * 120 * 2, 1e-6);
  expect_well_made(solid_of(with_nose()), volume_of(with_nose()), "frame");
  expect_good_set(set_of(with_nose()));
}

// Law: with packing between ledge and glass the matt face, the glass's front, lies in the film's
// plane; a slab where glass and packing go meets no material.
TEST(FocusGauge, GlassAndPackingHaveRoomAndReachTheFilmsPlane) {
  for (const FocusGauge& g : {sample(), with_nose()}) {
    EXPECT_NEAR((g.ledge - g.packing() - g.glass_thickness - g.film) / mm, 0, 1e-12);
    const Solid glass = box({-g.glass_width / 2, -g.glass_height / 2, g.film},
                            {g.glass_width / 2, g.glass_height / 2, g.film + g.glass_thickness});
    EXPECT_NEAR(common_volume(glass, solid_of(g)) / mm3, 0, 1e-6);
    // It lies `packing` over the ledge, the nearest that there is.
    EXPECT_NEAR(distance_between(glass, solid_of(g)) / mm, std::min(g.packing() / mm, 0.25), 1e-6);
  }
}

TEST(FocusGauge, TapeOnTheFrontNeedsNoPocket) {
  FocusGauge g = sample();
  g.tape = true;
  g.film = g.ledge = g.front = g.rest;
  g.glass_thickness = 0.06 * mm;
  g.back = g.rest + 2 * mm;
  expect_no_faults(g);
  EXPECT_NEAR(volume_of(g) / mm3, (125.0 * 155 - 95 * 120) * 2, 1e-6);
  expect_well_made(solid_of(g), volume_of(g), "frame");
  expect_good_set(set_of(g));
}

TEST(FocusGauge, SaysWhatCantBeMade) {
  FocusGauge g = sample();
  g.width = 102 * mm;
  ASSERT_EQ(faults(g).size(), 1U);
  EXPECT_EQ(faults(g)[0].id, "focus-gauge-impossible");
  EXPECT_EQ(faults(g)[0].text, "the wall beside the glass is 0.75 mm; 1.20 mm is needed");
  g = sample();
  g.gap = {};
  EXPECT_EQ(faults(g).size(), 1U);
}

TEST(FocusGauge, RandomOnesAreWellMade) {
  for (const double step : {0.0, 0.5}) {
    sweep(
        step > 0 ? 2 : 1, 150,
        [step](Random& random) {
          FocusGauge g;
          const bool nose = random.unit() < 0.4;
          g.smallest_wall = between(random, 0.8, 1.8);
          g.gap = between(random, 0.1, 0.4);
          g.view_width = between(random, 30, 140, step);
          g.view_height = between(random, 30, 180, step);
          g.glass_width = g.view_width + between(random, 2, 10, step);
          g.glass_height = g.view_height + between(random, 2, 10, step);
          g.glass_thickness = between(random, 0.5, 3, step);
          g.width = g.glass_width + between(random, 2, 40, step);
          g.height = g.glass_height + between(random, 2, 40, step);
          g.rest = between(random, -2, 2, step);
          g.film =
              nose ? g.rest - between(random, 0.5, 6, step) : g.rest + between(random, 0, 10, step);
          g.ledge = g.film + g.glass_thickness + between(random, 0, 0.2);
          g.front = nose ? g.film : g.rest;
          g.back = std::max(g.rest, g.ledge) + between(random, 1, 3, step);
          g.nose_width = nose ? g.glass_width + between(random, 2, 10, step) : Length{};
          g.nose_height = nose ? g.glass_height + between(random, 2, 10, step) : Length{};
          return g;
        },
        [](const FocusGauge& g) { expect_well_made(solid_of(g), volume_of(g), "frame"); });
  }
}

}  // namespace
}  // namespace backfit
