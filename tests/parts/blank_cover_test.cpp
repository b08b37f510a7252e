// SPDX-License-Identifier: MIT
#include "parts/blank_cover.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "piece_checks.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

BlankCover sample() {
  BlankCover c;
  c.width = 138 * mm;
  c.height = 176 * mm;
  c.corner_radius = 6 * mm;
  c.thickness = 3 * mm;
  c.tongue = {107.5 * mm, 137.5 * mm, 2.3 * mm, 2.75 * mm, 2.75 * mm};
  c.screws = {{60.5 * mm, 66 * mm}, {-60.5 * mm, -66 * mm}};
  c.screw_hole = 2.5 * mm;
  c.rest = 0.8 * mm;
  c.smallest_wall = 1.2 * mm;
  return c;
}

// Truth: by hand, plate, tongue and holes apart.
TEST(BlankCover, IsAPlateWithATongue) {
  expect_no_faults(sample());
  const double plate = 138 * 176 - (4 - pi) * 36;
  const double tongue =
      112.1 * 142.1 - (4 - pi) * 5.05 * 5.05 - 107.5 * 137.5 + (4 - pi) * 2.75 * 2.75;
  EXPECT_NEAR(volume_of(sample()) / mm3, plate * 3 + tongue * 2.75 - 2 * pi / 4 * 2.5 * 2.5 * 3,
              1e-6);
  const Solid solid = solid_of(sample());
  expect_well_made(solid, volume_of(sample()), "cover");
  EXPECT_NEAR(bounds_of(solid).low.z / mm, 0.8 - 2.75, 1e-6);
  EXPECT_NEAR(bounds_of(solid).high.z / mm, 3.8, 1e-6);
  expect_good_set(set_of(sample()));
}

// Law: in a groove with the gap of 0.25 on each side and below, the tongue keeps it.
TEST(BlankCover, TongueKeepsItsGapInTheGroove) {
  const BlankCover c = sample();
  const Length seat = c.rest;
  const Solid camera = difference_of(
      box({-80 * mm, -100 * mm, seat - 6 * mm}, {80 * mm, 100 * mm, seat}),
      {rounded_ring(107 * mm, 137 * mm, 2.5 * mm, 2.8 * mm, seat - 3 * mm, seat + 1 * mm)});
  EXPECT_NEAR(common_volume(camera, solid_of(c)) / mm3, 0, 1e-6);
  const Solid lifted = translated(solid_of(c), {{}, {}, 0.1 * mm});
  EXPECT_NEAR(distance_between(camera, lifted) / mm, 0.1, 1e-6);
  // Without its plate above the seat only the tongue is left to come near.
  const Solid tongue = difference_of(solid_of(c), {box({-90 * mm, -100 * mm, seat - 0.3 * mm},
                                                       {90 * mm, 100 * mm, seat + 9 * mm})});
  EXPECT_NEAR(distance_between(camera, tongue) / mm, 0.25, 1e-6);
}

TEST(BlankCover, SaysWhatCantBeMade) {
  BlankCover c = sample();
  c.screws[0] = {55 * mm, 0 * mm};
  ASSERT_EQ(faults(c).size(), 1U);
  EXPECT_EQ(faults(c)[0].text,
            "what stays between the tongue and the screw hole at (55.0, 0.0) mm is -2.30 mm; 1.20 "
            "mm is needed");
}

TEST(BlankCover, RandomOnesAreWellMade) {
  for (const double step : {0.0, 0.5}) {
    sweep(
        step > 0 ? 2 : 1, 150,
        [step](Random& random) {
          BlankCover c;
          c.smallest_wall = between(random, 0.8, 1.8);
          c.width = between(random, 80, 180, step);
          c.height = between(random, 80, 200, step);
          c.corner_radius = random.unit() < 0.2 ? Length{} : between(random, 1, 15, step);
          c.thickness = between(random, 1.5, 6, step);
          c.tongue.wall = between(random, 1, 3, step);
          c.tongue.inner_width = c.width - between(random, 10, 40, step);
          c.tongue.inner_height = c.height - between(random, 10, 40, step);
          c.tongue.inner_corner_radius =
              random.unit() < 0.2 ? Length{} : between(random, 0.5, 8, step);
          c.tongue.depth = between(random, 1, 4, step);
          c.screw_hole = between(random, 1.5, 4, step);
          const int count = static_cast<int>(5 * random.unit());
          for (int i = 0; i < count; ++i) {
            const double side = i % 2 == 0 ? 1 : -1;
            c.screws.push_back(
                {side * (c.width / 2 - between(random, 2, 8, step)), (i - 2) * (c.height / 7)});
          }
          c.rest = between(random, -2, 3);
          return c;
        },
        [](const BlankCover& c) { expect_well_made(solid_of(c), volume_of(c), "cover"); });
  }
}

}  // namespace
}  // namespace backfit
