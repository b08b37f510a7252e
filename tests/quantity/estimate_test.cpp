// SPDX-License-Identifier: MIT
#include "quantity/estimate.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace backfit {
namespace {

const Length nm = 1e-6 * mm;

// Calibration of a 50 mm end gauge by comparison with a standard of the same nominal length,
// JCGM 100:2008, H.1: l = ls + d - ls (dalpha theta + alphas dtheta).
struct EndGauge {
  Inputs inputs;
  // Estimate, standard uncertainty and degrees of freedom as H.1.3 gives them; per degree Celsius.
  InputRef<Length> standard = inputs.add_normal("standard", 50000623 * nm, 25 * nm, 18);
  InputRef<Length> readings = inputs.add_normal("readings", 215 * nm, 5.8 * nm, 24);
  InputRef<Length> random = inputs.add_normal("comparator, random", 0 * nm, 3.9 * nm, 5);
  InputRef<Length> systematic = inputs.add_normal("comparator, systematic", 0 * nm, 6.7 * nm, 8);
  InputRef<double> expansion = inputs.add("expansion", Measured<double>{11.5e-6, 2e-6});
  InputRef<double> bed = inputs.add_normal("bed", -0.1, 0.2);
  InputRef<double> cycle = inputs.add_normal("cycle", 0, 0.5 / std::numbers::sqrt2);
  InputRef<double> expansion_difference =
      inputs.add_normal("expansion difference", 0, 1e-6 / std::numbers::sqrt3, 50);
  InputRef<double> temperature_difference =
      inputs.add_normal("temperature difference", 0, 0.05 / std::numbers::sqrt3, 2);

