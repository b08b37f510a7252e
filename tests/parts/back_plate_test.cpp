// SPDX-License-Identifier: MIT
#include "parts/back_plate.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "parts/footprint.hpp"
#include "quantity/random.hpp"
#include "sample_plate.hpp"
#include "solid/mesh.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

constexpr Length chord = 0.02 * mm;

// Area of the plate's cylinders and cones, each from elementary geometry.
Area curved_area(const BackPlate& plate) {
  const auto cylinder_area = [](Length diameter, Length height) { return pi * diameter * height; };
  const auto holes_area = [&](const BackPlate::CountersunkHoles& holes) {
    const Length cone = (holes.head_diameter - holes.hole_diameter) / 2;
    return static_cast<double>(holes.places.size()) *
           (cylinder_area(holes.hole_diameter, plate.thickness - cone) +
            pi / 2 * (holes.hole_diameter + holes.head_diameter) * (std::numbers::sqrt2 * cone));
  };
  const BackPlate::Tongue& tongue = plate.tongue;
  const Area lugs = plate.lugs ? 2.0 * static_cast<double>(plate.lugs->at.size()) *
                                     cylinder_area(2 * plate.lugs->corner_radius, plate.thickness)
                               : Area{};
  return lugs + cylinder_area(2 * plate.corner_radius, plate.thickness) +
         cylinder_area(4 * tongue.inner_corner_radius + 2 * tongue.wall, tongue.depth) +
         holes_area(plate.screws) + holes_area(plate.fence);
}

// Laws: the kernel's volume is the one from the numbers; the body is one sound lump; the mesh's
// volume differs by no more than the chord times the curved area.
void expect_well_made(const BackPlate& plate) {
  const Solid solid = solid_of(plate);
  const Soundness report = soundness_of(solid);
  EXPECT_TRUE(report.sound()) << report.valid << report.bodies << report.cavities
                              << report.bad_edges << report.watertight;
  const Volume expected = volume_of(plate);
  EXPECT_NEAR(report.volume / expected, 1, 1e-9);  // rounding in the kernel's integration
  const Mesh mesh = mesh_of(solid, chord);
  ASSERT_TRUE(watertight(mesh));
  const Volume single_precision = 1e-6 * expected;  // points rounded to 2^-24 of their size
  EXPECT_LE(abs(volume_of(mesh) - expected), chord * curved_area(plate) + single_precision);
  const Bounds around = bounds_of(solid);
  EXPECT_NEAR((around.high.x - around.low.x) / plate.overall_width(), 1, 1e-7);
  EXPECT_NEAR((around.high.y - around.low.y) / plate.overall_height(), 1, 1e-7);
  EXPECT_NEAR(around.low.z / mm, -plate.tongue.depth / mm, 1e-6);
  EXPECT_NEAR(around.high.z / mm, plate.thickness / mm, 1e-6);
}

TEST(BackPlate, SampleIsWellMade) {
  EXPECT_TRUE(faults(sample_plate(), sample_wall).empty());
  expect_well_made(sample_plate());
}

// Truth: worked by hand from the closed forms, each piece apart.
TEST(BackPlate, VolumeOfTheSampleIsTheSumOfItsPieces) {
  const double slab_mm3 = 4 * (134 * 172 - (4 - pi) * 36 - 97 * 122);
  const double tongue_mm3 = 2.5 * ((112 * 142 - (4 - pi) * 25) - (108 * 138 - (4 - pi) * 9));
  const double hole_mm3 = pi * 1.2 * 1.2 * 2.9 + pi * 1.1 / 3 * (1.2 * 1.2 + 1.2 * 2.3 + 2.3 * 2.3);
  const double fence_mm3 =
      pi * 1.7 * 1.7 * 2.6 + pi * 1.4 / 3 * (1.7 * 1.7 + 1.7 * 3.1 + 3.1 * 3.1);
  const double expected_mm3 =
      slab_mm3 + tongue_mm3 - 4 * hole_mm3 - 2.2 * 124 * 1.9 - 4 * fence_mm3;
  EXPECT_NEAR(volume_of(sample_plate()) / mm3, expected_mm3, 1e-9 * expected_mm3);
}

TEST(BackPlate, NeedsNeitherScrewsNorFenceNorRoundCorners) {
  BackPlate plate = sample_plate();
  plate.screws = {};
  plate.fence = {};
  plate.corner_radius = Length{};
  plate.tongue.inner_corner_radius = Length{};
  EXPECT_TRUE(faults(plate, sample_wall).empty());
  expect_well_made(plate);
}

