// SPDX-License-Identifier: MIT
#include "timer/spread.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace backfit {
namespace {

TimerFit from_circuit(Measured<Capacitance> c) {
  TimerKnowledge known;
  known.fixed = exactly(Time{});
  known.capacitance = c;
  known.threshold = exactly(0.5);
  return *fitted({}, known);
}

ResistorSwitch one_resistor(const TimerFit& fit, Resistance r) {
  return {{r}, {{*open_time(fit.law, r), Joint::series, {0}}}};
}

Band per_cent(double p) { return {{-std::log2(1 - p / 100)}, {std::log2(1 + p / 100)}}; }

// Truth: exact integrals of the product of two evenly spread factors, worked out apart from this
// program: R within 5 % and C within 10 %, product within 5, 8, 10 and 12 %; R within 1 %, within
// 5 %. Tolerance: four standard deviations of 100,000 draws.
TEST(SpreadOf, HasTheYieldOfAProduct) {
  const TimerFit fit = from_circuit({1 * uF, 0.1 * uF});
  const ResistorSwitch design = one_resistor(fit, 10 * kohm);
  const struct {
    double tolerance, band, yield;
  } rows[] = {{0.05, 5, 0.49982},
              {0.05, 8, 0.75500},
              {0.05, 10, 0.87526},
              {0.05, 12, 0.95511},
              {0.01, 5, 0.50002}};
  for (const auto& row : rows) {
    const SwitchSpread s = spread_of(design, fit, row.tolerance, per_cent(row.band), 100'000);
    EXPECT_NEAR(s.all, row.yield, 4 * std::sqrt(row.yield * (1 - row.yield) / 1e5));
    EXPECT_EQ(s.positions[0].yield, s.all);
  }
  // Standard deviation of the product, first order, worked out apart from this program: 6.455 %.
  EXPECT_NEAR(
      spread_of(design, fit, 0.05, per_cent(10), 10).positions[0].standard_uncertainty.value,
      0.06455 / std::log(2), 1e-5);
}

// Truth: worst case of 5 % and 10 %: +15.5 %, -14.5 %; worked out apart from this program. The
// circuit's C is taken to the ends of a 95 % interval: exact here, so that the parts stand alone.
TEST(SpreadOf, TakesPartsToTheirWorst) {
  const TimerFit fit = from_circuit(exactly(1 * uF));
  const SwitchSpread s = spread_of(one_resistor(fit, 10 * kohm), fit, 0.155, per_cent(10), 10);
  EXPECT_NEAR(s.positions[0].worst_over.value, std::log2(1.155), 1e-6);
  EXPECT_NEAR(s.positions[0].worst_under.value, std::log2(0.845), 1e-6);
  EXPECT_NEAR(s.positions[0].error.value, 0, 1e-12);
}

// Law: the parts' tolerance shows the less, the more of the time is fixed; and in a chain the less,
// the more links share it.
TEST(SpreadOf, AveragesOverTheLinksOfAChain) {
  const TimerFit fit = from_circuit(exactly(1 * uF));
  ResistorSwitch chain{std::vector<Resistance>(4, 10 * kohm), {}};
  chain.positions.push_back({7 * ms, Joint::series, {0}});
  chain.positions.push_back({28 * ms, Joint::series, {0, 1, 2, 3}});
  const SwitchSpread s = spread_of(chain, fit, 0.05, per_cent(10), 10);
  EXPECT_NEAR(s.positions[0].standard_uncertainty.value / s.positions[1].standard_uncertainty.value,
              2, 1e-4);
}

// Law: the yield by draws is the normal probability of the first-order spread, where a law known
// to a few per cent rules. Tolerance: four standard deviations, and what an even part adds.
TEST(SpreadOf, AgreesWithTheNormalLaw) {
  const std::vector<Trial> trials{{exactly(10 * kohm), {{10 * ms, 0.5 * ms}}},
                                  {exactly(100 * kohm), {{73 * ms, 4 * ms}}}};
  const TimerFit fit = *fitted(trials, {});
  const ResistorSwitch design = one_resistor(fit, 40 * kohm);
  const Band band{{0.06}, {0.06}};
  const SwitchSpread s = spread_of(design, fit, 0.001, band, 100'000);
  const double z = 0.06 / s.positions[0].standard_uncertainty.value;
  EXPECT_NEAR(s.all, std::erf(z / std::sqrt(2)), 0.008);
}

// Truth: worked out apart from this program: a normal spread of ln t of 10 % lies within a third of
// a stop with 97.91 %. Here one well-known trial whose time rules. Tolerance: four standard
// deviations of the draws, and what the exponential adds to a straight line.
TEST(SpreadOf, HoldsAThirdOfAStopByTenPerCent) {
  TimerKnowledge known;
  known.fixed = exactly(Time{});
  const std::vector<Trial> trials{{exactly(10 * kohm), {{10 * ms, std::sqrt(3) * 0.1 * 10 * ms}}}};
  const TimerFit fit = *fitted(trials, known);
  const SwitchSpread s =
      spread_of(one_resistor(fit, 10 * kohm), fit, 0, {{1.0 / 3}, {1.0 / 3}}, 100'000);
  EXPECT_NEAR(s.positions[0].standard_uncertainty.value, 0.1 / std::log(2), 1e-3);
  EXPECT_NEAR(s.all, 0.9791, 4 * std::sqrt(0.9791 * 0.0209 / 1e5) + 0.005);
}

// Law: whatever lies in the range can be set, with the worst of both parts.
TEST(TrimmerOver, ReachesTheWholeRange) {
  const std::vector<StockItem> stock{{1 * kohm}, {10 * kohm}, {22 * kohm}, {33 * kohm}};
  for (int i = 0; i < 36; ++i) {
    for (int j = 0; j < 9; ++j) {
      const double low = 1.7 * i, wide = 0.05 * std::pow(2.3, j);
      const Trimmer t = trimmer_over(low * kohm, (low + wide) * kohm, stock, 0.05);
      const Resistance fixed = t.fixed.value_or(Resistance{});
      EXPECT_LE(1.05 * fixed, low * kohm);
      EXPECT_GE(0.95 * fixed + 0.8 * t.trimmer, (low + wide) * kohm * (1 - 1e-9));
    }
  }
}

TEST(ResistanceRange, HoldsTheNominalResistor) {
  const TimerFit fit = from_circuit({1 * uF, 0.1 * uF});
  const auto range = resistance_range(fit, 10 * ms);
  const Resistance nominal = *resistor_for(fit.law, 10 * ms);
  ASSERT_TRUE(range);
  EXPECT_LT(range->least, nominal);
  EXPECT_GT(range->most, nominal);
}

}  // namespace
}  // namespace backfit
