// SPDX-License-Identifier: MIT
#include "optics/spot.hpp"

#include <gtest/gtest.h>

#include <boost/math/special_functions/bessel.hpp>
#include <cmath>
#include <numbers>
#include <vector>

#include "lenses.hpp"
#include "optics/beam.hpp"
#include "optics/paraxial.hpp"

namespace backfit {
namespace {

// A lens whose entrance pupil has `radius`, its rims wide open.
LensModel opened_to(const Prescription& prescription, Length radius) {
  LensModel lens = model_of(prescription, line_d);
  const double ratio = pupils(lens).stop_over_entrance;
  return stopped_to(std::move(lens), ratio * radius);
}

Spot spot_on_axis(const LensModel& lens, Length plane) {
  return spot_of(lens, {0 * deg}, plane, 24, 48).value();
}

// A handbook's triplet made so small that its aberrations are far below a wavelength.
LensModel tiny_triplet(FNumber aperture) {
  Prescription lens = scaled(lenses::handbook_triplet(), 0.01);
  return opened_to(lens, 1.0118130 * mm / (2 * aperture.value));
}

// Truth: modern-optical-engineering in data/sources.toml, tables 6.3 and 6.4 (READ): third-order
// spherical aberration of the marginal ray -0.186575 mm at the paraxial focus, whose higher orders
// vanish at a small opening. Law: of aberration k r^3 over an evenly lit pupil of radius 1 the rms
// is k / 2 at the paraxial focus and least, k / 6, where the film lies 2/3 of the marginal ray's
// longitudinal aberration nearer the lens (integrals of r^6 and (r^3 - a r)^2 over the disc).
TEST(Spot, HasTheSizeOfSphericalAberration) {
  const double part = 0.1;  // of the marginal ray's height
  const LensModel lens = opened_to(lenses::handbook_triplet(), part * 14.6 * mm);
  const FirstOrder first = *first_order(lens);
  const Length k = part * part * part * 0.186575 * mm;
  const Spot spot = spot_on_axis(lens, first.back_focal);
  EXPECT_NEAR(size_of(spot).rms / k, 1.0 / 2, 0.005);  // fifth order at a tenth: 0.7 %
  EXPECT_NEAR(size_of(spot).largest / k, 1, 0.01);     // likewise
  const Length longitudinal = k / (part * 0.144296);   // marginal slope of the same table
  const Length best = best_shift(spot);
  EXPECT_NEAR(best / longitudinal, -2.0 / 3, 0.007);
  EXPECT_NEAR(size_of(spot, best).rms / k, 1.0 / 6, 0.002);
}

struct Focus {
  double field_deg, sagittal_mm, tangential_mm;
};

// Cross-check, not a truth: sagittal and tangential foci by Coddington's equations, worked out by
// a second program, from the paraxial focus; printed to 1e-6. Pencils of 0.1 mm have spherical
// aberration and coma below a micrometre.
TEST(Spot, OfANarrowPencilIsSharpAtItsTwoFoci) {
  const auto agree = [](const Prescription& prescription, const std::vector<Focus>& foci) {
    const LensModel lens = opened_to(prescription, 0.05 * mm);
    const FirstOrder first = *first_order(lens);
    for (const Focus& f : foci) {
      const Spot spot = *spot_of(lens, {f.field_deg * deg}, first.back_focal);
      EXPECT_NEAR(best_shift(spot, Lines::sagittal) / mm, f.sagittal_mm, 1e-3) << f.field_deg;
      EXPECT_NEAR(best_shift(spot, Lines::tangential) / mm, f.tangential_mm, 1e-3) << f.field_deg;
    }
  };
  agree(lenses::course_triplet(), {{10, -0.165473, -0.034363}, {20, -0.343190, -0.632064}});
  agree(lenses::slow_triplet(), {{10, -0.338818, 0.106109}, {23.4, -0.610385, -1.743214}});
}

// Truth: a uniform disc of light of diameter B leaves 2 J1(x) / x with x = pi B nu (its Fourier
// transform), B = shift / N. Aberrations of the tiny lens are below 1e-5 mm.
TEST(GeometricMtf, OfADefocusedLensIsThatOfADisc) {
  const FNumber aperture{8.8};
  const LensModel lens = tiny_triplet(aperture);
  const Spot spot = spot_on_axis(lens, conjugate(lens, unlimited)->image);
  for (const double shift_mm : {0.1, 0.5, 0.88}) {
    for (const double nu : {2.0, 5.0, 10.0}) {
      const double x = std::numbers::pi * shift_mm / aperture.value * nu;
      const double disc = 2 * boost::math::cyl_bessel_j(1, x) / x;
      for (const Lines lines : {Lines::sagittal, Lines::tangential}) {
        EXPECT_NEAR(geometric_mtf(spot, nu * lp_per_mm, lines, shift_mm * mm), disc, 0.004)
            << shift_mm << " " << nu;  // the cone's sines against tangents at f/8.8: 0.3 %
      }
    }
  }
}

// Law: no other film plane gives a smaller mean square, over one spot or several.
TEST(BestShift, IsTheLeastOfAll) {
  const LensModel lens = opened_to(lenses::course_triplet(), 6.25 * mm);
  const Length plane = first_order(lens)->back_focal;
  const std::vector<Spot> spots{*spot_of(lens, {0 * deg}, plane), *spot_of(lens, {14 * deg}, plane),
                                *spot_of(lens, {20 * deg}, plane)};
  const std::vector<double> weights{1, 2, 0.5};
  const auto mean_square = [&](Length shift) {
    double sum = 0;
    for (std::size_t i = 0; i < spots.size(); ++i) {
      const double rms = size_of(spots[i], shift).rms / mm;
      sum += weights[i] * rms * rms;
    }
    return sum;
  };
  const Length best = best_shift(spots, weights);
  EXPECT_LT(mean_square(best), mean_square(best + 0.02 * mm));
  EXPECT_LT(mean_square(best), mean_square(best - 0.02 * mm));
  EXPECT_LT(best, Length{});  // this lens's field curves towards it
}

// Law: a spot scales with its lens, and rays count by the pupil area they stand for however many
// there are.
TEST(Spot, ScalesAndDoesNotDependOnTheNumberOfRays) {
  const LensModel lens = opened_to(lenses::slow_triplet(), 6.25 * mm);
  const LensModel twice = opened_to(scaled(lenses::slow_triplet(), 2), 12.5 * mm);
  const Length plane = first_order(lens)->back_focal;
  const SubjectPoint subject{20 * deg};
  const Length rms = size_of(*spot_of(lens, subject, plane)).rms;
  EXPECT_NEAR(size_of(*spot_of(twice, subject, 2 * plane)).rms / rms, 2, 1e-6);
  EXPECT_NEAR(size_of(*spot_of(lens, subject, plane, 30, 90)).rms / rms, 1, 0.002);
}

TEST(Spot, IsEmptyWhereNoLightPasses) {
  const LensModel lens = opened_to(lenses::slow_triplet(), 6.25 * mm);
  EXPECT_FALSE(spot_of(lens, {70 * deg}, 85 * mm));
}

// Law: vignetting takes from the spot's rays what it takes from the light (see RelativeIllumination
// in beam_test): a rim that halves the bundle leaves a spot that is narrower on one side only.
TEST(Spot, KeepsOnlyWhatTheRimsPass) {
  LensModel lens = opened_to(lenses::slow_triplet(), 6.25 * mm);
  const Length plane = first_order(lens)->back_focal;
  const auto widths = [&] {
    const Spot spot = *spot_of(lens, {12 * deg}, plane);
    Length low;
    Length high;
    for (const Spot::Ray& r : spot.edge) {
      low = std::min(low, r.pupil_y);
      high = std::max(high, r.pupil_y);
    }
    return std::pair{low, high};
  };
  const auto whole = widths();
  lens.surfaces.back().clear_radius = 6.5 * mm;
  const auto trimmed = widths();
  EXPECT_LT(trimmed.second - trimmed.first, 0.8 * (whole.second - whole.first));
}

}  // namespace
}  // namespace backfit
