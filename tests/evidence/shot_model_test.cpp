// SPDX-License-Identifier: MIT
#include "evidence/shot_model.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace backfit {
namespace {

std::vector<TraceCell> samples(int count) {
  std::vector<TraceCell> cells;
  cells.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) cells.push_back({static_cast<double>(i), 1, 0});
  return cells;
}

// A shot of `total` samples from sample 100 on.
ShotModel shot(double total, double width, double power) {
  ShotModel m;
  m.opening = {0, width, power};
  m.closing = m.opening;
  m.opening.half = 100 + m.opening.dark_to_half();
  m.closing.half = 100 + total - m.closing.dark_to_half();
  return m;
}

// Truth: figures computed apart from this program: behind a corner of 20 Hz a level is down to 14 %
// after 1/64 s, behind 5 Hz to 2 % after 1/8 s. Half of the last digits.
TEST(ShotModel, DroopsAsACouplingDoes) {
  const double rate = 48000;
  for (const auto& [corner, after, left] :
       {std::tuple(20.0, 1.0 / 64, 0.14), {5.0, 1.0 / 8, 0.02}}) {
    ShotModel m = shot(2 * after * rate, 1, 1);
    m.corner = 2 * std::numbers::pi * corner / rate;
    const auto cells = samples(static_cast<int>(100 + 2 * after * rate) + 10);
    std::vector<CellAnswer> out;
    answer(m, cells, out);
    EXPECT_NEAR(out[static_cast<std::size_t>(100 + after * rate)].sample, left, 0.005);
    // What the light has gained while the level drooped comes back below dark.
    EXPECT_LT(out[out.size() - 2].sample, -0.9);
  }
}

// Law: the area of the light is total less what the edges take, and a threshold of x reads
// total - x (d1 + d2) of a trapezoid.
TEST(ShotModel, HasTheAreaAndTheThresholdsOfItsEdges) {
  for (const double power : {0.7, 1.0, 2.0, 3.1}) {
    const ShotModel m = shot(400, 80, power);
    const auto cells = samples(700);
    std::vector<CellAnswer> out;
    answer(m, cells, out);
    double area = 0;
    int above = 0;
    for (const CellAnswer& a : out) {
      area += a.light;
      above += a.light > 0.2 ? 1 : 0;
    }
    EXPECT_NEAR(area, 400 - 2 * m.opening.lost(), 1e-9);
    EXPECT_NEAR(above, 400 - 2 * 80 * std::pow(0.2, 1 / power), 1.5);
    EXPECT_NEAR(m.last_light() - m.first_light(), 400, 1e-9);
  }
}

// Law: long cells answer with the mean of the short ones.
TEST(ShotModel, AnswersLongCellsWithTheirMean) {
  ShotModel m = shot(400, 40, 1);
  m.corner = 1e-4;
  m.level = 3;
  m.base = 0.2;
  m.drift = 1e-3;
  const auto fine = samples(800);
  std::vector<TraceCell> coarse;
  for (int i = 0; i < 800; i += 20) coarse.push_back({static_cast<double>(i), 20, 0});
  std::vector<CellAnswer> a, b;
  answer(m, fine, a);
  answer(m, coarse, b);
  for (std::size_t i = 0; i < b.size(); ++i) {
    double mean = 0;
    for (std::size_t k = 0; k < 20; ++k) mean += a[20 * i + k].sample / 20;
    // Where the light changes over a long cell, the coupling takes it as even: 1e-4 of the level.
    EXPECT_NEAR(b[i].sample, mean, 3e-4) << i;
  }
}

// Law: a sensor's lag moves both edges alike: the area stays.
TEST(ShotModel, KeepsTheAreaThroughASlowSensor) {
  ShotModel m = shot(400, 40, 2);
  m.sensor_lag = 9;
  const auto cells = samples(1200);
  std::vector<CellAnswer> out;
  answer(m, cells, out);
  double area = 0, first = 0;
  for (std::size_t i = 0; i < out.size(); ++i) {
    area += out[i].light;
    first += out[i].light * (static_cast<double>(i) + 0.5);
  }
  EXPECT_NEAR(area, 400 - 2 * m.opening.lost(), 1e-9);
  EXPECT_NEAR(first / area, 100 + 200 + 9, 0.01);
}

}  // namespace
}  // namespace backfit
