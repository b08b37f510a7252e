// SPDX-License-Identifier: MIT
#include "optics/wavefront.hpp"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <numbers>

#include "lenses.hpp"
#include "optics/beam.hpp"
#include "optics/gauss_rule.hpp"
#include "optics/paraxial.hpp"

namespace backfit {
namespace {

constexpr Length green = 550 * nm;

LensModel opened_to(const Prescription& prescription, Length radius) {
  LensModel lens = model_of(prescription, line_d);
  const double ratio = pupils(lens).stop_over_entrance;
  return stopped_to(std::move(lens), ratio * radius);
}

// A handbook's triplet made so small that its aberrations are far below a wavelength.
LensModel tiny_triplet(FNumber aperture) {
  const Prescription lens = scaled(lenses::handbook_triplet(), 0.01);
  return opened_to(lens, 1.0118130 * mm / (2 * aperture.value));
}

// Truth: the closed form's own points, q = 1/2 gives 2/3 - sqrt(3) / (2 pi); half contrast at
// q = 0.403973 (solved by bisection in a second program, printed to 1e-6).
TEST(DiffractionLimit, IsTheClosedForm) {
  const FNumber aperture{10};
  const auto at = [&](double q) {
    return diffraction_limit(green, aperture, q / (green * aperture.value));
  };
  EXPECT_NEAR(at(0.5), 2.0 / 3 - std::sqrt(3) / (2 * std::numbers::pi), 1e-12);
  EXPECT_NEAR(at(0.5), 0.391002, 1e-6);
  EXPECT_NEAR(at(0.403973), 0.5, 1e-6);
  EXPECT_NEAR(at(0), 1, 1e-12);
  EXPECT_EQ(at(1), 0);
  EXPECT_EQ(at(1.5), 0);
}

// Truth: diffraction theory's closed form. The bundle's edge has 180 corners: 2e-4 of its area. At
// f/20 this lens keeps the sine condition to 5e-5, so that the light is even over the cone.
TEST(Wavefront, OfAPerfectLensReachesTheLimit) {
  const FNumber aperture{20};
  const LensModel lens = tiny_triplet(aperture);
  const Spot spot = *spot_of(lens, {0 * deg}, conjugate(lens, unlimited)->image);
  const Wavefront wave(spot, green);
  EXPECT_LT(wave.fit_error(), 1e-6);
  for (const double nu : {2.0, 10.0, 20.0, 45.0, 70.0}) {
    const double limit = diffraction_limit(green, aperture, nu * lp_per_mm);
    EXPECT_NEAR(wave.mtf(nu * lp_per_mm, Lines::sagittal), limit, 3e-4) << nu;
    EXPECT_NEAR(wave.mtf(nu * lp_per_mm, Lines::tangential), limit, 3e-4) << nu;
  }
  EXPECT_EQ(wave.mtf(100 * lp_per_mm, Lines::sagittal), 0);
}

// Truth: scalar diffraction theory, a round even pupil's autocorrelation with the phase of defocus
// over it, (4 / pi) int_0^(1 - s/2) sqrt(1 - (x + s/2)^2) cos(2 k W s x) dx with s = 2 q and
// W = shift / (8 N^2), integrated here by a library. The closed form is paraxial; at f/8.8 the
// cone's height against its chord is 0.1 % of the shift.
TEST(Wavefront, OutOfFocusFollowsTheIntegralForARoundPupil) {
  const FNumber aperture{8.8};
  const LensModel lens = tiny_triplet(aperture);
  const Spot spot = *spot_of(lens, {0 * deg}, conjugate(lens, unlimited)->image);
  const Wavefront wave(spot, green);
  const auto integral = [&](double shift_mm, double nu) {
    const double w = shift_mm / (8 * aperture.value * aperture.value);
    const double k = 2 * std::numbers::pi / (green / mm);
    const double s = 2 * nu * (green / mm) * aperture.value;
    return 4 / std::numbers::pi *
           boost::math::quadrature::gauss_kronrod<double, 61>::integrate(
               [&](double x) {
                 const double y = x + s / 2;
                 return std::sqrt(std::max(0.0, 1 - y * y)) * std::cos(2 * k * w * s * x);
               },
               0, 1 - s / 2, 15, 1e-10);
  };
  for (const double shift_mm : {0.25, 0.5, 0.88}) {
    for (const double nu : {10.0, 20.0, 40.0}) {
      const double expected = std::abs(integral(shift_mm, nu));
      EXPECT_NEAR(wave.mtf(nu * lp_per_mm, Lines::tangential, shift_mm * mm), expected, 0.004)
          << shift_mm << " " << nu;
      EXPECT_NEAR(wave.mtf(nu * lp_per_mm, Lines::sagittal, -shift_mm * mm), expected, 0.004)
          << shift_mm << " " << nu;
    }
  }
}

// Law: waves much shorter than light's leave what geometry leaves. This ties the phase of the
// fitted wave to the rays' landing points, for a whole bundle off the axis and out of focus.
TEST(Wavefront, OfShortWavesAgreesWithTheRays) {
  const LensModel lens = opened_to(lenses::slow_triplet(), 6.25 * mm);
  const Length plane = first_order(lens)->back_focal;
  for (const double field_deg : {0.0, 12.0, 23.4}) {
    const Spot spot = *spot_of(lens, {field_deg * deg}, plane, 24, 72);
    const Wavefront wave(spot, 5 * nm);
    for (const double nu : {5.0, 10.0, 20.0}) {
      for (const double shift_mm : {-0.4, 0.0, 0.3}) {
        for (const Lines lines : {Lines::sagittal, Lines::tangential}) {
          EXPECT_NEAR(wave.mtf(nu * lp_per_mm, lines, shift_mm * mm),
                      geometric_mtf(spot, nu * lp_per_mm, lines, shift_mm * mm), 0.01)
              << field_deg << " " << nu << " " << shift_mm;
        }
      }
    }
  }
}

// Law: aberrations only take from the contrast that the same opening leaves without them (on the
// axis, where the opening is round and the light over it nearly even).
TEST(Wavefront, StaysBelowTheLimit) {
  const Length radius = 6.25 * mm;
  const LensModel lens = opened_to(lenses::slow_triplet(), radius);
  const FirstOrder first = *first_order(lens);
  const Spot spot = *spot_of(lens, {0 * deg}, first.back_focal);
  const Wavefront wave(spot, green);
  const FNumber aperture{first.focal / (2 * radius)};
  for (const double nu : {10.0, 30.0, 60.0}) {
    EXPECT_LT(wave.mtf(nu * lp_per_mm, Lines::sagittal, best_shift(spot)),
              diffraction_limit(green, aperture, nu * lp_per_mm) + 0.002)
        << nu;
  }
}

// Truth: Gauss's rule for two and three points (textbook), and its exactness.
TEST(GaussRule, IsExactForPolynomials) {
  const auto two = gauss_rule(2);
  EXPECT_NEAR(two[0].place, (1 - 1 / std::sqrt(3)) / 2, 1e-14);
  EXPECT_NEAR(two[1].weight, 0.5, 1e-14);
  const auto three = gauss_rule(3);
  EXPECT_NEAR(three[1].weight, 4.0 / 9, 1e-14);
  EXPECT_NEAR(three[1].place, 0.5, 1e-14);
  for (const int points : {1, 2, 5, 12, 33, 400}) {
    double sum = 0;
    const int power = 2 * points - 1;
    for (const auto& [place, weight] : gauss_rule(points)) sum += weight * std::pow(place, power);
    EXPECT_NEAR(sum * (power + 1), 1, 1e-10) << points;
  }
}

}  // namespace
}  // namespace backfit
