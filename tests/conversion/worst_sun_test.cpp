// SPDX-License-Identifier: MIT
#include "conversion/worst_sun.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "conversion/leak_back.hpp"
#include "conversion/leak_study.hpp"
#include "example.hpp"

namespace backfit {
namespace {

// Seen from behind: its width to the right, its height down.
FilmPlane film() {
  return {{-20 * mm, 30 * mm, 0 * mm}, {40 * mm, {}, {}}, {{}, -60 * mm, {}}, 1, 1};
}
const SpacePoint left_below{-2 * mm, -1 * mm, -1 * mm};

void expect_towards(const SpacePoint& p, double x, double y, double z) {
  EXPECT_NEAR(p.x / mm, x, 1e-12);
  EXPECT_NEAR(p.y / mm, y, 1e-12);
  EXPECT_NEAR(p.z / mm, z, 1e-12);
}

// Law: what noise alone tells apart is named in one order, whichever of it was found.
TEST(WorstSun, IsTheFirstOfThoseThatDoAlike) {
  const double l = std::sqrt(6.0);
  for (const double side : {1.0, -1.0}) {
    for (const double height : {1.0, -1.0}) {
      const WorstSun worst = worst_sun({side * left_below.x, height * left_below.y, left_below.z},
                                       film(), [](const SpacePoint& d) {
                                         return SunLight{d.x > Length{} ? 9.9 : 10, 0.2};
                                       });
      expect_towards(worst.towards, 2 / l, 1 / l, -1 / l);
      EXPECT_EQ(worst.alike, 3U);
    }
  }
}

TEST(WorstSun, IsTheOneFoundWhereTheOthersAreLess) {
  const double l = std::sqrt(6.0);
  const WorstSun worst = worst_sun(left_below, film(), [](const SpacePoint& d) {
    return SunLight{d.x < Length{} && d.y < Length{} ? 10.0 : 9.0, 0.2};
  });
  expect_towards(worst.towards, -2 / l, -1 / l, -1 / l);
  EXPECT_EQ(worst.alike, 0U);
}

// One that is its own image is asked for once; images a few degrees apart are no others.
TEST(WorstSun, OfItsOwnImageIsAlone) {
  int asked = 0;
  const auto light = [&asked](const SpacePoint&) { return SunLight{double(++asked), 100}; };
  EXPECT_EQ(worst_sun({{}, {}, -3 * mm}, film(), light).alike, 0U);
  EXPECT_EQ(asked, 1);
  EXPECT_EQ(worst_sun({0.1 * mm, {}, -3 * mm}, film(), light).alike, 0U);
  EXPECT_EQ(asked, 3);
}

// The demo's back is alike above and below: whatever the walks' numbers, one of both is named.
TEST(WorstSun, OfTheDemosBackDoesNotDependOnTheWalks) {
  const Assembly a = example_assembly("kestrel", "kestrel-4x5.conversion.toml");
  LeakWatch watch;
  watch.threads = 2;
  for (const std::uint64_t seed : {1U, 2U, 3U, 4U}) {
    LeakQuestions asked;
    asked.seed = seed;
    const LeakStudy s = *leak_study(seam_scene(a, {}, 1, 1), asked, {}, watch);
    EXPECT_GT(s.towards.y, 0.9 * mm) << seed;
    EXPECT_EQ(s.suns_alike, 1U) << seed;
  }
}

}  // namespace
}  // namespace backfit
