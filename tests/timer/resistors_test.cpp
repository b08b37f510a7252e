// SPDX-License-Identifier: MIT
#include "timer/resistors.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "timer/preferred.hpp"
#include "timer/speeds.hpp"

namespace backfit {
namespace {

std::vector<StockItem> shop(Series series, Resistance least, Resistance most) {
  std::vector<StockItem> stock;
  for (const Resistance r : preferred_resistors(series, least, most)) stock.push_back({r});
  return stock;
}

// A millisecond a kilohm, so that a time is a resistance.
const TimerLaw plain{{}, 1 * uF, 0.5, {}};

// Truth: the best of all pairs of six decades, worked out apart from this program; the digits
// given.
TEST(ResistorsEach, FindsTheBestPair) {
  const struct {
    double ohms;
    double first, second, per_cent;
    Series series;
    Joint joint;
  } rows[] = {{14427, 390e3, 15e3, 0.121, Series::e12, Joint::parallel},
              {14427, 390e3, 15e3, 0.121, Series::e24, Joint::parallel},
              {28854, 27e3, 1.8e3, -0.187, Series::e12, Joint::series},
              {28854, 750e3, 30e3, -0.027, Series::e24, Joint::parallel},
              {1803.4, 10e3, 2.2e3, -0.007, Series::e12, Joint::parallel}};
  for (const auto& row : rows) {
    const auto stock = shop(row.series, 10 * ohm, 910 * kohm);
    const std::vector<Time> wanted{row.ohms * us};
    const ResistorSwitch found = resistors_each(plain, wanted, stock, Stops{0});
    const Resistance total = total_of(found.positions[0], found.parts);
    EXPECT_NEAR(100 * (total / ohm / row.ohms - 1), row.per_cent, 5e-4);
    ASSERT_EQ(found.parts.size(), 2U);
    EXPECT_NEAR(found.parts[0] / ohm, row.first, 1e-6);
    EXPECT_NEAR(found.parts[1] / ohm, row.second, 1e-6);
    EXPECT_EQ(found.positions[0].joint, row.joint);
  }
}

// Law: no single value and no pair of the stock comes nearer than the one chosen.
TEST(ResistorsEach, LeavesNothingBetterInTheStock) {
  const TimerLaw law{3.3 * ms, 0.31 * uF, 0.6, 200 * Mohm};
  const auto stock = shop(Series::e12, 100 * ohm, 1 * Mohm);
  std::vector<Time> wanted;
  wanted.reserve(31);
  for (int i = 0; i < 31; ++i) wanted.push_back(4 * ms * std::pow(1.17, i));
  const auto error = [&](Resistance r, Time t) {
    return std::abs(stops_over(*open_time(law, r), t).value);
  };
  for (const bool two : {false, true}) {
    const ResistorSwitch found =
        resistors_each(law, wanted, stock, two ? std::optional(Stops{0.01}) : std::nullopt);
    for (const SwitchPosition& p : found.positions) {
      const double chosen = error(total_of(p, found.parts), p.wanted);
      // One part stays where two gain less than a hundredth of a stop.
      const double more = two && p.parts.size() == 1 ? 0.01 : 0;
      for (const StockItem& a : stock) {
        EXPECT_LE(chosen, error(a.value, p.wanted) + 1e-12);
        for (const StockItem& b : stock) {
          if (!two) break;
          EXPECT_LE(chosen, error(a.value + b.value, p.wanted) + more + 1e-12);
          EXPECT_LE(chosen, error(1 / (1 / a.value + 1 / b.value), p.wanted) + more + 1e-12);
        }
      }
    }
  }
}

TEST(ResistorsEach, KeepsToTheStockAndSaysWhenItIsOut) {
  const std::vector<StockItem> stock{{10 * kohm, 2}, {22 * kohm, 1}};
  const std::vector<Time> wanted{10 * ms, 11 * ms, 12 * ms, 13 * ms};
  const ResistorSwitch found = resistors_each(plain, wanted, stock);
  EXPECT_EQ(found.parts, (std::vector<Resistance>{10 * kohm, 10 * kohm, 22 * kohm}));
  EXPECT_TRUE(found.positions[3].parts.empty());
  const TimerLaw slow{20 * ms, 1 * uF, 0.5, {}};
  EXPECT_TRUE(
      resistors_each(slow, std::vector{10 * ms}, stock, Stops{0}).positions[0].parts.empty());
}

struct Worst {
  double worst = 0, squares = 0;
};
Worst judged(const TimerLaw& law, std::span<const Time> wanted,
             const std::vector<Resistance>& links) {
  Worst w;
  Resistance sum;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    sum += links[i];
    const double error = stops_over(*open_time(law, sum), wanted[i]).value;
    w.worst = std::max(w.worst, std::abs(error));
    w.squares += error * error;
  }
  return w;
}

// Law: the chain is as good as the best of all chains, found by trying every one.
TEST(ResistorChain, IsTheBestOfAll) {
  const auto stock = shop(Series::e12, 1 * kohm, 68 * kohm);
  ASSERT_EQ(stock.size(), 23U);
  for (const double fixed : {0.0, 2.0, 3.5}) {
    for (const double start : {4.0, 4.7, 5.3}) {
      const TimerLaw law{fixed * ms, 0.9 * uF, 0.5, 10 * Mohm};
      const std::vector<Time> wanted{start * ms, 2.1 * start * ms, 4 * start * ms,
                                     7.7 * start * ms};
      Worst best{1e9, 0};
      std::vector<Resistance> links(4);
      for (const auto& a : stock) {
        for (const auto& b : stock) {
          for (const auto& c : stock) {
            for (const auto& d : stock) {
              links = {a.value, b.value, c.value, d.value};
              const Worst w = judged(law, wanted, links);
              if (w.worst < best.worst) best = w;
            }
          }
        }
      }
      const auto chain = resistor_chain(law, wanted, stock);
      ASSERT_TRUE(chain);
      const Worst found = judged(law, wanted, chain->parts);
      EXPECT_NEAR(found.worst, best.worst, std::max(1e-4, 0.01 * best.worst));
      EXPECT_LE(found.squares, best.squares * 1.01 + 1e-8);
      for (const SwitchPosition& p : chain->positions) EXPECT_EQ(p.joint, Joint::series);
    }
  }
}

std::vector<Resistance> nearest_tap_by_tap(const TimerLaw& law, std::span<const Time> wanted,
                                           std::span<const StockItem> stock) {
  std::vector<Resistance> links;
  Resistance sum;
  for (const Time t : wanted) {
    const auto error = [&](const StockItem& item) {
      return std::abs(stops_over(*open_time(law, sum + item.value), t).value);
    };
    links.push_back(std::ranges::min_element(stock, {}, error)->value);
    sum += links.back();
  }
  return links;
}

// Law: the joint choice is never worse than taking the nearest link tap by tap. Often the first
// link decides how bad the worst tap is, and both are alike; but not always.
TEST(ResistorChain, BeatsTheNearestLinkTapByTap) {
  const auto stock = shop(Series::e24, 100 * ohm, 10 * Mohm);
  std::vector<Time> wanted;
  for (const Time t : usual_speeds()) wanted.push_back(meant_by(t));
  int better = 0;
  for (int i = 0; i < 29; ++i) {
    const TimerLaw law{1.2 * ms, 0.3 * std::pow(1.07, i) * uF, 0.5, {}};
    const auto chain = resistor_chain(law, wanted, stock);
    ASSERT_TRUE(chain);
    const double joint = judged(law, wanted, chain->parts).worst;
    const double greedy = judged(law, wanted, nearest_tap_by_tap(law, wanted, stock)).worst;
    EXPECT_LE(joint, greedy * 1.01);
    better += joint < 0.99 * greedy ? 1 : 0;
  }
  EXPECT_GT(better, 0);
}

TEST(ResistorChain, KeepsToTheStock) {
  const std::vector<StockItem> one_each{{10 * kohm, 1}, {12 * kohm, 1}};
  const std::vector<Time> wanted{10 * ms, 20 * ms};
  EXPECT_EQ(resistor_chain(plain, wanted, one_each)->parts,
            (std::vector<Resistance>{10 * kohm, 12 * kohm}));
  const std::vector<StockItem> two{{10 * kohm, 2}, {12 * kohm, 1}};
  EXPECT_EQ(resistor_chain(plain, wanted, two)->parts,
            (std::vector<Resistance>{10 * kohm, 10 * kohm}));
  EXPECT_FALSE(resistor_chain(plain, wanted, std::vector<StockItem>{{10 * kohm, 1}}));
  EXPECT_FALSE(resistor_chain(plain, wanted, std::vector<StockItem>{{1 * Mohm}}));
}

}  // namespace
}  // namespace backfit
