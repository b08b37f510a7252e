// SPDX-License-Identifier: MIT
#include "lighttrap/walk.hpp"

#include <gtest/gtest.h>

#include <string>

#include "lighttrap/transmission.hpp"
#include "profiles.hpp"

namespace backfit {
namespace {

using namespace profiles;

// Law: walks and balance, which share no solution, agree on any gap. 3.9 standard errors: one
// false alarm in ten thousand; 1 % for the balance's own error.
TEST(Walks, AgreeWithTheBalanceOnRandomGaps) {
  Random random(11);
  for (int i = 0; i < 10; ++i) {
    const GapProfile p = some_profile(random);
    const Wall wall{0.03 + 0.3 * random.unit()};
    const TallyResult walks = GapWalks(p, wall).through(20000, 3);
    const double through = transmission(p, wall).through;
    EXPECT_TRUE(walks.interval) << i << ' ' << walks.standard_error / walks.mean;
    EXPECT_NEAR(walks.mean, through, 3.9 * walks.standard_error + 0.01 * through) << i;
  }
}

// Truth: a tongue and groove, by two other solvers: 6.91e-11 at 10 %, 3.12e-12 at 5 %.
TEST(Walks, FindOneInAMillionMillion) {
  const GapProfile p = profile({2, 5, 2, 5, 2}, "LRRL");
  for (const auto& [reflectance, known] : {std::pair{0.10, 6.91e-11}, {0.05, 3.12e-12}}) {
    const TallyResult walks = GapWalks(p, {reflectance}).through(40000, 5);
    ASSERT_TRUE(walks.interval);
    EXPECT_NEAR(walks.mean, known, 3.9 * walks.standard_error + 0.01 * known);
    EXPECT_LT(walks.standard_error, 0.1 * known);
  }
}

// Law: what the walks are told about the way costs time, not truth.
TEST(Walks, FindTheSameWhenMisled) {
  const GapProfile p = profile({1, 3, 1}, "LR");
  const double through = transmission(p, {0.1}).through;
  for (const double distortion : {1.0, 3.0, 10.0}) {
    const TallyResult walks = GapWalks(p, {0.1}, distortion).through(40000);
    EXPECT_NEAR(walks.mean, through, 3.9 * walks.standard_error + 2e-3 * through) << distortion;
  }
}

// Law: the same holds for walls that also mirror.
TEST(Walks, AgreeOnGlossyWalls) {
  for (const GapProfile& p :
       {profile({4}, ""), profile({0.2, 0.2, 0.2}, "LR"), profile({0.5, 1}, "R")}) {
    const Wall wall{0.05, 1.5};
    const TallyResult walks = GapWalks(p, wall).through(40000, 2);
    const Transmission t = transmission(p, wall);
    EXPECT_NEAR(walks.mean, t.through, 3.9 * std::hypot(walks.standard_error, t.mesh_error));
    EXPECT_LT(walks.standard_error, 0.1 * walks.mean);
  }
}

// Law: a history's random numbers are its own.
TEST(Walks, RepeatToTheLastBit) {
  const GapProfile p = profile({2, 3}, "L");
  const TallyResult one = GapWalks(p, {0.05}).through(3000, 9);
  const TallyResult two = GapWalks(p, {0.05}).through(3000, 9);
  EXPECT_EQ(one.mean, two.mean);
  EXPECT_EQ(one.standard_error, two.standard_error);
  EXPECT_NE(one.mean, GapWalks(p, {0.05}).through(3000, 10).mean);
}

// Law: the stated 95 % interval holds the truth in 92 to 98 of 100 runs (of 400: two and a half
// standard deviations of a binomial), at a part in a million, in a thousand million and in a
// million million; the balance's fine solution is the truth. Runs without an interval are few.
TEST(Walks, StateHonestIntervals) {
  for (const auto& [p, reflectance] : {std::pair{profile({3, 3, 3}, "LR"), 0.05},
                                       {profile({3, 4, 3, 2}, "LRL"), 0.03},
                                       {profile({2, 5, 2, 5, 2}, "LRRL"), 0.043}}) {
    const double through = transmission(p, {reflectance}).through;
    const GapWalks walks_of(p, {reflectance});
    int held = 0, stated = 0;
    for (std::uint64_t seed = 1; seed <= 400; ++seed) {
      const TallyResult walks = walks_of.through(2000, seed);
      if (!walks.interval) continue;
      ++stated;
      held += walks.interval->low <= through && through <= walks.interval->high;
    }
    EXPECT_GT(stated, 360) << through;
    EXPECT_GE(held, 0.92 * stated) << through << ' ' << held << '/' << stated;
    EXPECT_LE(held, 0.98 * stated) << through << ' ' << held << '/' << stated;
  }
}

// Law: scores that are mostly nothing with one giant have no interval, and say why; equal ones do.
TEST(Tally, RefusesAnIntervalThatOneHistoryCarries) {
  Tally tally;
  for (int i = 0; i < 10000; ++i) tally.add(1);
  ASSERT_TRUE(tally.result().interval);
  EXPECT_EQ(tally.result().effective_histories, 10000);
  tally.add(5000);
  const TallyResult r = tally.result();
  EXPECT_FALSE(r.interval);
  EXPECT_NEAR(r.largest_share, 1.0 / 3, 1e-3);
  EXPECT_GT(r.variance_of_variance, 0.9);
}

// Law: tallies joined are the tally of all.
TEST(Tally, IsTheSumOfItsParts) {
  Random random(4);
  Tally all, one, two;
  for (int i = 0; i < 1000; ++i) {
    const double score = random.unit() < 0.9 ? 0 : random.unit();
    all.add(score);
    (i < 500 ? one : two).add(score);
  }
  one.add(two);
  EXPECT_NEAR(one.result().standard_error / all.result().standard_error, 1, 1e-12);
  EXPECT_NEAR(one.result().variance_of_variance / all.result().variance_of_variance, 1, 1e-9);
}

}  // namespace
}  // namespace backfit