// The features lie where the header says: seen from behind x right and y up, seat at z = 0.
TEST(BackPlate, FeaturesLieInTheirPlaces) {
  BackPlate plate = sample_plate();
  plate.screws.places = {{-60 * mm, 70 * mm}};
  plate.fence.places = {{63.5 * mm, -40 * mm}};
  const auto missing_in = [solid = solid_of(plate)](Point3 low, Point3 high) {
    const Solid probe = box(low, high);
    return (volume_of(probe) + volume_of(solid) - volume_of(union_of({probe, solid}))) /
           volume_of(probe);
  };
  const double none = 1e-9, all = 1 - 1e-9;
  // Screw: open at the seat within the hole, at the holder's face within the head.
  EXPECT_LT(missing_in({-60.5 * mm, 69.5 * mm, 0.1 * mm}, {-59.5 * mm, 70.5 * mm, 3.9 * mm}), none);
  EXPECT_GT(missing_in({-60.2 * mm, 71.4 * mm, 0.1 * mm}, {-59.8 * mm, 72 * mm, 2 * mm}), all);
  EXPECT_LT(missing_in({-60.2 * mm, 71.4 * mm, 3.8 * mm}, {-59.8 * mm, 72 * mm, 3.95 * mm}), none);
  // Fence screw: open at the holder's face within the hole, at the seat within the head.
  EXPECT_LT(missing_in({63 * mm, -40.5 * mm, 0.1 * mm}, {64 * mm, -39.5 * mm, 3.9 * mm}), none);
  EXPECT_GT(missing_in({63.3 * mm, -38 * mm, 2 * mm}, {63.7 * mm, -37.4 * mm, 3.9 * mm}), all);
  EXPECT_LT(missing_in({63.3 * mm, -38 * mm, 0.05 * mm}, {63.7 * mm, -37.4 * mm, 0.2 * mm}), none);
  // Rib groove, above the axis on the holder's side only.
  EXPECT_GT(missing_in({-50 * mm, 77.5 * mm, 0.1 * mm}, {50 * mm, 78.5 * mm, 2 * mm}), all);
  EXPECT_LT(missing_in({-50 * mm, 77.5 * mm, 2.2 * mm}, {50 * mm, 78.5 * mm, 3.9 * mm}), none);
  // Tongue, in front of the seat.
  EXPECT_GT(missing_in({54.2 * mm, -50 * mm, -2.4 * mm}, {55.8 * mm, 50 * mm, -0.1 * mm}), all);
  EXPECT_LT(missing_in({50 * mm, -50 * mm, -2.4 * mm}, {53.8 * mm, 50 * mm, -0.1 * mm}), none);
}

// A plate near the sample in every number; `step` rounds the numbers, so that a coarse step makes
// features that touch as often as owners' round numbers do.
BackPlate random_plate(Random& random, Length step) {
  const auto between = [&random, step](double low_mm, double high_mm) {
    const Length drawn = (low_mm + (high_mm - low_mm) * random.unit()) * mm;
    return step > Length{} ? std::round(drawn / step) * step : drawn;
  };
  BackPlate plate;
  plate.window_width = between(50, 130);
  plate.window_height = between(50, 180);
  plate.tongue.inner_width = plate.window_width + between(1.5, 14);
  plate.tongue.inner_height = plate.window_height + between(1.5, 14);
  plate.tongue.wall = between(1, 3);
  plate.tongue.inner_corner_radius = random.unit() < 0.2 ? Length{} : between(0.5, 5);
  plate.tongue.depth = between(1, 4);
  const Length tongue_half_width = plate.tongue.inner_width / 2 + plate.tongue.wall;
  const Length tongue_half_height = plate.tongue.inner_height / 2 + plate.tongue.wall;
  const Length border = between(12, 26);
  plate.width = 2 * (tongue_half_width + border);
  plate.height = 2 * (tongue_half_height + border);
  plate.corner_radius = random.unit() < 0.2 ? Length{} : between(1, 15);
  plate.thickness = between(3, 7);
  plate.screws.hole_diameter = between(2, 4);
  plate.screws.head_diameter = plate.screws.hole_diameter + between(1, 4);
  const Length screw_x = tongue_half_width + between(3, 12);
  for (const double side : {-1.0, 1.0}) {
    for (const double end : {-1.0, 1.0}) {
      plate.screws.places.push_back({side * screw_x, end * (tongue_half_height - between(0, 20))});
    }
  }
  const Length above = tongue_half_height + between(1, 12);
  const Length across = between(1.5, 3);
  const Length along = plate.width - between(5, 40);
  const Length depth = between(0.5, 2.5);
  plate.rib_groove = random.unit() < 0.5
                         ? BackPlate::RibGroove{{Length{}, above}, along, across, depth}
                         : BackPlate::RibGroove{{tongue_half_width + between(1, 12), Length{}},
                                                across,
                                                plate.height - between(5, 40),
                                                depth};
  plate.fence.hole_diameter = between(2, 4);
  plate.fence.head_diameter = plate.fence.hole_diameter + between(1, 4);
  const int fences = static_cast<int>(6 * random.unit());
  for (int i = 0; i < fences; ++i) {
    plate.fence.places.push_back({(i % 2 == 0 ? -1.0 : 1.0) * (tongue_half_width + between(2, 15)),
                                  between(-0.3, 0.3) * (plate.height / mm)});
  }
  return plate;
}