  Length operator()(const Draw& at) const {
    const double strain = at(expansion_difference) * (at(bed) + at(cycle)) +
                          at(expansion) * at(temperature_difference);
    return at(standard) + at(readings) + at(random) + at(systematic) - strain * at(standard);
  }
  BaseModel base() const {
    return [this](const Draw& at) { return (*this)(at).base(); };
  }
};

// Truth: nist-tn-1297 in data/sources.toml, table D.1, READ: the components of H.1 in nm, there
// with the second-order ones, which first order must leave at 0. Printed to 0.1 nm.
TEST(Propagate, GivesTheBudgetOfTheEndGauge) {
  const EndGauge gauge;
  const Estimate<Length> length = estimate<Length>(gauge.inputs, gauge);
  const std::vector<std::pair<std::string, double>> printed = {
      {"standard", 25},
      {"temperature difference", 16.6},
      {"comparator, systematic", 6.7},
      {"readings", 5.8},
      {"comparator, random", 3.9},
      {"expansion difference", 2.9},
      {"expansion", 0},
      {"bed", 0},
      {"cycle", 0},
  };
  ASSERT_EQ(length.budget.size(), printed.size());
  for (std::size_t i = 0; i < printed.size(); ++i) {
    EXPECT_EQ(length.budget[i].name, printed[i].first);
    EXPECT_NEAR(length.budget[i].contribution / nm.base(), printed[i].second, 0.05);
  }
}

// Truth: jcgm-100 in data/sources.toml, H.1.3.1 to H.1.6, READ as quoted in the test data of three
// open libraries, not in the standard's own print: l = 50.000838 mm, uc = 32 nm, effective degrees
// of freedom 16.7 (from a variance rounded to 1002 nm2 and two-figure components, hence 0.1) and
// so 16, coverage factor for 99 % 2.92, expanded uncertainty 93 nm from the rounded 32 nm.
TEST(Propagate, ReachesTheResultOfTheEndGauge) {
  const EndGauge gauge;
  const BaseEstimate length = propagate(gauge.inputs, gauge.base());
  EXPECT_NEAR(length.value, 50.000838, 1e-9);
  const double u_nm = length.standard_uncertainty / nm.base();
  EXPECT_EQ(std::round(u_nm), 32);
  EXPECT_NEAR(u_nm * u_nm, 1002, 3);  // components rounded to 0.1 nm, the 16.6 alone to 1.7 nm2
  EXPECT_NEAR(length.effective_degrees_of_freedom, 16.7, 0.1);
  const double k = coverage_factor(0.99, std::floor(length.effective_degrees_of_freedom));
  EXPECT_NEAR(k, 2.92, 0.005);
  EXPECT_NEAR(k * std::round(u_nm), 93, 0.5);
}

// Truth: nist-tn-1297 in data/sources.toml, table D.1, READ: 34 nm with the second-order terms of
// H.1.7, of which it prints 5.8 and 10.2 nm (bed and cycle) and 1.7 nm (expansion).
TEST(SecondOrder, ReachesTheResultOfTheEndGauge) {
  const EndGauge gauge;
  const double first = propagate(gauge.inputs, gauge.base()).standard_uncertainty / nm.base();
  const double both = second_order_uncertainty(gauge.inputs, gauge.base()) / nm.base();
  EXPECT_NEAR(both, 34, 0.5);
  // Each printed term is right to 0.05 nm, so their sum of squares to 1.8 nm2.
  EXPECT_NEAR(both * both - first * first, 5.8 * 5.8 + 10.2 * 10.2 + 1.7 * 1.7, 1.8);
}

// Truth: nist-tn-1297 in data/sources.toml, table B.1 (that of JCGM 100:2008, table G.2), READ.
// Printed to two decimals, the last row to three.
TEST(CoverageFactor, AgreesWithTheTableOfStudentsT) {
  struct Row {
    double freedom, p90, p95, p99;
  };
  const Row rows[] = {{1, 6.31, 12.71, 63.66}, {2, 2.92, 4.30, 9.92},  {5, 2.02, 2.57, 4.03},
                      {10, 1.81, 2.23, 3.17},  {16, 1.75, 2.12, 2.92}, {50, 1.68, 2.01, 2.68}};
  for (const Row& row : rows) {
    EXPECT_NEAR(coverage_factor(0.90, row.freedom), row.p90, 0.005) << row.freedom;
    EXPECT_NEAR(coverage_factor(0.95, row.freedom), row.p95, 0.005) << row.freedom;
    EXPECT_NEAR(coverage_factor(0.99, row.freedom), row.p99, 0.005) << row.freedom;
  }
  const double many = std::numeric_limits<double>::infinity();
  EXPECT_NEAR(coverage_factor(0.90, many), 1.645, 0.0005);
  EXPECT_NEAR(coverage_factor(0.95, many), 1.960, 0.0005);
  EXPECT_NEAR(coverage_factor(0.99, many), 2.576, 0.0005);
}

// Law: more readings never widen the interval, and the normal value is the limit.
TEST(CoverageFactor, FallsTowardsTheNormalValue) {
  double last = std::numeric_limits<double>::infinity();
  for (int doubling = 0; doubling < 30; ++doubling) {
    const double k = coverage_factor(0.95, std::ldexp(1, doubling));
    EXPECT_LT(k, last);
    last = k;
  }
  EXPECT_NEAR(last, coverage_factor(0.95, std::numeric_limits<double>::infinity()), 1e-8);
}

// Truth: closed forms of the variance of each shape (JCGM 100:2008, 4.3.7 and 4.3.9):
// a^2 / 3 for the rectangle, a^2 / 6 for the triangle.
TEST(Input, ShapeGivesTheStandardUncertainty) {
  const auto variance = [](Shape shape) {
    return std::pow(Input{"a", 0, 2, shape}.standard_uncertainty(), 2);
  };
  EXPECT_NEAR(variance(Shape::rectangular), 4.0 / 3, 1e-15);
  EXPECT_NEAR(variance(Shape::triangular), 4.0 / 6, 1e-15);
  EXPECT_NEAR(variance(Shape::normal), 4, 1e-15);
}

// Law, with figures drawn at random: for a linear model the uncertainty is the root sum square of
// coefficient times standard uncertainty, the sensitivities are the coefficients, the shares sum
// to 1, the budget falls, and there is nothing of second order. Rounding only.
TEST(Propagate, IsExactForLinearModels) {
  std::mt19937 bits(7);
  const auto any = [&] { return static_cast<double>(bits()) / 4294967296.0 * 20 - 10; };
  for (int round = 0; round < 100; ++round) {
    Inputs inputs;
    std::vector<InputRef<double>> refs;
    std::vector<double> coefficients;
    const int count = 1 + round % 9;
    double variance = 0;
    for (int i = 0; i < count; ++i) {
      const Shape shape = static_cast<Shape>(i % 3);
      refs.push_back(
          inputs.add(std::to_string(i), Measured<double>{any(), std::abs(any())}, shape));
      coefficients.push_back(any());
      variance += std::pow(coefficients.back() * inputs.list().back().standard_uncertainty(), 2);
    }
    const BaseModel model = [&](const Draw& at) {
      double sum = 3;
      for (std::size_t i = 0; i < refs.size(); ++i) {
        sum += coefficients[i] * at(refs[i]);
      }
      return sum;
    };
    const BaseEstimate answer = propagate(inputs, model);
    const double u = std::sqrt(variance);
    EXPECT_NEAR(answer.standard_uncertainty, u, 1e-11 * u);
    EXPECT_NEAR(second_order_uncertainty(inputs, model), u, 1e-9 * u);
    double shares = 0;
    for (const Contribution& line : answer.budget) {
      EXPECT_NEAR(line.sensitivity, coefficients[std::stoul(line.name)], 1e-9);
      shares += line.share;
    }
    EXPECT_NEAR(shares, 1, 1e-12);
    EXPECT_TRUE(std::is_sorted(answer.budget.begin(), answer.budget.end(),
                               [](const Contribution& a, const Contribution& b) {
                                 return a.contribution > b.contribution;
                               }));
  }
}

// Law: an exact input is not a measurement to repeat, and an answer that no input moves is sure.
TEST(Propagate, LeavesExactInputsOut) {
  Inputs inputs;
  const auto fixed = inputs.add("fixed", exactly(2 * mm));
  const auto idle = inputs.add("idle", Measured<Length>{1 * mm, 0.1 * mm});
  const Estimate<Length> answer =
      estimate<Length>(inputs, [&](const Draw& at) { return at(fixed) + 0 * at(idle); });
  EXPECT_EQ(answer.value, 2 * mm);
  EXPECT_EQ(answer.standard_uncertainty, Length{});
  ASSERT_EQ(answer.budget.size(), 1U);
  EXPECT_EQ(answer.budget[0].name, "idle");
  EXPECT_EQ(answer.budget[0].share, 0);
  EXPECT_TRUE(
      std::isinf(propagate(inputs, [](const Draw&) { return 1.0; }).effective_degrees_of_freedom));
}

// Law: an answer that runs to infinity within the uncertainty is not known at all. Truth: the far
// end of a zone of sharpness, 1 / (1 - x), at x = 3/4 with a standard uncertainty of 1/4.
TEST(Propagate, SaysInfiniteWhereTheModelIs) {
  Inputs inputs;
  const auto x = inputs.add_normal("x", 0.75, 0.25);
  const BaseModel model = [&](const Draw& at) { return 1 / (1 - at(x)); };
  EXPECT_TRUE(std::isinf(propagate(inputs, model).standard_uncertainty));
  EXPECT_TRUE(std::isinf(second_order_uncertainty(inputs, model)));
  EXPECT_EQ(propagate(inputs, model).budget[0].share, 0);
}

// Law: a measurement used twice is one input: x - x is sure, x + x twice as unsure.
TEST(Propagate, KnowsAMeasurementUsedTwice) {
  Inputs inputs;
  const auto x = inputs.add("x", Measured<Length>{5 * mm, 0.3 * mm});
  const auto u = [&](const auto& model) {
    return estimate<Length>(inputs, model).standard_uncertainty / mm;
  };
  EXPECT_EQ(u([&](const Draw& at) { return at(x) - at(x); }), 0);
  EXPECT_NEAR(u([&](const Draw& at) { return at(x) + at(x); }), 0.6 / std::sqrt(3.0), 1e-12);
}

// Truth: closed form: n equal contributions of nu degrees of freedom each have n nu together.
TEST(Propagate, AddsDegreesOfFreedomOfEqualContributions) {
  Inputs inputs;
  std::vector<InputRef<Length>> parts;
  parts.reserve(4);
  for (int i = 0; i < 4; ++i) {
    parts.push_back(inputs.add_normal("part", 1 * mm, 0.2 * mm, 10));
  }
  const BaseEstimate sum = propagate(inputs, [&](const Draw& at) {
    return (at(parts[0]) + at(parts[1]) + at(parts[2]) - at(parts[3])).base();
  });
  EXPECT_NEAR(sum.effective_degrees_of_freedom, 40, 1e-9);
}

// Truth: closed form: the product of independent normals has the variance
// x^2 v^2 + y^2 u^2 + u^2 v^2, the last of second order; the square of a normal at 0 has 2 u^4.
TEST(SecondOrder, IsExactForProductsAndSquares) {
  Inputs inputs;
  const auto x = inputs.add_normal("x", 3.0, 0.4), y = inputs.add_normal("y", -2.0, 0.7);
  const auto z = inputs.add_normal("z", 0.0, 0.5);
  const double product =
      second_order_uncertainty(inputs, [&](const Draw& at) { return at(x) * at(y); });
  EXPECT_NEAR(product * product, 9 * 0.49 + 4 * 0.16 + 0.16 * 0.49, 1e-12);
  const double square =
      second_order_uncertainty(inputs, [&](const Draw& at) { return at(z) * at(z); });
  EXPECT_NEAR(square * square, 2 * std::pow(0.5, 4), 1e-12);
}

// Truth: closed form: exp of a normal of deviation u around 0 has the variance
// exp(u^2) (exp(u^2) - 1) = u^2 + 3/2 u^4 + 7/6 u^6 + ..., and x y^2 mixes the third derivatives:
// exact variance by the moments of the normal. What is left is of order u^6.
TEST(SecondOrder, LeavesAnErrorOfTheNextOrder) {
  for (const double u : {0.02, 0.05, 0.1}) {
    Inputs inputs;
    const auto x = inputs.add_normal("x", 0.0, u);
    const double both =
        second_order_uncertainty(inputs, [&](const Draw& at) { return std::exp(at(x)); });
    EXPECT_NEAR(both * both, std::exp(u * u) * std::expm1(u * u), 2 * std::pow(u, 6));
  }
  for (const double u : {0.02, 0.05, 0.1}) {
    Inputs inputs;
    const auto x = inputs.add_normal("x", 1.0, u), y = inputs.add_normal("y", 1.0, u);
    const double both =
        second_order_uncertainty(inputs, [&](const Draw& at) { return at(x) * at(y) * at(y); });
    const double s = u * u;  // E[x^2] E[y^4] - (E[x] E[y^2])^2
    const double exact = (1 + s) * (1 + 6 * s + 3 * s * s) - (1 + s) * (1 + s);
    EXPECT_NEAR(both * both, exact, 4 * std::pow(u, 6));
  }
}

}  // namespace
}  // namespace backfit
