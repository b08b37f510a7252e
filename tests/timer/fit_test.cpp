// SPDX-License-Identifier: MIT
#include "timer/fit.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "quantity/random.hpp"
#include "timer/preferred.hpp"

namespace backfit {
namespace {

Trial trial(double ohms, double ohms_within, std::vector<Measured<Time>> times) {
  return {{ohms * ohm, ohms_within * ohm}, std::move(times)};
}

// Truth: nist-strd-norris in data/sources.toml: certified slope, intercept, their standard
// deviations and the residual sum of squares, here with ohms for x and seconds for y. Readings of
// a negative or zero ohm are none; the data have none. Stated so well that the scatter must widen
// the uncertainties, as the certificate takes them from the scatter alone.
TEST(Fitted, AgreesWithCertifiedRegression) {
  constexpr double data[][2] = {{0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6},
                                {9.2, 10.1},    {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3},
                                {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4},
                                {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0},
                                {448.9, 447.5}, {10.8, 11.6},   {557.7, 556.0}, {228.3, 228.1},
                                {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
                                {0.6, 0.3},     {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2},
                                {998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1},   {117.6, 118.3},
                                {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5}};
  constexpr double within = 0.1;
  std::vector<Trial> trials;
  for (const auto& [y, x] : data) {
    trials.push_back(trial(x, 0, {{y * second, within * second}}));
  }
  const auto fit = fitted(trials, {});
  ASSERT_TRUE(fit);
  const Capacitance per = second / ohm;
  EXPECT_NEAR(fit->law.fixed / second, -0.262323073774029, 1e-11);
  EXPECT_NEAR(fit->law.per_ohm / per, 1.00211681802045, 1e-13);
  EXPECT_NEAR(fit->fixed_u / second, 0.232818234301152, 1e-11);
  EXPECT_NEAR(fit->per_ohm_u / per, 0.429796848199937e-3, 1e-14);
  ASSERT_TRUE(fit->lack_of_fit);
  EXPECT_EQ(fit->lack_of_fit->degrees_of_freedom, 34);
  EXPECT_NEAR(fit->lack_of_fit->chi_square * within * within / 3, 26.6173985294224, 1e-9);
  EXPECT_TRUE(fit->widened);
  EXPECT_EQ(fit->degrees_of_freedom, 34);
}

// Law: of many simulated shutters whose readings scatter as stated, the fitted numbers miss the
// true ones by as much as their uncertainties say, and lack of fit is found in 5 % of them.
// Readings spread evenly over their ±, resistors too. 2000 draws tell a standard deviation to 1.6
// %, a share of 5 % to 0.5 %: tolerances of four of these.
TEST(Fitted, MissesTheTruthByAsMuchAsItSays) {
  Random random(7);
  const TimerLaw truth{3.4 * ms, time_per_ohm(0.22 * uF, 0.6), 0.6, {}};
  constexpr int runs = 2000;
  double fixed_squares = 0, slope_squares = 0;
  int lacking = 0;
  const auto off = [&](double within) { return within * (2 * random.unit() - 1); };
  for (int run = 0; run < runs; ++run) {
    std::vector<Trial> trials;
    for (const double ohms : {15e3, 47e3, 220e3, 1e6}) {
      Trial t = trial(ohms, 0.002 * ohms, {});
      const Time time = *open_time(truth, (ohms + off(0.002 * ohms)) * ohm);
      for (int i = 0; i < 3; ++i) {
        const Time within = 0.1 * ms + 0.01 * time;
        t.times.push_back({time + off(1) * within, within});
      }
      trials.push_back(t);
    }
    const auto fit = fitted(trials, {});
    ASSERT_TRUE(fit);
    // Taken as stated: here the spread of the repeats is known to be no more than that.
    const double w = fit->widened ? std::sqrt(fit->lack_of_fit->chi_square / 2) : 1;
    const double widened = w * std::max(1.0, fit->repeat_spread);
    fixed_squares += std::pow((fit->law.fixed - truth.fixed) / (fit->fixed_u / widened), 2);
    slope_squares += std::pow((fit->law.per_ohm - truth.per_ohm) / (fit->per_ohm_u / widened), 2);
    lacking += fit->lack_of_fit->probability < 0.05 ? 1 : 0;
  }
  EXPECT_NEAR(std::sqrt(fixed_squares / runs), 1, 0.064);
  EXPECT_NEAR(std::sqrt(slope_squares / runs), 1, 0.064);
  EXPECT_NEAR(double(lacking) / runs, 0.05, 0.02);
}

// Law: what is known of the circuit is the law when nothing was tried, u(C ln(1/(1-k))) by the law
// of propagation, worked out here apart from the code.
TEST(Fitted, WorksFromTheCircuitAlone) {
  TimerKnowledge known;
  known.fixed = {3 * ms, 1 * ms};
  EXPECT_FALSE(fitted({}, known));
  known.capacitance = {1 * uF, 0.1 * uF};
  EXPECT_FALSE(fitted({}, known));
  known.threshold = {0.5, 0.05};
  const auto fit = fitted({}, known);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->law.per_ohm / uF, std::log(2), 1e-12);
  // by C: ln 2 * 0.1 / sqrt 3; by k: C / (1 - k) * 0.05 / sqrt 3
  const double u = std::hypot(std::log(2) * 0.1, 2 * 0.05) / std::sqrt(3);
  EXPECT_NEAR(fit->per_ohm_u / uF, u, 1e-12);
  EXPECT_NEAR(fit->fixed_u / ms, 1 / std::sqrt(3), 1e-12);
  EXPECT_NEAR(fit->correlation, 0, 1e-12);
  EXPECT_FALSE(fit->lack_of_fit);
}

// Law: one trial and a known fixed part make a law; two trials at one resistor make none.
TEST(Fitted, NeedsTwoFactsThatDiffer) {
  const Trial one = trial(100e3, 100, {{72 * ms, 1 * ms}});
  EXPECT_FALSE(fitted(std::vector{one}, {}));
  EXPECT_FALSE(fitted(std::vector{one, one}, {}));
  TimerKnowledge known;
  known.fixed = {3 * ms, 1 * ms};
  const auto fit = fitted(std::vector{one}, known);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->law.per_ohm / uF, 0.69, 1e-9);
  // Falling with the resistance: no timer.
  EXPECT_FALSE(fitted(std::vector{one, trial(200e3, 100, {{60 * ms, 1 * ms}})}, {}));
}

// Law: a bent set of trials, as a leak makes it, shows as lack of fit; told of the leak, the same
// trials fit.
TEST(Fitted, SeesALeakAndFitsWithIt) {
  const TimerLaw truth{3 * ms, time_per_ohm(1 * uF, 0.5), 0.5, 8 * Mohm};
  std::vector<Trial> trials;
  for (const double ohms : {10e3, 100e3, 1e6, 4e6}) {
    const Time t = *open_time(truth, ohms * ohm);
    trials.push_back(trial(ohms, 0, {{t, 0.01 * t}}));
  }
  EXPECT_LT(fitted(trials, {})->lack_of_fit->probability, 1e-6);
  TimerKnowledge known;
  known.threshold = exactly(0.5);
  known.leakage = exactly(8 * Mohm);
  const auto fit = fitted(trials, known);
  EXPECT_GT(fit->lack_of_fit->probability, 0.999);
  EXPECT_NEAR(fit->law.per_ohm / truth.per_ohm, 1, 1e-9);
}

// Law: the independent inputs give back the law and its uncertainty at any resistor.
TEST(InputsOf, SayTheSameAsTheFit) {
  const std::vector<Trial> trials{trial(10e3, 20, {{10.2 * ms, 0.2 * ms}}),
                                  trial(100e3, 200, {{71 * ms, 1 * ms}}),
                                  trial(470e3, 900, {{330 * ms, 4 * ms}})};
  const TimerFit fit = *fitted(trials, {});
  const TimerInputs in = inputs_of(fit);
  for (const double ohms : {1e3, 50e3, 3e6}) {
    const auto e =
        estimate<Time>(in.all, [&](const Draw& at) { return *open_time(in.law(at), ohms * ohm); });
    EXPECT_NEAR(e.value / *open_time(fit.law, ohms * ohm), 1, 1e-12);
    EXPECT_NEAR(e.standard_uncertainty / law_uncertainty(fit, ohms * ohm), 1, 1e-6);
  }
}

// Law: measured at the advised resistor, the doubt falls to what was promised, and nowhere else
// lower.
TEST(BestNextTrial, KeepsItsPromise) {
  const std::vector<Trial> trials{trial(10e3, 0, {{10.2 * ms, 0.2 * ms}}),
                                  trial(47e3, 0, {{35.0 * ms, 0.5 * ms}})};
  const TimerFit fit = *fitted(trials, {});
  const std::vector<Time> wanted{10 * ms, 1 * second};
  const auto candidates = preferred_resistors(Series::e6, 1 * kohm, 4.7 * Mohm);
  constexpr double per_time = 0.005;
  const auto advice = best_next_trial(fit, wanted, candidates, per_time);
  ASSERT_TRUE(advice);
  EXPECT_LT(advice->after, advice->before);
  const auto doubt_with = [&](Resistance r) {
    std::vector<Trial> more = trials;
    const Time t = *open_time(fit.law, r);
    more.push_back({exactly(r), {{t, std::sqrt(3) * per_time * t}}});
    const TimerFit refit = *fitted(more, {});
    double worst = 0;
    for (const Time w : wanted) {
      worst = std::max(worst, law_uncertainty(refit, *resistor_for(refit.law, w)) / w);
    }
    return worst / std::log(2);
  };
  EXPECT_NEAR(doubt_with(advice->resistor), advice->after.value, 1e-6);
  for (const Resistance r : candidates) EXPECT_GE(doubt_with(r), advice->after.value - 1e-6);
}

}  // namespace
}  // namespace backfit
