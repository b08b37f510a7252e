// SPDX-License-Identifier: MIT
#include "parts/adapter_plate.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "piece_checks.hpp"
#include "sample_adapter.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

// Truth: by hand, each piece apart.
TEST(AdapterPlate, IsAPlateWithItsTongueHolesAndGroove) {
  expect_no_faults(sample_adapter());
  const auto hole = [](double deep) {
    return pi * 1.25 * 1.25 * (deep - 1) + pi / 3 * (1.25 * 1.25 + 1.25 * 2.25 + 2.25 * 2.25);
  };
  const auto ring = [](double w, double h, double r, double wall) {
    return (w + 2 * wall) * (h + 2 * wall) - (4 - pi) * (r + wall) * (r + wall) - w * h +
           (4 - pi) * r * r;
  };
  const double plate = (138 * 176 - (4 - pi) * 36 - 48 * 64) * 4;
  const double by_hand =
      plate + ring(107.5, 137.5, 2.75, 2.3) * 2.75 - 4 * hole(4) - ring(60, 84, 2, 2.6) * 1.75;
  EXPECT_NEAR(volume_of(sample_adapter()) / mm3, by_hand, 1e-9 * by_hand);
  EXPECT_NEAR(tongue_volume(sample_adapter()) / mm3, ring(60.5, 84.5, 2.25, 2.1) * 3.5, 1e-6);
  expect_well_made(solid_of(sample_adapter()), volume_of(sample_adapter()), "adapter");
  expect_well_made(tongue_of(sample_adapter()), tongue_volume(sample_adapter()), "loose tongue");
  expect_good_set(set_of(sample_adapter()));
  const Bounds b = bounds_of(solid_of(sample_adapter()));
  EXPECT_NEAR(b.low.z / mm, 0.8 - 2.75, 1e-6);
  EXPECT_NEAR(b.high.z / mm, 4.8, 1e-6);
}

// Law: on the groove's floor the loose tongue keeps its gap on each side, stands as far out as it
// is deep in, and is centred on the back.
TEST(AdapterPlate, LooseTongueKeepsItsGap) {
  const Solid plate = solid_of(sample_adapter()), loose = tongue_of(sample_adapter());
  EXPECT_NEAR(common_volume(plate, loose) / mm3, 0, 1e-6);
  EXPECT_NEAR(distance_between(plate, loose) / mm, 0, 1e-6);
  EXPECT_NEAR(distance_between(plate, translated(loose, {{}, {}, 0.1 * mm})) / mm, 0.1, 1e-6);
  EXPECT_NEAR(distance_between(plate, translated(loose, {{}, {}, 1 * mm})) / mm, 0.25, 1e-6);
  const Bounds b = bounds_of(loose);
  EXPECT_NEAR(b.high.z / mm, 0.8 + 4 + 1.75, 1e-6);
  EXPECT_NEAR((b.low.y + b.high.y) / mm / 2, -4, 1e-6);
}

// Law: in a seat with the groove that its tongue was made for, with a gap of 0.25, it keeps it.
TEST(AdapterPlate, TongueKeepsItsGapInTheSeat) {
  const AdapterPlate a = sample_adapter();
  const Length seat = a.rest;
  const Solid camera = difference_of(
      box({-80 * mm, -100 * mm, seat - 6 * mm}, {80 * mm, 100 * mm, seat}),
      {rounded_ring(107 * mm, 137 * mm, 2.5 * mm, 2.8 * mm, seat - 3 * mm, seat + 1 * mm)});
  EXPECT_NEAR(common_volume(camera, solid_of(a)) / mm3, 0, 1e-6);
  const Solid tongue = difference_of(solid_of(a), {box({-90 * mm, -100 * mm, seat - 0.3 * mm},
                                                       {90 * mm, 100 * mm, seat + 9 * mm})});
  EXPECT_NEAR(distance_between(camera, tongue) / mm, 0.25, 1e-6);
}

