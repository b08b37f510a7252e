// SPDX-License-Identifier: MIT
#include "optics/paraxial.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "lenses.hpp"
#include "optics/trace.hpp"

namespace backfit {
namespace {

LensModel at_d(const Prescription& lens) { return model_of(lens, line_d); }

// Truth: modern-optical-engineering in data/sources.toml, p. 119 (READ): focal length 101.181,
// back focal distance 77.405, length 39.08, Petzval radius -2.935 focal lengths. Tolerance: half
// the last printed digit.
TEST(FirstOrder, OfTheHandbookTriplet) {
  const LensModel lens = at_d(lenses::handbook_triplet());
  const FirstOrder f = *first_order(lens);
  EXPECT_NEAR(f.focal / mm, 101.181, 0.0005);
  EXPECT_NEAR(f.back_focal / mm, 77.405, 0.0005);
  EXPECT_NEAR(f.length / mm, 39.08, 1e-9);
  EXPECT_NEAR(-1 / (petzval_sum(lens) * f.focal), -2.935, 0.0005);
}

// Truth: the same, table 6.1 (READ): an axial ray 14.6 mm high and a principal ray of slope 0.21.
// The table's digits look like 32-bit arithmetic.
TEST(ParaxialPath, FollowsTheHandbooksTable) {
  const LensModel lens = at_d(lenses::handbook_triplet());
  const auto axial = paraxial_path(lens, {14.6 * mm, 0});
  const auto principal = paraxial_path(lens, {-6.411174 * mm, 0.21});
  const double table[7][4] = {
      {14.6, -0.148315, -6.411174, 0.195343},      {13.724943, -0.263817, -5.25865, 0.324469},
      {10.313791, -0.065055, -1.063264, 0.187124}, {10.151154, 0.073436, -0.595454, 0.297727},
      {10.298026, 0.073436, 0, 0.297727},          {11.021371, 0.025062, 2.932611, 0.179164},
      {11.169234, -0.144296, 3.989677, 0.222961}};
  for (std::size_t i = 0; i < 7; ++i) {
    EXPECT_NEAR(axial[i].height / mm, table[i][0], 1e-5) << i;
    EXPECT_NEAR(axial[i].slope, table[i][1], 1e-6) << i;
    EXPECT_NEAR(principal[i].height / mm, table[i][2], 1e-5) << i;
    EXPECT_NEAR(principal[i].slope, table[i][3], 1e-6) << i;
  }
  const Length at_focus = principal.back().height + principal.back().slope * (77.405 * mm);
  EXPECT_NEAR(at_focus / mm, 21.248022, 1e-4);
}

// Truth: the same, table 6.3 (READ): transverse third-order aberrations by surface, S / (2 u').
TEST(ThirdOrder, AgreesWithTheHandbookSurfaceBySurface) {
  const ThirdOrder t = third_order(at_d(lenses::handbook_triplet()), 14.6 * mm, 0.21);
  const double table[6][5] = {{-0.709019, -0.070068, -0.006924, -0.330897, -0.033385},
                              {-0.75536, 0.844458, -0.944066, -0.036241, 1.095939},
                              {2.049816, -1.416428, 0.978756, 0.300215, -0.883772},
                              {0.493011, 0.393733, 0.314447, 0.351763, 0.532055},
                              {-0.035845, -0.087854, -0.215325, -0.06051, -0.676055},
                              {-1.229178, 0.317877, -0.082206, -0.334022, 0.107641}};
  const std::size_t surfaces[] = {0, 1, 2, 3, 5, 6};
  const auto transverse = [&t](const Seidel& s) {
    const Length k = mm * (2 * t.image_slope);
    return std::array{s.s1 / k, s.s2 / k, s.s3 / k, s.s4 / k, s.s5 / k};
  };
  for (std::size_t i = 0; i < 6; ++i) {
    const auto here = transverse(t.surfaces[surfaces[i]]);
    for (std::size_t k = 0; k < 5; ++k) EXPECT_NEAR(here[k], table[i][k], 2e-5) << i << " " << k;
  }
  const double sums[] = {-0.186575, -0.018282, 0.044681, -0.109691, 0.142422};
  for (std::size_t k = 0; k < 5; ++k) EXPECT_NEAR(transverse(t.sum)[k], sums[k], 2e-5) << k;
}

// Truth: the same (READ): axial colour -0.022389 and lateral 0.027401, F less C. The dispersions
// are the glass catalogue's, which the handbook's figures need not share to the last digit.
TEST(Colour, AgreesWithTheHandbook) {
  const LensModel d = at_d(lenses::handbook_triplet());
  LensModel f = d;
  LensModel c = d;
  const auto spread = [](double& index, double by) {
    if (index > 1.64) {
      index += by * 0.019135 / 2;
    } else if (index > 1) {
      index += by * 0.010450 / 2;
    }
  };
  for (std::size_t i = 0; i < d.surfaces.size(); ++i) {
    spread(f.surfaces[i].index_before, 1);
    spread(f.surfaces[i].index_after, 1);
    spread(c.surfaces[i].index_before, -1);
    spread(c.surfaces[i].index_after, -1);
  }
  const Colour colour_ = colour(d, f, c, 14.6 * mm, 0.21);
  EXPECT_NEAR(colour_.axial / mm, -0.022389, 6e-5);
  EXPECT_NEAR(colour_.lateral / mm, 0.027401, 6e-5);
}

// Truth: lens-design-course in data/sources.toml (READ). Tolerance: half the last printed digit.
TEST(FirstOrder, OfTheCourseTriplet) {
  const LensModel lens = at_d(lenses::course_triplet());
  const FirstOrder f = *first_order(lens);
  const Pupils p = pupils(lens);
  EXPECT_NEAR(f.focal / mm, 50, 0.005);
  EXPECT_NEAR(f.front_focal / mm, -37.1, 0.05);
  EXPECT_NEAR(f.front_principal() / mm, 12.9, 0.05);
  EXPECT_NEAR(f.back_focal / mm, 41.24, 0.005);
  EXPECT_NEAR(f.back_principal() / mm, -8.763, 0.0005);
  EXPECT_NEAR(f.hiatus() / mm, -2.047, 0.0005);
  EXPECT_NEAR(p.entrance / mm, 11.68, 0.005);
  EXPECT_NEAR(p.exit / mm, -10.01, 0.005);
  EXPECT_NEAR(6.25 * p.magnification, 6.406, 0.0005);
}

// Truth: the same (READ): Seidel sums and, in wavelengths of the d line, the wave aberrations.
TEST(ThirdOrder, OfTheCourseTriplet) {
  const ThirdOrder t = third_order(at_d(lenses::course_triplet()), 6.25 * mm, tan(20 * deg));
  const Seidel& s = t.sum;
  const double sums[] = {s.s1 / mm, s.s2 / mm, s.s3 / mm, s.s4 / mm, s.s5 / mm};
  const double stated[] = {.010973, -.000912, -.010832, .036297, -.004597};
  for (std::size_t k = 0; k < 5; ++k) EXPECT_NEAR(sums[k], stated[k], 2e-6) << k;
  EXPECT_NEAR(s.s1 / 8 / line_d, 2.334457, 3e-4);
  EXPECT_NEAR(s.s2 / 2 / line_d, -.776108, 3e-4);
  EXPECT_NEAR(s.s3 / 2 / line_d, -9.218154, 3e-4);
  EXPECT_NEAR((s.s3 + s.s4) / 4 / line_d, 10.834770, 3e-4);
  EXPECT_NEAR(s.s5 / 2 / line_d, -3.911650, 3e-4);
}

// Truth: modern-lens-design in data/sources.toml (READ): pupil radii 6.25 and 6.561. Their air has
// an index of its own, which makes their lengths differ in the fourth figure; the ratio holds.
TEST(Pupils, OfTheSlowTriplet) {
  const Pupils p = pupils(at_d(lenses::slow_triplet()));
  EXPECT_NEAR(p.magnification, 6.561 / 6.25, 2e-4);
  EXPECT_NEAR(p.entrance / mm, 18.563, 0.005);
  EXPECT_NEAR(p.exit / mm, -19.504, 0.005);
}

// Law: Newton's (s - f)(s' - f) = f^2 and N_eff = N (1 + |m| / P), from the marginal ray itself.
TEST(Conjugate, ObeysNewtonAndTheBellowsRule) {
  for (const Prescription& p : lenses::all()) {
    const LensModel lens = at_d(p);
    const FirstOrder f = *first_order(lens);
    const Pupils pupil = pupils(lens);
    for (const double before_mm : {200.0, 500.0, 1000.0, 1e5}) {
      const Conjugate c = *conjugate(lens, before_mm * mm);
      const Length s = before_mm * mm + f.front_principal();
      const Length image = c.image - f.back_principal();
      EXPECT_NEAR((s - f.focal) * (image - f.focal) / (f.focal * f.focal), 1, 1e-9);
      EXPECT_NEAR(c.magnification, -(f.focal / (s - f.focal)), 1e-9);
      const Length radius = 5 * mm;
      const double n = f.focal / (2 * radius);
      EXPECT_NEAR(0.5 / c.cone(radius) / (n * (1 - c.magnification / pupil.magnification)), 1,
                  1e-9);
    }
  }
}

// Law: a lens keeps its focal length when it is turned round.
TEST(FirstOrder, KeepsTheFocalLengthTurnedRound) {
  for (const Prescription& p : lenses::all()) {
    const LensModel lens = at_d(p);
    EXPECT_NEAR(first_order(turned_round(lens))->focal / first_order(lens)->focal, 1, 1e-12);
    EXPECT_NEAR(pupils(turned_round(lens)).magnification * pupils(lens).magnification, 1, 1e-12);
  }
}

// Law: everything scales.
TEST(FirstOrder, ScalesWithTheLens) {
  for (const Prescription& p : lenses::all()) {
    const LensModel lens = at_d(p);
    const LensModel larger = at_d(scaled(p, 1.18));
    EXPECT_NEAR(first_order(larger)->focal / first_order(lens)->focal, 1.18, 1e-12);
    EXPECT_NEAR(petzval_sum(larger) / petzval_sum(lens), 1 / 1.18, 1e-12);
    EXPECT_NEAR(third_order(larger, 1.18 * mm, 0.2).sum.s5 / third_order(lens, 1 * mm, 0.2).sum.s5,
                1.18, 1e-9);
  }
}

// Law: an afocal attachment multiplies the focal length by its angular magnification and leaves
// the back focal distance as it was, whatever the gap.
TEST(Joined, AfocalAttachmentMultipliesTheFocalLength) {
  const Prescription front = lenses::tele_attachment();
  const LensModel alone = at_d(lenses::slow_triplet());
  const double factor = angular_magnification(at_d(front));
  EXPECT_FALSE(first_order(at_d(front)));
  for (const double gap_mm : {5.0, 12.0}) {
    const LensModel both = at_d(joined(front, gap_mm * mm, lenses::slow_triplet()));
    EXPECT_NEAR(first_order(both)->focal / (factor * first_order(alone)->focal), 1, 1e-9);
    EXPECT_NEAR((first_order(both)->back_focal - first_order(alone)->back_focal) / mm, 0, 1e-7);
    EXPECT_NEAR(pupils(alone).stop_over_entrance / pupils(both).stop_over_entrance, factor, 1e-9);
  }
}

// A lens that is its own mirror image about the stop.
LensModel symmetrical(double index) {
  return at_d(
      lenses::lens_of({{30, 5, index}, {200, 4, 1}, {0, 4, 1}, {-200, 5, index}, {-30, 0, 1}}, 2));
}

// Law: of such a lens exit and entrance pupil are each other's mirror image.
TEST(Pupils, OfASymmetricalLensAreAlike) {
  const Pupils p = pupils(symmetrical(1.6));
  EXPECT_NEAR(p.magnification, 1, 1e-12);
  EXPECT_NEAR((p.entrance + p.exit) / mm, 0, 1e-9);
}

// Law: at -1x such a lens has no coma and no distortion of third order, whatever its glass; what
// the halves have of either cancels.
TEST(ThirdOrder, OfASymmetricalLensAtEqualConjugatesHasNoComaAndNoDistortion) {
  for (const double index : {1.45, 1.6, 1.8}) {
    const LensModel lens = symmetrical(index);
    const FirstOrder f = *first_order(lens);
    const ThirdOrder t = third_order(lens, 4 * mm, 0.2, 2 * f.focal - f.front_principal());
    EXPECT_NEAR(t.sum.s2 / mm, 0, 1e-12);
    EXPECT_NEAR(t.sum.s5 / mm, 0, 1e-12);
    EXPECT_GT(std::abs(t.surfaces.front().s2 / mm), 1e-3);
    EXPECT_GT(std::abs(third_order(lens, 4 * mm, 0.2).sum.s2 / mm), 1e-3);
  }
}

// Law: near the axis real rays of a near object miss its paraxial image by S1 / (2 u').
TEST(ThirdOrder, IsWhatRaysOfANearObjectDoNearTheAxis) {
  const LensModel lens = at_d(lenses::slow_triplet());
  const Length object = 350 * mm, radius = 0.5 * mm;
  const ThirdOrder t = third_order(lens, radius, 0.1, object);
  const Length image = lens.surfaces.back().z + conjugate(lens, object)->image;
  const Ray ray = aimed_ray(lens, {Angle{}, object}, Length{}, radius);
  const Length missed = at_plane(traced(lens, ray).ray, image).y;
  EXPECT_NEAR(missed / (t.sum.s1 / (2 * t.image_slope)), 1, 2e-3);  // the next order: radius^2
}

}  // namespace
}  // namespace backfit
