// SPDX-License-Identifier: MIT
#include "parts/attachment_ring.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "piece_checks.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

AttachmentRing sample() {
  AttachmentRing r;
  r.name = "close-up lens";
  r.rim = 40.5 * mm;
  r.attachment = 46 * mm;
  r.rim_grip = 8 * mm;
  r.attachment_grip = 10 * mm;
  r.gap = 0.25 * mm;
  r.wall = 1.6 * mm;
  r.ledge = 1 * mm;
  r.slot = 2 * mm;
  r.light = 13 * mm;
  r.rim_front = -116 * mm;
  r.smallest_wall = 1.2 * mm;
  return r;
}

// Truth: by hand. Bores 46.5 over 10 and 41.0 over 8, opening 39.0 over 1.6, between them a cone
// 3.75 high; walls of 1.6; slots of 2 through both walls, 8.4 and 6.4 long, each a strip whose
// area by Simpson's rule over its width is 2 (sqrt(R^2 - y^2) - sqrt(r^2 - y^2)) on average.
TEST(AttachmentRing, VolumeIsThatOfItsCylinders) {
  const AttachmentRing r = sample();
  expect_no_faults(r);
  const auto disc = [](double diameter) { return pi / 4 * diameter * diameter; };
  const double cone = pi * 3.75 / 12 * (46.5 * 46.5 + 46.5 * 39 + 39 * 39);
  const auto strip = [](double outside, double bore) {
    const auto depth = [&](double y) {
      return std::sqrt(outside * outside / 4 - y * y) - std::sqrt(bore * bore / 4 - y * y);
    };
    return (2 * depth(1) + 4 * depth(0)) * 2 / 6;
  };
  const double expected = disc(49.7) * 15.35 + disc(44.2) * 8 - disc(46.5) * 10 - cone -
                          disc(39) * 1.6 - disc(41) * 8 - 4 * strip(49.7, 46.5) * 8.4 -
                          4 * strip(44.2, 41) * 6.4;
  EXPECT_NEAR(volume_of(r) / mm3, expected, 1e-4);  // Simpson's rule is off by its fourth order
  expect_well_made(solid_of(r), volume_of(r), "ring");
  expect_good_set(set_of(r));
}

// Law: rim and attachment, as cylinders of their diameters, go into their grips with the gap free
// and don't meet the ledge.
TEST(AttachmentRing, HoldsRimAndAttachment) {
  for (const bool swapped : {false, true}) {
    AttachmentRing r = sample();
    if (swapped) std::swap(r.rim, r.attachment);
    const Solid ring = set_of(r).pieces[0].in_place[0];
    // From a little behind what it lies against to near the end of its grip.
    const Solid rim = cylinder(r.rim, r.rim_front + 1 * mm, r.rim_front + 7 * mm);
    EXPECT_NEAR(common_volume(ring, rim) / mm3, 0, 1e-6) << swapped;
    EXPECT_NEAR(distance_between(ring, rim) / mm, 0.25, 1e-6) << swapped;
    const Bounds b = bounds_of(ring);
    EXPECT_GT(b.high.z / mm, r.rim_front / mm + 7) << swapped;
    const Solid attachment = cylinder(r.attachment, b.low.z, b.low.z + 7 * mm);
    EXPECT_NEAR(common_volume(ring, attachment) / mm3, 0, 1e-6) << swapped;
  }
}

TEST(AttachmentRing, SaysWhenItCutsTheLight) {
  AttachmentRing r = sample();
  r.light = 40 * mm;
  ASSERT_EQ(faults(r).size(), 1U);
  EXPECT_EQ(faults(r)[0].text, "the ring's opening is 39.00 mm; 40.00 mm is needed");
}

TEST(AttachmentRing, RandomOnesAreWellMade) {
  for (const double step : {0.0, 0.5}) {
    sweep(
        step > 0 ? 2 : 1, 150,
        [step](Random& random) {
          AttachmentRing r = sample();
          r.smallest_wall = between(random, 0.8, 1.8);
          r.wall = between(random, 1, 3, step);
          r.rim = between(random, 20, 90, step);
          r.attachment = random.unit() < 0.1 ? r.rim : between(random, 20, 90, step);
          r.rim_grip = between(random, 3, 15, step);
          r.attachment_grip = between(random, 3, 15, step);
          r.gap = between(random, 0.1, 0.4);
          r.ledge = between(random, 0.5, 3, step);
          r.slot = between(random, 1, 4, step);
          return r;
        },
        [](const AttachmentRing& r) { expect_well_made(solid_of(r), volume_of(r), "ring"); });
  }
}

}  // namespace
}  // namespace backfit
