// SPDX-License-Identifier: MIT
#include "lighttrap/slab.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "quantity/random.hpp"

namespace backfit {
namespace {

// Truth: the two-flux equations solved apart: S 2 and K 1 per mm: 0.091437 at 1 mm, 0.0097565 at
// 2 mm; S and K 5: 1.6089e-4 and 2.789e-8; last digits.
TEST(Slab, IsKubelkaAndMunks) {
  EXPECT_NEAR(transmission({2, 1}, 1 * mm), 0.091437, 5e-7);
  EXPECT_NEAR(transmission({2, 1}, 2 * mm), 0.0097565, 5e-8);
  EXPECT_NEAR(transmission({5, 5}, 1 * mm), 1.6089e-4, 5e-9);
  EXPECT_NEAR(transmission({5, 5}, 2 * mm), 2.789e-8, 5e-12);
}

// Law: without absorption 1 / (1 + S x), without scattering the exponential, no slab passes all.
TEST(Slab, HasItsLimits) {
  EXPECT_NEAR(transmission({3, 0}, 2 * mm), 1.0 / 7, 1e-12);
  EXPECT_NEAR(transmission({3, 1e-13}, 2 * mm), 1.0 / 7, 1e-6);
  EXPECT_NEAR(transmission({0, 3}, 2 * mm), std::exp(-6), 1e-12);
  EXPECT_EQ(transmission({3, 4}, Length{}), 1);
}

// Law: readings of a slab give the slab back.
TEST(Slab, IsFoundByTwoReadings) {
  Random random(2);
  for (int i = 0; i < 50; ++i) {
    const Slab slab{8 * random.unit(), 4 * random.unit() + 1e-3};
    const Length thin = (0.3 + random.unit()) * mm, thick = thin + (0.2 + random.unit()) * mm;
    const auto read = [&](Length x) { return SlabReading{x, {-std::log2(transmission(slab, x))}}; };
    const auto found = slab_by({read(thick), read(thin)});
    ASSERT_TRUE(std::holds_alternative<Slab>(found)) << std::get<std::string>(found);
    const double there = transmission(std::get<Slab>(found), 4 * mm);
    EXPECT_NEAR(std::log2(there), std::log2(transmission(slab, 4 * mm)), 1e-3) << i;
  }
}

// Law: what readings leave in doubt is what readings scattered by their uncertainties give.
TEST(Slab, CarriesTheReadingsDoubtOn) {
  const Slab slab{20, 0.5};
  const auto read = [&](Length x) {
    return SlabReading{x, {-std::log2(transmission(slab, x))}, 0.01 * mm, {0.1}};
  };
  const std::array<SlabReading, 2> as_read{read(0.6 * mm), read(1.2 * mm)};
  for (const Length thickness : {0.9 * mm, 2.4 * mm}) {
    const SlabPass pass = pass_by(as_read, thickness);
    EXPECT_NEAR(pass.through / transmission(slab, thickness), 1, 1e-4);
    Random random(5);
    double sum = 0, squares = 0;
    int count = 0;
    for (int i = 0; i < 4000; ++i) {
      std::array<SlabReading, 2> r = as_read;
      for (SlabReading& one : r) {
        one.thickness += std::sqrt(3.0) * (2 * random.unit() - 1) * one.thickness_u;
        one.less.value += std::sqrt(3.0) * (2 * random.unit() - 1) * one.less_u.value;
      }
      const auto found = slab_by(r);
      if (!std::holds_alternative<Slab>(found)) continue;
      const double stops = -std::log2(transmission(std::get<Slab>(found), thickness));
      sum += stops;
      squares += stops * stops;
      ++count;
    }
    ASSERT_GT(count, 3900);
    const double mean = sum / count, u = std::sqrt(squares / count - mean * mean);
    // 4000 draws know a deviation to 1.1 %, and the slopes bend a little.
    EXPECT_NEAR(pass.u.value, u, 0.06 * u) << thickness / mm;
  }
}

// Law: black print hardly scatters, so a meter's doubt may read more of the thicker step than
// absorption makes; within that doubt absorption alone is taken, by the thinner step: the safe side.
TEST(Slab, OfBlackPrintIsTakenWithinTheMetersDoubt) {
  const std::array<SlabReading, 2> sharp{{{0.4 * mm, {5}}, {0.8 * mm, {10.2}}}};
  EXPECT_TRUE(std::holds_alternative<std::string>(slab_by(sharp)));
  std::array<SlabReading, 2> read = sharp;
  for (SlabReading& r : read) r.less_u = {0.1};
  const auto slab = slab_by(read);
  ASSERT_TRUE(std::holds_alternative<Slab>(slab)) << std::get<std::string>(slab);
  EXPECT_NEAR(-std::log2(transmission(std::get<Slab>(slab), 1.6 * mm)), 20, 0.01);
  EXPECT_GT(pass_by(read, 1.6 * mm).u.value, 0.1);
}

// Law: readings that no slab has are refused.
TEST(Slab, IsRefusedWhereNoneIs) {
  using Readings = std::array<SlabReading, 2>;
  for (const Readings& r :
       {Readings{{{1 * mm, {4}}, {1 * mm, {8}}}}, Readings{{{1 * mm, {4}}, {2 * mm, {9}}}},
        Readings{{{1 * mm, {4}}, {2 * mm, {4.5}}}}, Readings{{{1 * mm, {0}}, {2 * mm, {0}}}}}) {
    EXPECT_TRUE(std::holds_alternative<std::string>(slab_by(r)));
  }
}

}  // namespace
}  // namespace backfit
