// SPDX-License-Identifier: MIT
#include "optics/depth_of_field.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "optics/focus.hpp"

namespace backfit {
namespace {

// Truth: the textbook closed forms f^2/(N c) + f and s f^2 / (f^2 +- N c (s - f)), the rule in
// words READ (sharpness-from-a-distance in data/sources.toml); figures computed apart from this
// program, tolerance their printed digits.
TEST(SharpRange, FollowsTheClosedForms) {
  const struct {
    double focal, stop, circle, subject, hyperfocal, near, far;
  } rows[] = {{114, 8.8, 0.1, 3000, 14882.1818, 2509.5780, 3728.6541},
              {114, 8.8, 0.1, 1000, 14882.1818, 943.4017, 1063.8228},
              {50, 8, 0.03, 3000, 10466.6667, 2337.9052, 4185.2679},
              {150, 22, 0.1, 5000, 10377.2727, 3391.6189, 9509.7210},
              {105, 11, 0.05, 2000, 20150.4545, 1827.2597, 2208.8102}};
  for (const auto& row : rows) {
    const Sharpness sharpness{row.focal * mm, {row.stop}, row.circle * mm};
    EXPECT_NEAR(hyperfocal_distance(sharpness) / mm, row.hyperfocal, 5e-5);
    const SharpRange range = sharp_range(sharpness, row.subject * mm);
    EXPECT_NEAR(range.near / mm, row.near, 5e-5);
    ASSERT_TRUE(range.far);
    EXPECT_NEAR(*range.far / mm, row.far, 5e-5);
  }
}

const Sharpness slow{118 * mm, {9}, 0.1 * mm};

// Truth: the same entry (READ): focused at the hyperfocal distance, all from half of it is sharp.
TEST(SharpRange, AtTheHyperfocalDistanceReachesFromHalfOfItToInfinity) {
  const Length hyperfocal = hyperfocal_distance(slow);
  const SharpRange range = sharp_range(slow, hyperfocal * (1 + 1e-12));
  EXPECT_NEAR(range.near / hyperfocal, 0.5, 1e-11);
  EXPECT_FALSE(range.far);
  EXPECT_TRUE(sharp_range(slow, 0.999 * hyperfocal).far);
  // Law: focused at infinity it is sharp from the hyperfocal distance on, counted from the front
  // focal point; the limit of ever farther subjects.
  const SharpRange farthest = sharp_range(slow, std::numeric_limits<double>::infinity() * mm);
  EXPECT_FALSE(farthest.far);
  EXPECT_NEAR(farthest.near / mm, (hyperfocal - slow.focal) / mm, 1e-6);
  EXPECT_NEAR(farthest.near / mm, sharp_range(slow, 1e12 * mm).near / mm, 1e-3);
}

// Law: near, subject and far, counted from the entrance pupil, are in harmonic proportion:
// 1/near + 1/far = 2/subject.
TEST(SharpRange, IsHarmonicAboutTheSubject) {
  for (const double pupils : {0.7, 1.0, 1.3}) {
    Sharpness sharpness = slow;
    sharpness.pupil_magnification = pupils;
    const double pupil = 118 * (1 - 1 / pupils);
    for (int i = 0; i < 11; ++i) {
      const double s = 200 * std::pow(1.5, i);
      const SharpRange range = sharp_range(sharpness, s * mm);
      EXPECT_NEAR(1 / (range.near / mm - pupil) + 1 / (*range.far / mm - pupil), 2 / (s - pupil),
                  1e-12);
    }
  }
}

// Law: what the film sees. The images of the near and the far limit lie about one depth of focus
// behind and before the film; the second order, N c / f of it, is all that is allowed.
TEST(SharpRange, IsDepthOfFocusSeenFromTheOtherSide) {
  for (const double pupils : {0.8, 1.0, 1.25}) {
    const Sharpness fine{118 * mm, {9}, 0.001 * mm, pupils};
    for (const double s : {250.0, 400.0, 1000.0}) {
      const Length sharp = *extension_for(fine.focal, s * mm);
      const Length depth =
          depth_of_focus(fine.aperture, fine.circle, magnification(fine.focal, sharp), pupils);
      const SharpRange range = sharp_range(fine, s * mm);
      EXPECT_NEAR((*extension_for(fine.focal, range.near) - sharp) / depth, 1, 5e-4);
      EXPECT_NEAR((sharp - *extension_for(fine.focal, *range.far)) / depth, 1, 5e-4);
    }
  }
}

// Truth: the triplet of Smith, Modern Optical Engineering, 4th ed., p. 119: a paraxial trace of its
// READ prescription, computed apart from this program, puts the entrance pupil 30.5294 mm and the
// front principal point 24.2845 mm behind its first surface, pupil magnification 0.941868. As the
// blur grows without bound, the near limit falls on the pupil.
TEST(SharpRange, ShrinksOntoTheEntrancePupil) {
  const Sharpness blurred{101.1813 * mm, {3.5}, 1e9 * mm, 0.941868};
  EXPECT_NEAR(sharp_range(blurred, 1000 * mm).near / mm, 24.2845 - 30.5294, 1e-3);
}

// Truth: t = s + s' with 1/s + 1/s' = 1/f; figures computed apart from this program, their digits.
TEST(SubjectBeforeLens, IsTheLongerConjugate) {
  const struct {
    double to_film, hiatus, subject, extension;
  } rows[] = {{1200, 0, 1072.44047, 13.55953},
              {1200, -4.667, 1077.17411, 13.49289},
              {1000, 3, 865.71145, 17.28855}};
  for (const auto& row : rows) {
    const auto s = subject_before_lens(114 * mm, row.to_film * mm, row.hiatus * mm);
    ASSERT_TRUE(s);
    EXPECT_NEAR(*s / mm, row.subject, 5e-6);
    EXPECT_NEAR(*extension_for(114 * mm, *s) / mm, row.extension, 5e-6);
  }
}

// Truth: elementary; life size is reached with subject and image two focal lengths away each.
TEST(SubjectBeforeLens, EndsAtLifeSize) {
  EXPECT_NEAR(*subject_before_lens(100 * mm, 400 * mm, 0 * mm) / mm, 200, 1e-9);
  EXPECT_FALSE(subject_before_lens(100 * mm, 399.9 * mm, 0 * mm));
}

}  // namespace
}  // namespace backfit
