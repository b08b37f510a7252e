// SPDX-License-Identifier: MIT
#include "transport/section.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "quantity/random.hpp"

namespace backfit {
namespace {

SectionPoint drawn(Random& random) {
  return {(20 * random.unit() - 10) * mm, (20 * random.unit() - 10) * mm};
}

// Law: no two points of the strands lie nearer than their distance, and some lie as near.
// Tolerance: the step of 400 samples along at most 28 mm.
TEST(Distance, OfStrandsIsTheLeastOverTheirPoints) {
  Random random(2);
  for (int i = 0; i < 100; ++i) {
    const Strand a{drawn(random), drawn(random)};
    const Strand b{drawn(random), drawn(random)};
    Length least = 100 * mm;
    for (int k = 0; k <= 400; ++k) {
      least = std::min(least, distance(a.from + (k / 400.0) * (a.to - a.from), b));
    }
    EXPECT_GE(least / mm, distance(a, b) / mm - 1e-12);
    EXPECT_LE(least / mm, distance(a, b) / mm + 0.04);
  }
}

TEST(Gap, OfARegionIsPositiveOutsideAndNegativeInside) {
  const Region wall = box("wall", {0 * mm, 0 * mm}, {10 * mm, 4 * mm});
  EXPECT_NEAR(gap(wall, SectionPoint{13 * mm, 8 * mm}) / mm, 5, 1e-12);
  EXPECT_NEAR(gap(wall, SectionPoint{5 * mm, -2 * mm}) / mm, 2, 1e-12);
  EXPECT_NEAR(gap(wall, SectionPoint{5 * mm, 1 * mm}) / mm, -1, 1e-12);
  EXPECT_NEAR(gap(wall, Disc{{13 * mm, 8 * mm}, 2 * mm}) / mm, 3, 1e-12);
  EXPECT_NEAR(gap(wall, Strand{{12 * mm, -5 * mm}, {12 * mm, 9 * mm}}) / mm, 2, 1e-12);
  EXPECT_NEAR(gap(wall, Strand{{-5 * mm, 3 * mm}, {15 * mm, 3 * mm}}) / mm, -1, 1e-12);
  EXPECT_NEAR(gap(Disc{{0 * mm, 0 * mm}, 2 * mm}, Disc{{3 * mm, 4 * mm}, 1 * mm}) / mm, 2, 1e-12);
}

// Law: a strand's gap to a region is the least of its points' gaps where it stays outside.
TEST(Gap, OfAStrandIsTheLeastOverItsPoints) {
  Random random(3);
  const Region cone{"cone",
                    {{-3 * mm, 0 * mm}, {-1 * mm, -6 * mm}, {1 * mm, -6 * mm}, {3 * mm, 0 * mm}}};
  int apart = 0;
  for (int i = 0; i < 400; ++i) {
    const Strand s{drawn(random), drawn(random)};
    Length least = 100 * mm;
    for (int k = 0; k <= 400; ++k) {
      least = std::min(least, gap(cone, s.from + (k / 400.0) * (s.to - s.from)));
    }
    if (gap(cone, s) > Length{}) {
      ++apart;
      EXPECT_NEAR(least / mm, gap(cone, s) / mm, 0.08);
    } else {
      EXPECT_LE(least / mm, 0.08);
    }
  }
  EXPECT_GT(apart, 100);
}

}  // namespace
}  // namespace backfit
