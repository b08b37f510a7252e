// SPDX-License-Identifier: MIT
#include "evidence/shutter_clicks.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "quantity/random.hpp"

namespace backfit {
namespace {

constexpr double rate_hz = 44100;

// Quiet noise with a ringing click at each of `clicks_s`.
std::vector<float> sound(const std::vector<double>& clicks_s, double duration_s,
                         double noise = 1e-3) {
  Random random(7);
  std::vector<float> samples(static_cast<std::size_t>(duration_s * rate_hz));
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const double t = static_cast<double>(i) / rate_hz;
    double x = noise * random.normal();
    for (const double click : clicks_s) {
      if (t >= click) {
        x += 0.4 * std::exp(-(t - click) / 3e-3) * std::sin(2 * 3.14159265 * 4300 * (t - click));
      }
    }
    samples[i] = static_cast<float>(x);
  }
  return samples;
}

ClickTrace heard(const std::vector<float>& samples, std::vector<Time> expected = {}) {
  return shots_by_sound({samples, second / rate_hz, 0}, expected);
}

// Law: clicks put there are found in their pairs, within the stated interval, which what a click
// tells of the light rules.
TEST(ShotsBySound, PairsTheClicks) {
  const ClickTrace trace = heard(sound({0.2, 0.233, 1.0, 1.034, 2.0, 2.5}, 3));
  ASSERT_EQ(trace.shots.size(), 3U);
  EXPECT_EQ(trace.unpaired, 0);
  const double truth_ms[] = {33, 34, 500};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(trace.shots[i].open.value / ms, truth_ms[i], 0.5);
    EXPECT_NEAR(trace.shots[i].open.standard_uncertainty / ms, 0.82, 0.03);
    EXPECT_EQ(trace.shots[i].open.budget.front().name, "click against light");
  }
  EXPECT_NEAR(trace.shots[1].at / second, 1, 0.5e-3);
}

// Law: with a mark known, other noises are passed over.
TEST(ShotsBySound, PassesOverNoisesThatNoMarkExplains) {
  const auto samples = sound({0.2, 0.7, 0.733, 1.4, 2.0, 2.031}, 3);
  const ClickTrace trace = heard(samples, {33 * ms});
  ASSERT_EQ(trace.shots.size(), 2U);
  EXPECT_EQ(trace.unpaired, 2);
  EXPECT_NEAR(trace.shots[0].at / second, 0.7, 0.5e-3);
}

TEST(ShotsBySound, HearsNothingInNoiseOrSilence) {
  EXPECT_TRUE(heard(sound({}, 2)).shots.empty());
  EXPECT_TRUE(heard(std::vector<float>(44100, 0)).shots.empty());
  EXPECT_TRUE(heard(std::vector<float>(10, 0)).shots.empty());
  EXPECT_TRUE(heard({}).shots.empty());
  const ClickTrace one = heard(sound({0.5}, 1));
  EXPECT_TRUE(one.shots.empty());
  EXPECT_EQ(one.unpaired, 1);
}

}  // namespace
}  // namespace backfit
