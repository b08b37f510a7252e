// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numbers>

#include "quantity/estimate.hpp"
#include "quantity/random.hpp"

namespace backfit {
namespace {

constexpr std::size_t million = 1000000, many = 200000;

// Sum of the inputs.
BaseModel sum_of(const std::vector<InputRef<double>>& parts) {
  return [parts](const Draw& at) {
    double sum = 0;
    for (const InputRef<double> part : parts) {
      sum += at(part);
    }
    return sum;
  };
}

struct Sum {
  Inputs inputs;
  std::vector<InputRef<double>> parts;
  Sum(std::initializer_list<double> half_widths, Shape shape) {
    for (const double half_width : half_widths) {
      parts.push_back(inputs.add("part", Measured<double>{0, half_width}, shape));
    }
  }
  BaseSample sample(std::size_t draws = many, std::uint64_t seed = 1) const {
    return monte_carlo(inputs, sum_of(parts), draws, seed);
  }
};

// Standard error of the p quantile of a sample where the density is `density`.
double quantile_error(double p, double density, std::size_t draws = many) {
  return std::sqrt(p * (1 - p) / static_cast<double>(draws)) / density;
}

// Truth: jcgm-101 in data/sources.toml, 9.2.3 and table 3, READ as quoted in an open library's
// test data: four rectangular inputs of standard deviation 1 give u = 2.00 and the 95 % interval
// +-3.88. Computed: the outer tail of the sum is t^4 / (24 (2a)^4) at distance t from its end
// 4a, a = sqrt(3), which puts the endpoint at 2 sqrt(3) (2 - (3/5)^(1/4)) = 3.8807.
TEST(MonteCarlo, GivesTheSumOfFourRectangles) {
  const double a = std::numbers::sqrt3;
  const BaseSample sample = Sum({a, a, a, a}, Shape::rectangular).sample(million);
  const double t = 2 * a * std::pow(0.6, 0.25);
  const double end = 4 * a - t;
  EXPECT_NEAR(end, 3.88, 0.005);
  const double error = quantile_error(0.025, std::pow(t, 3) / (6 * std::pow(2 * a, 4)), million);
  const BaseSample::Interval interval = sample.symmetric(0.95);
  EXPECT_NEAR(interval.low, -end, 4 * error);
  EXPECT_NEAR(interval.high, end, 4 * error);
  // A sample deviation is off by at most u / sqrt(2 M) here: the sum has thinner tails than normal.
  EXPECT_NEAR(sample.standard_uncertainty, 2.00, 4 * 2 / std::sqrt(2e6));
  EXPECT_NEAR(sample.mean, 0, 4 * 2 / std::sqrt(1e6));
}

// Truth: jcgm-101 in data/sources.toml, 9.2.2 and table 2, READ as above: four normal inputs of
// standard deviation 1 give +-3.92; closed form 2 x 1.960.
TEST(MonteCarlo, GivesTheSumOfFourNormals) {
  const BaseSample sample = Sum({1, 1, 1, 1}, Shape::normal).sample(million);
  const double error =
      quantile_error(0.025, 0.0584 / 2, million);  // normal density at 1.96, over u = 2
  EXPECT_NEAR(sample.symmetric(0.95).low, -3.92, 4 * error);
  EXPECT_NEAR(sample.symmetric(0.95).high, 3.92, 4 * error);
  EXPECT_NEAR(sample.standard_uncertainty, 2.00, 4 * 2 / std::sqrt(2e6));
}

// Truth: closed form: two rectangles of half-widths a >= b sum to a trapezoid whose tail is
// t^2 / (8 a b) at distance t <= 2 b from its end a + b; with a = b it is a triangle.
TEST(MonteCarlo, GivesTheTriangleAndTheTrapezoidOfTwoRectangles) {
  for (const double b : {1.0, 0.5}) {
    const double t = std::sqrt(0.025 * 8 * b);
    ASSERT_LE(t, 2 * b);
    const double error = quantile_error(0.025, t / (4 * b));
    const BaseSample::Interval interval = Sum({1, b}, Shape::rectangular).sample().symmetric(0.95);
    EXPECT_NEAR(interval.low, t - 1 - b, 4 * error);
    EXPECT_NEAR(interval.high, 1 + b - t, 4 * error);
  }
  const BaseSample::Interval triangle = Sum({2}, Shape::triangular).sample().symmetric(0.95);
  const double t = std::sqrt(0.2);
  EXPECT_NEAR(triangle.high, 2 - t, 4 * quantile_error(0.025, t / 4));
  EXPECT_NEAR(triangle.low, t - 2, 4 * quantile_error(0.025, t / 4));
}

// Law: on a linear model of any shapes, mean and deviation agree with first order within the
// sample's own standard error.
TEST(MonteCarlo, AgreesWithFirstOrderOnALinearModel) {
  Inputs inputs;
  const auto x = inputs.add("x", Measured<double>{5, 0.4}, Shape::rectangular);
  const auto y = inputs.add("y", Measured<double>{-2, 0.9}, Shape::triangular);
  const auto z = inputs.add_normal("z", 1.0, 0.3);
  const BaseModel model = [&](const Draw& at) { return 2 * at(x) - at(y) + 3 * at(z); };
  const BaseEstimate first = propagate(inputs, model);
  const double u = first.standard_uncertainty;
  for (const std::uint64_t seed : {1U, 2U, 3U, 4U, 5U}) {
    const BaseSample sample = monte_carlo(inputs, model, 100000, seed);
    EXPECT_NEAR(sample.mean, first.value, 4 * u / std::sqrt(1e5));
    EXPECT_NEAR(sample.standard_uncertainty, u, 4 * u / std::sqrt(2e5));
  }
}

// Law: the interval of one normal input known with nu degrees of freedom is the one that the
// coverage factor of Student's t gives. The error is that of the quantile, density by Boost.Math.
TEST(MonteCarlo, DrawsStudentsTForFewDegreesOfFreedom) {
  for (const double freedom : {1.0, 2.0, 5.0, 30.0}) {
    Inputs inputs;
    const auto x = inputs.add_normal("x", 10.0, 0.2, freedom);
    const BaseSample sample = monte_carlo(
        inputs, [&](const Draw& at) { return at(x); }, many);
    const double k = coverage_factor(0.95, freedom);
    const double density = pdf(boost::math::students_t(freedom), k) / 0.2;
    EXPECT_NEAR(sample.symmetric(0.95).high, 10 + 0.2 * k, 4 * quantile_error(0.025, density));
    EXPECT_NEAR(sample.symmetric(0.95).low, 10 - 0.2 * k, 4 * quantile_error(0.025, density));
  }
}

// Law: the same seed gives the same draws, another seed others; probability() and monte_carlo()
// see the same ones.
TEST(MonteCarlo, RepeatsItselfForTheSameSeed) {
  const Sum sum({1, 2, 3}, Shape::triangular);
  const std::vector<double> once = sum.sample(5000, 42).sorted;
  EXPECT_EQ(once, sum.sample(5000, 42).sorted);
  EXPECT_NE(once, sum.sample(5000, 43).sorted);
  const BaseModel model = sum_of(sum.parts);
  const double below = probability(
      sum.inputs, [&](const Draw& at) { return model(at) <= 1; }, 5000, 42);
  EXPECT_EQ(below, sum.sample(5000, 42).probability_up_to(1));
}

// Law: the odds of staying under a limit never fall as the limit rises, from 0 to 1. Truth: for
// one rectangle they are the share of its width, within four standard errors of at most
// 1 / (2 sqrt(M)).
TEST(MonteCarlo, OddsRiseWithTheLimit) {
  const BaseSample sample = Sum({1}, Shape::rectangular).sample();
  double last = 0;
  for (int step = -120; step <= 120; ++step) {
    const double limit = 0.01 * step;
    const double odds = sample.probability_up_to(limit);
    EXPECT_GE(odds, last);
    EXPECT_NEAR(odds, std::clamp((limit + 1) / 2, 0.0, 1.0),
                4 * 0.5 / std::sqrt(static_cast<double>(many)));
    last = odds;
  }
  EXPECT_EQ(sample.probability_up_to(-1.01), 0);
  EXPECT_EQ(sample.probability_up_to(1.01), 1);
}

// Law: the interval's ends lie the named share of the draws apart, and as many draws lie below as
// above, or one more when the rest is odd. Of 100 draws in order, counted by hand.
TEST(BaseSample, CountsOffTheSymmetricInterval) {
  BaseSample sample;
  for (int i = 1; i <= 100; ++i) {
    sample.sorted.push_back(i);
  }
  EXPECT_EQ(sample.symmetric(0.95).low, 3);
  EXPECT_EQ(sample.symmetric(0.95).high, 98);
  EXPECT_EQ(sample.symmetric(0.90).low, 5);
  EXPECT_EQ(sample.symmetric(0.90).high, 95);
  EXPECT_EQ(sample.symmetric(0.9999).low, 1);
  EXPECT_EQ(sample.symmetric(0.9999).high, 100);
  EXPECT_EQ(sample.probability_up_to(25), 0.25);
  EXPECT_EQ(sample.probability_up_to(24.9), 0.24);
}

// Greatest distance between the distribution of `draws` and `expected`, times sqrt(M): by
// Kolmogorov, above 1.95 only once in a thousand seeds.
template <class Distribution>
double kolmogorov(std::vector<double> draws, const Distribution& expected) {
  std::sort(draws.begin(), draws.end());
  const auto count = static_cast<double>(draws.size());
  double distance = 0;
  for (std::size_t i = 0; i < draws.size(); ++i) {
    const double p = expected(draws[i]);
    const auto rank = static_cast<double>(i);
    distance = std::max({distance, p - rank / count, (rank + 1) / count - p});
  }
  return distance * std::sqrt(count);
}

// Truth: the distribution functions of Boost.Math, a general-purpose library.
TEST(Random, FollowsTheNamedDistributions) {
  Random random(3);
  std::vector<double> units, normals, students;
  for (int i = 0; i < 100000; ++i) {
    units.push_back(random.unit());
    normals.push_back(random.normal());
    students.push_back(random.student(4));
  }
  EXPECT_LT(kolmogorov(units, [](double x) { return x; }), 1.95);
  EXPECT_LT(kolmogorov(normals, [](double x) { return cdf(boost::math::normal(), x); }), 1.95);
  EXPECT_LT(kolmogorov(students, [](double x) { return cdf(boost::math::students_t(4), x); }),
            1.95);
}

// Truth: the normal distribution function of Boost.Math at the start of the ziggurat's tail, where
// Kolmogorov's distance sees little.
TEST(Random, HasTheNormalTail) {
  Random random(5);
  double beyond = 0, squares = 0;
  for (std::size_t i = 0; i < million; ++i) {
    const double x = random.normal();
    if (std::abs(x) > 3.442619855899) ++beyond, squares += x * x;
  }
  const double edge = 3.442619855899;
  const double share = 2 * cdf(boost::math::normal(), -edge);
  EXPECT_NEAR(beyond, share * 1e6, 4 * std::sqrt(share * 1e6));
  // E[x^2; |x| > c] = 2 (c phi(c) + Q(c)); the squares beyond deviate by 1.89.
  const double mean_square = 1 + 2 * edge * pdf(boost::math::normal(), edge) / share;
  EXPECT_NEAR(squares / beyond, mean_square, 4 * 1.89 / std::sqrt(beyond));
}

// Truth: the first words of SplitMix64 from state 0, READ as the published reference values in the
// tests of four independent libraries. Mixing 0 gives 0, so seed 0 starts the counter at 0.
TEST(Random, IsSplitMix64) {
  Random random(0);
  EXPECT_EQ(random.bits(), 0xe220a8397b1dcdafU);
  EXPECT_EQ(random.bits(), 0x6e789e6aa1b965f4U);
  EXPECT_EQ(random.bits(), 0x06c45d188009454fU);
}

}  // namespace
}  // namespace backfit
