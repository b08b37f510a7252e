// SPDX-License-Identifier: MIT
#include "transport/flatness.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "transport/drag.hpp"

namespace backfit {
namespace {

constexpr BendingStiffness stiffness = 50 * newton * mm2;

Curvature per_mm(double k) { return k / mm; }

// Truth: closed form, a beam under pull with the same moment at both ends, simply supported
// (derived from EI w'''' = T w'' alone): k l² (1 - 1/cosh(a / 2l)), l = sqrt(EI / T). A strip seven
// times as wide as long does so in its middle. Tolerance: the series' end, and the strip's.
TEST(FreeBow, OfAWideStripIsThatOfABeamUnderPull) {
  for (const double pull : {0.5, 1.0, 3.0}) {
    const GateFilm film{56 * mm, 400 * mm, stiffness, 0, pull * newton};
    const double l = bending_length(stiffness, pull * newton) / mm;
    const double expected = 0.01 * l * l * (1 - 1 / std::cosh(56 / (2 * l)));
    EXPECT_NEAR(free_bow(film, {per_mm(0.01), per_mm(0)}) / mm, expected, 0.01 * expected) << pull;
  }
}

// Truth: closed form. Without pull, bent alike both ways, the film's Laplacian is the same
// everywhere, so it stands as a stretched membrane under even pressure does, whose deflection is
// a single quickly falling series (derived by separation of x from y):
// k [a²/8 - sum over odd n of (-1)^((n-1)/2) 4 a² / (n pi)³ / cosh(n pi b / 2a)].
TEST(FreeBow, OfFilmCurledAlikeBothWaysIsThatOfAMembrane) {
  for (const double b : {40.0, 56.0, 84.0}) {
    const double a = 56, k = 0.005;
    double sum = a * a / 8;
    for (int n = 1; n < 40; n += 2) {
      const double at = n * std::numbers::pi;
      sum -= (n % 4 == 1 ? 1 : -1) * 4 * a * a / (at * at * at) / std::cosh(at * b / (2 * a));
    }
    const GateFilm film{a * mm, b * mm, stiffness, 0, 0 * newton};
    EXPECT_NEAR(free_bow(film, {per_mm(k), per_mm(k)}) / mm, k * sum, 2e-3 * k * sum) << b;
  }
}

// The same plate by finite differences: the equation split in two of the second order,
// M = -D (w_xx + w_yy), M_xx + M_yy = -N w_xx, and solved by sweeps, nothing shared with the
// series.
double by_differences(double a, double b, double pull_over_plate, double kx, double ky) {
  constexpr int n = 40;
  const double hx = a / n, hy = b / n;
  const auto at = [](int i, int j) { return static_cast<std::size_t>(i * (n + 1) + j); };
  std::vector<double> w((n + 1) * (n + 1)), m((n + 1) * (n + 1));  // m: the Laplacian of w
  // Bent by its edges: w_xx = -kx at the ends, w_yy = -ky at the sides, w = 0 along both.
  for (int k = 1; k < n; ++k) {
    m[at(0, k)] = m[at(n, k)] = -kx;
    m[at(k, 0)] = m[at(k, n)] = -ky;
  }
  const double x2 = 1 / (hx * hx), y2 = 1 / (hy * hy);
  for (int sweep = 0; sweep < 12000; ++sweep) {
    for (int i = 1; i < n; ++i) {
      for (int j = 1; j < n; ++j) {
        const double wxx = (w[at(i - 1, j)] - 2 * w[at(i, j)] + w[at(i + 1, j)]) * x2;
        m[at(i, j)] = ((m[at(i - 1, j)] + m[at(i + 1, j)]) * x2 +
                       (m[at(i, j - 1)] + m[at(i, j + 1)]) * y2 - pull_over_plate * wxx) /
                      (2 * (x2 + y2));
        w[at(i, j)] =
            0.7 * w[at(i, j)] + 0.3 *
                                    ((w[at(i - 1, j)] + w[at(i + 1, j)]) * x2 +
                                     (w[at(i, j - 1)] + w[at(i, j + 1)]) * y2 - m[at(i, j)]) /
                                    (2 * (x2 + y2));
      }
    }
  }
  return w[at(n / 2, n / 2)];
}

// Truth: an independent numerical solution. Tolerance: its squares of 1.4 mm by 2.1 mm.
TEST(FreeBow, AgreesWithFiniteDifferences) {
  const double nu = 0.38, kx = 0.01, ky = -0.004;
  for (const double pull : {0.0, 0.3, 1.0}) {
    const GateFilm film{56 * mm, 84 * mm, stiffness, nu, pull * newton};
    const double expected =
        by_differences(56, 84, pull / 50 * (1 - nu * nu), kx + nu * ky, ky + nu * kx);
    EXPECT_NEAR(free_bow(film, {per_mm(kx), per_mm(ky)}) / mm, expected, 0.02 * std::abs(expected))
        << pull;
  }
}

// Law: pull flattens, stiffness holds what curl there is; more curl bows more, and backwards the
// other way.
TEST(FreeBow, FallsWithPullAndTurnsWithTheCurl) {
  const Curl curl{per_mm(0.01), per_mm(0.005)};
  double last = 1e9;
  for (const double pull : {0.0, 0.5, 1.0, 2.0, 4.0}) {
    const GateFilm film{56 * mm, 56 * mm, stiffness, 0.38, pull * newton};
    const double bow = free_bow(film, curl) / mm;
    EXPECT_GT(bow, 0);
    EXPECT_LT(bow, last);
    EXPECT_NEAR(free_bow(film, {per_mm(-0.01), per_mm(-0.005)}) / mm, -bow, 1e-12);
    last = bow;
  }
}

// Law: the plate stops what bows away from the lens, and nothing else.
TEST(BowBeforePlate, IsNoMoreThanItsPlay) {
  const GateFilm film{56 * mm, 56 * mm, stiffness, 0.38, 1 * newton};
  const Curl towards{per_mm(0.01), per_mm(0.005)}, away{per_mm(-0.01), per_mm(-0.005)};
  EXPECT_EQ(bow_before_plate(film, towards, 0.1 * mm), 0.1 * mm);
  EXPECT_EQ(bow_before_plate(film, away, 0.1 * mm), free_bow(film, away));
}

}  // namespace
}  // namespace backfit