StrapLugs random_lugs(Random& random, const BackPlate& plate) {
  const auto between = [&random](double low_mm, double high_mm) {
    return (low_mm + (high_mm - low_mm) * random.unit()) * mm;
  };
  StrapLugs l;
  l.at_sides = random.unit() < 0.5;
  const Length along = l.at_sides ? plate.height : plate.width;
  if (random.unit() < 0.5) {
    l.at = {between(-0.1, 0.1) * (along / mm)};
  } else {
    l.at = {-between(0.1, 0.3) * (along / mm), between(0.1, 0.3) * (along / mm)};
  }
  l.neck_width = between(4, 14);
  l.neck_length = between(3, 10);
  l.corner_radius = random.unit() < 0.3 ? Length{} : between(0.3, 1.2);
  l.head_width = l.neck_width + between(4, 10);
  l.head_length = between(2, 6);
  l.recess = between(0.5, 2.5);
  return l;
}

void expect_random_plates_well_made(std::uint64_t seed, Length step, Length smallest_wall,
                                    bool with_lugs = false) {
  Random random(seed);
  const int wanted = 150;
  int built = 0;
  int drawn = 0;
  while (built < wanted && !testing::Test::HasFailure()) {
    ASSERT_LT(drawn, 6 * wanted) << "only " << built << " plates could be built";
    ++drawn;
    BackPlate plate = random_plate(random, step);
    if (with_lugs) plate.lugs = random_lugs(random, plate);
    if (faults(plate, smallest_wall).empty()) {
      ++built;
      expect_well_made(plate);
    }
  }
  testing::Test::RecordProperty("drawn", drawn);
}

TEST(BackPlate, RandomOnesAreWellMade) { expect_random_plates_well_made(1, Length{}, 0.8 * mm); }

TEST(BackPlate, RandomOnesWithLugsAreWellMade) {
  expect_random_plates_well_made(3, Length{}, 0.8 * mm, true);
  expect_random_plates_well_made(4, 0.5 * mm, 0.4 * mm, true);
}

// Truth: by hand, four ears of a neck 8 x 10 and a head 4 x 18 with corners R1, in 4 mm, each with
// a recess of 1.5 over 7 of the neck's 8.
TEST(BackPlate, LugsAddTheirVolumeBeyondItsEdges) {
  BackPlate plate = sample_plate();
  plate.lugs = sample_lugs();
  EXPECT_TRUE(faults(plate, sample_wall).empty());
  expect_well_made(plate);
  const double ear_mm3 = 4 * (80 + 72 - (4 - pi)) - 1.5 * 10 * 7;
  EXPECT_NEAR((volume_of(plate) - volume_of(sample_plate())) / mm3, 4 * ear_mm3, 1e-6);
  EXPECT_NEAR(plate.overall_width() / mm, 134 + 24, 1e-12);
  // The strap's room is open in front, the neck behind it is whole, the head reaches its end.
  const Solid solid = solid_of(plate);
  const auto filled = [&](Point3 low, Point3 high) {
    const Solid probe = box(low, high);
    return common_volume(probe, solid) / volume_of(probe);
  };
  EXPECT_NEAR(filled({68 * mm, 16 * mm, 0.1 * mm}, {74 * mm, 24 * mm, 1.4 * mm}), 0, 1e-9);
  EXPECT_NEAR(filled({-74 * mm, -24 * mm, 1.6 * mm}, {-68 * mm, -16 * mm, 3.9 * mm}), 1, 1e-9);
  EXPECT_NEAR(filled({75.1 * mm, 13 * mm, 0.1 * mm}, {78.9 * mm, 27 * mm, 3.9 * mm}), 1, 1e-9);
}

// With almost no smallest wall everything is built that doesn't overlap or touch.
TEST(BackPlate, RandomOnesOfRoundNumbersAreWellMade) {
  expect_random_plates_well_made(2, 0.5 * mm, smallest_detail);
}

}  // namespace
}  // namespace backfit