TEST(AdapterPlate, SaysWhatCantBeMade) {
  AdapterPlate a = sample_adapter();
  a.back_width = 126 * mm;  // over the seat's screws
  a.back_height = 150 * mm;
  const auto list = faults(a);
  ASSERT_EQ(list.size(), 2U);
  EXPECT_EQ(list[0].text,
            "what stays between the instant back and the seat's screw at (60.5, 66.0) mm is "
            "-4.75 mm; 1.20 mm is needed");
  a = sample_adapter();
  a.groove->depth = 3 * mm;
  a.loose_tongue->height = 6 * mm;
  ASSERT_EQ(faults(a).size(), 1U);
  EXPECT_EQ(faults(a)[0].text, "what stays under the groove is 1.00 mm; 1.20 mm is needed");
  a = sample_adapter();
  a.back_screws.places[0].x = 48.5 * mm;
  ASSERT_FALSE(faults(a).empty());
  a = sample_adapter();
  a.thickness = NAN * mm;
  EXPECT_FALSE(faults(a).empty());
}

TEST(AdapterPlate, RandomOnesAreWellMade) {
  for (const double step : {0.0, 0.5}) {
    sweep(
        step > 0 ? 2 : 1, 150,
        [step](Random& random) {
          AdapterPlate a;
          a.smallest_wall = between(random, 0.8, 1.5);
          a.window_width = between(random, 30, 90, step);
          a.window_height = between(random, 30, 110, step);
          a.tongue.inner_width = a.window_width + between(random, 30, 60, step);
          a.tongue.inner_height = a.window_height + between(random, 40, 70, step);
          a.tongue.wall = between(random, 1, 3, step);
          a.tongue.depth = between(random, 1, 4, step);
          a.tongue.inner_corner_radius =
              random.unit() < 0.2 ? Length{} : between(random, 0.5, 8, step);
          a.width = a.tongue.inner_width + between(random, 20, 40, step);
          a.height = a.tongue.inner_height + between(random, 20, 40, step);
          a.corner_radius = random.unit() < 0.2 ? Length{} : between(random, 1, 8, step);
          a.thickness = between(random, 2.5, 7, step);
          a.back_middle = {between(random, -2, 2, step), between(random, -6, 6, step)};
          a.back_width = a.tongue.inner_width + between(random, -12, 2, step);
          a.back_height = a.tongue.inner_height + between(random, -12, 2, step);
          if (random.unit() < 0.8) {
            AdapterPlate::Groove g;
            g.inner_width = a.window_width + between(random, 8, 16, step);
            g.inner_height = a.window_height + between(random, 16, 24, step);
            g.inner_corner_radius = random.unit() < 0.3 ? Length{} : between(random, 0.5, 4, step);
            g.width = between(random, 1.5, 3.5, step);
            g.depth = between(random, 0.5, 2.5, step);
            a.groove = g;
            if (random.unit() < 0.5) {
              a.loose_tongue = AdapterPlate::LooseTongue{between(random, 0.1, 0.4), 2 * g.depth};
            }
          }
          a.seat_screws.hole_diameter = between(random, 1.5, 3.5, step);
          a.seat_screws.head_diameter = a.seat_screws.hole_diameter + between(random, 1, 3, step);
          a.back_screws.hole_diameter = between(random, 1.5, 3.5, step);
          a.back_screws.head_diameter = a.back_screws.hole_diameter + between(random, 1, 3, step);
          const Length x = a.width / 2 - between(random, 3, 6, step);
          const Length y = a.height / 2 - between(random, 3, 6, step);
          a.seat_screws.places = {{x, y}, {-x, y}, {x, -y}, {-x, -y}};
          const Length back_x = a.tongue.inner_width / 2 - between(random, 4, 8, step);
          a.back_screws.places = {{back_x, {}}, {-back_x, {}}};
          a.rest = between(random, -2, 3);
          return a;
        },
        [](const AdapterPlate& a) {
          const Solid plate = solid_of(a);
          expect_well_made(plate, volume_of(a), "adapter");
          if (!a.loose_tongue) return;
          const Solid loose = tongue_of(a);
          expect_well_made(loose, tongue_volume(a), "loose tongue");
          EXPECT_NEAR(common_volume(plate, loose) / mm3, 0, 1e-6);
        });
  }
}

}  // namespace
}  // namespace backfit
