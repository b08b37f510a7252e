// SPDX-License-Identifier: MIT
#include "optics/image_quality.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "lenses.hpp"
#include "optics/beam.hpp"
#include "optics/paraxial.hpp"

namespace backfit {
namespace {

constexpr Length green = 550 * nm;

LensModel triplet(Length stop_radius = 4.85 * mm) {
  return stopped_to(model_of(lenses::slow_triplet(), line_d), stop_radius);
}

// Cross-check, not a truth: real chief rays of the f/8 triplet on its paraxial focal plane, worked
// out by a second program; printed to 1e-6 mm.
TEST(FieldAt, FindsTheChiefRayThatLandsThere) {
  const LensModel lens = triplet();
  const Length plane = first_order(lens)->back_focal;
  for (const auto& [field_deg, height_mm] :
       {std::pair{10.0, 17.614517}, {16.38, 29.366084}, {23.4, 43.277138}}) {
    const auto field = field_at(lens, unlimited, plane, height_mm * mm);
    ASSERT_TRUE(field);
    EXPECT_NEAR(*field / deg, field_deg, 2e-6);
  }
  EXPECT_NEAR(*field_at(lens, unlimited, plane, Length{}) / deg, 0, 1e-5);
  EXPECT_FALSE(field_at(lens, unlimited, plane, 10'000 * mm));
}

// Law: each point of the frame counts by its ring. Of points on the axis and at a height h, the
// middle keeps the disc of half that radius, a quarter of the area.
TEST(ImageQuality, WeighsThePointsOfAFlatFilmByTheirRings) {
  const LensModel lens = triplet();
  const Length plane = first_order(lens)->back_focal;
  const std::array fields{12 * deg, 0 * deg};
  const ImageQuality s = image_quality_of(lens, line_d, unlimited, plane, fields, {}, {});
  const std::array spots{*spot_of(lens, {12 * deg}, plane), *spot_of(lens, {0 * deg}, plane)};
  const std::array shares{0.75, 0.25};
  EXPECT_NEAR(*s.best_flat_film / mm, best_shift(spots, shares) / mm, 1e-12);
  const std::array middle{0 * deg};
  EXPECT_NEAR(*image_quality_of(lens, line_d, unlimited, plane, middle, {}, {}).best_flat_film / mm,
              best_shift(spots[1]) / mm, 1e-12);
}

// Law: on the axis of a round lens sagittal and tangential lines are alike; film shifted either way
// from the best plane loses contrast; the contrast that waves leave tends to that of rays for
// coarse patterns.
TEST(ImageQuality, FallsOffEitherSideOfTheBestPlane) {
  const LensModel lens = triplet();
  const Length plane = first_order(lens)->back_focal;
  const std::array fields{0 * deg};
  const Length best =
      *image_quality_of(lens, green, unlimited, plane, fields, {}, {}).best_flat_film;
  const ImageQuality s =
      image_quality_of(lens, green, unlimited, plane + best, fields,
                       {1 * lp_per_mm, 10 * lp_per_mm}, {-0.6 * mm, Length{}, 0.6 * mm});
  const ImageQuality::Light& light = *s.points[0].light;
  for (std::size_t shift = 0; shift < 3; ++shift) {
    for (std::size_t i = 0; i < 2; ++i) {
      const auto c = s.at(light.by_waves, shift, i);
      EXPECT_NEAR(c.sagittal, c.tangential, 1e-3);
    }
    EXPECT_NEAR(s.at(light.by_waves, shift, 0).sagittal, s.at(light.by_rays, shift, 0).sagittal,
                0.01);
    EXPECT_LE(s.at(light.by_waves, shift, 1).sagittal, s.at(light.by_waves, 1, 1).sagittal);
  }
}

TEST(ImageQuality, LeavesPointsWithoutLightEmpty) {
  const LensModel lens = triplet();
  const std::array fields{0 * deg, 85 * deg};
  const ImageQuality s =
      image_quality_of(lens, line_d, unlimited, 85 * mm, fields, {5 * lp_per_mm}, {Length{}});
  EXPECT_TRUE(s.points[0].light);
  EXPECT_FALSE(s.points[1].light);
  EXPECT_TRUE(s.best_flat_film);
}

}  // namespace
}  // namespace backfit
