// SPDX-License-Identifier: MIT
#include "parts/printing.hpp"

#include <gtest/gtest.h>

#include "sample_plate.hpp"

namespace backfit {
namespace {

TEST(Fits, ALengthwiseOrTurnedPart) {
  const Bounds part = {{-5 * mm, -10 * mm, 0 * mm}, {5 * mm, 10 * mm, 3 * mm}};
  EXPECT_TRUE(fits(part, {10 * mm, 20 * mm, 3 * mm}));  // exactly
  EXPECT_TRUE(fits(part, {20 * mm, 10 * mm, 3 * mm}));
  EXPECT_FALSE(fits(part, {19.99 * mm, 19.99 * mm, 3 * mm}));
  EXPECT_FALSE(fits(part, {20 * mm, 9.99 * mm, 3 * mm}));
  EXPECT_FALSE(fits(part, {20 * mm, 20 * mm, 2.99 * mm}));
}

TEST(Fits, ThePlateOnItsOwnOutline) {
  const Bounds plate = bounds_of(laid_on_rear_face(solid_of(sample_plate())));
  EXPECT_TRUE(fits(plate, {172 * mm, 134 * mm, 6.5 * mm}));
  EXPECT_FALSE(fits(plate, {171.9 * mm, 134 * mm, 6.5 * mm}));
}

TEST(LaidOnRearFace, PutsTheTongueUpAndTheRestOnTheBed) {
  const Solid plate = solid_of(sample_plate());
  const Solid laid = laid_on_rear_face(plate);
  const Bounds around = bounds_of(laid);
  EXPECT_NEAR(around.low.z / mm, 0, 1e-6);
  EXPECT_NEAR(around.high.z / mm, 6.5, 1e-6);
  EXPECT_NEAR((around.low.x + around.high.x) / mm, 0, 2e-6);
  EXPECT_NEAR((around.low.y + around.high.y) / mm, 0, 2e-6);
  EXPECT_NEAR(volume_of(laid) / volume_of(plate), 1, 1e-12);
  // The tongue alone reaches above the slab: cut away all below and it remains.
  const Solid above =
      difference_of(laid, {box({-70 * mm, -90 * mm, -1 * mm}, {70 * mm, 90 * mm, 4.5 * mm})});
  EXPECT_NEAR((bounds_of(above).high.x - bounds_of(above).low.x) / mm, 112, 1e-6);
}

// Truth: 1 cm3 of a material of 1.24 g/cm3 weighs 1.24 g, by the definition of density.
TEST(PrintedMass, IsDensityTimesVolume) {
  EXPECT_NEAR(printed_mass(1000 * mm3, 1.24 * gram_per_cm3) / gram, 1.24, 1e-12);
}

}  // namespace
}  // namespace backfit
