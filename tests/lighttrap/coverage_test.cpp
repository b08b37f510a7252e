// SPDX-License-Identifier: MIT
// How often the stated interval holds, run after run, at rare events.
#include <gtest/gtest.h>

#include <cmath>

#include "lighttrap/leak.hpp"
#include "lighttrap/transmission.hpp"
#include "profiles.hpp"
#include "surfaces.hpp"

namespace backfit {
namespace {

using namespace profiles;
using namespace surfaces;

// Law: a 95 % interval holds the truth in 95 of a hundred runs: in 92 to 98 % of 200 here, two
// standard errors of such a count. The truth is the section's own balance, to a thousandth; it
// shares nothing with walks in space but the question. Runs that say that they have not converged
// state no interval; most must state one, for where few do those few are the flattered ones (at
// 1e-12 with a third of the walks 61 % stated one, and 89 % of them held).
TEST(Coverage, OfWalksInSpaceIsAsStated) {
  struct Row {
    GapProfile profile;
    double reflectance;
    std::size_t histories;
    double size;  // about
  };
  for (const Row& row : {Row{profile({2, 2, 2}, "LR"), 0.05, 3000, 1e-6},
                         Row{profile({2, 4, 2, 2}, "LRL"), 0.05, 8000, 1e-9},
                         Row{profile({2, 5, 2, 5, 2}, "LRRL"), 0.05, 24000, 1e-12}}) {
    const Wall wall{row.reflectance};
    const double truth = transmission(row.profile, wall).through;
    const Built b = seam(row.profile, 3, {wall, false});
    const LeakWalks walks(b.surfaces, b.film, 2);
    int stated = 0, held = 0;
    constexpr int runs = 200;
    for (int run = 0; run < runs; ++run) {
      const TallyResult t =
          walks.light(row.histories, 2, 1000 + static_cast<std::uint64_t>(run)).front();
      if (!t.interval) continue;
      ++stated;
      if (t.interval->low <= truth && truth <= t.interval->high) ++held;
    }
    EXPECT_GT(truth, row.size / 10);
    EXPECT_LT(truth, row.size * 10);
    EXPECT_GE(stated, runs * 3 / 4) << truth;
    EXPECT_GE(held, 0.92 * stated) << truth;
    EXPECT_LE(held, 0.98 * stated) << truth;
  }
}

// Truth, by hand: splitting that always kills the last of N particles and lets another take its
// place reaches a level of chance p after a number J of kills that is Poisson's with the mean
// -N ln p. E[a^J] = exp(mean (a - 1)), so (1 - 1/N)^J has the mean p and, with a = (1 - 1/N)^2, the
// relative standard deviation sqrt(p^(-1/N) - 1): 0.384907 for p = 1e-6 and N = 100, 0.117947 for
// N = 1000. The tally must say so: 5 % for 4000 runs.
TEST(Coverage, OfIdealSplittingIsTheTheorys) {
  constexpr double p = 1e-6;
  for (const auto& [particles, spread] : {std::pair{100, 0.384907}, {1000, 0.117947}}) {
    Random random(static_cast<std::uint64_t>(particles));
    Tally tally;
    constexpr int runs = 4000;
    for (int run = 0; run < runs; ++run) {
      // Levels by -ln of their chance: the lowest of N lies an exponential of mean 1/N above the
      // one killed before.
      double level = 0, kept = 1;
      for (;;) {
        level -= std::log(random.unit()) / particles;
        if (level > -std::log(p)) break;
        kept *= 1 - 1.0 / particles;
      }
      tally.add(kept);
    }
    const TallyResult t = tally.result();
    EXPECT_NEAR(t.standard_error * std::sqrt(runs) / t.mean, spread, 0.05 * spread);
    EXPECT_NEAR(t.mean, p, 3.9 * t.standard_error);
    ASSERT_TRUE(t.interval);
    EXPECT_LT(t.interval->low, t.mean);
  }
}

}  // namespace
}  // namespace backfit
