// SPDX-License-Identifier: MIT
#include "solid/kernel_watch.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "solid/solid.hpp"

namespace backfit {
namespace {

Solid plate() { return box({-50 * mm, -50 * mm, 0 * mm}, {50 * mm, 50 * mm, 5 * mm}); }

std::vector<Solid> drills() {
  std::vector<Solid> all;
  for (int i = -4; i <= 4; ++i) {
    all.push_back(translated(cylinder(3 * mm, -1 * mm, 6 * mm), {i * 10 * mm, 0 * mm, 0 * mm}));
  }
  return all;
}

TEST(KernelWatch, StopsWhatItIsToldTo) {
  const KernelWatch watch([] { return false; });
  EXPECT_THROW(plate(), SolidStopped);
}

// Law: a body made under watch is the same body, and asking goes on while it is made: what lets the
// making end soon.
TEST(KernelWatch, AsksWithinAndChangesNothing) {
  const Solid body = plate();
  const std::vector<Solid> cutters = drills();
  const Volume alone = volume_of(difference_of(body, cutters));
  int asked = 0;
  const KernelWatch watch([&asked] { return ++asked > 0; });
  const Solid watched = difference_of(body, cutters);
  EXPECT_GT(asked, 20);
  EXPECT_EQ(volume_of(watched), alone);
}

TEST(KernelWatch, StopsWithinACut) {
  const Solid body = plate();
  const std::vector<Solid> cutters = drills();
  int asked = 0;
  {
    const KernelWatch watch([&asked] { return ++asked < 10; });
    EXPECT_THROW(difference_of(body, cutters), SolidStopped);
  }
  EXPECT_LT(asked, 40);  // the kernel asks a few times more on its way out
  EXPECT_NO_THROW(difference_of(body, cutters));
}

TEST(KernelWatch, GivesWayToALaterOneForAsLongAsThatLives) {
  const KernelWatch open([] { return true; });
  {
    const KernelWatch shut([] { return false; });
    EXPECT_THROW(plate(), SolidStopped);
  }
  EXPECT_NO_THROW(plate());
}

}  // namespace
}  // namespace backfit
