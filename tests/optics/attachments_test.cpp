// SPDX-License-Identifier: MIT
#include "optics/attachments.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "lenses.hpp"
#include "optics/focus.hpp"

namespace backfit {
namespace {

// Truth: the dioptre's definition. With the camera at infinity a close-up lens of D dioptres
// focuses 1000 mm / D away, whatever the camera's lens; set to 3 m and 1 m, lenses of 1, 2 and 3
// dioptres focus at 750, 428.571, 300 and 500, 333.333, 250 mm.
TEST(CloseUp, FocusesWhereItsPowerSays) {
  const double from_3_m[] = {750, 428.571, 300};
  const double from_1_m[] = {500, 333.333, 250};
  for (int d = 1; d <= 3; ++d) {
    EXPECT_NEAR(subject_through_close_up(unlimited, d * dioptre) / mm, 1000.0 / d, 1e-9);
    EXPECT_NEAR(subject_through_close_up(3000 * mm, d * dioptre) / mm, from_3_m[d - 1], 5e-4);
    EXPECT_NEAR(subject_through_close_up(1000 * mm, d * dioptre) / mm, from_1_m[d - 1], 5e-4);
  }
}

// Law: lens and close-up lens together are one thin lens that obeys Newton's equation: both ways
// to its subject and its magnification agree. Cross-check, not a truth: 114 mm with 1, 2, 3
// dioptres in contact and 10 mm apart, worked out apart from this program, its digits.
TEST(CloseUp, MakesOneLensWithTheCameras) {
  EXPECT_NEAR(focal_with_close_up(114 * mm, 1 * dioptre, Length{}) / mm, 102.333932, 1e-6);
  EXPECT_NEAR(focal_with_close_up(114 * mm, 2 * dioptre, Length{}) / mm, 92.833876, 1e-6);
  EXPECT_NEAR(focal_with_close_up(114 * mm, 3 * dioptre, Length{}) / mm, 84.947839, 1e-6);
  EXPECT_NEAR(focal_with_close_up(114 * mm, 1 * dioptre, 10 * mm) / mm, 103.260870, 1e-6);
  EXPECT_NEAR(focal_with_close_up(114 * mm, 2 * dioptre, 10 * mm) / mm, 94.370861, 1e-6);
  for (const double set_mm : {800.0, 2000.0, 1e5}) {
    for (const double d : {0.5, 1.0, 3.0}) {
      const Length focal = focal_with_close_up(114 * mm, d * dioptre, Length{});
      const Length e = *extension_for(114 * mm, set_mm * mm);
      const Length image = 114 * mm + e;
      const Length subject = subject_through_close_up(set_mm * mm, d * dioptre);
      EXPECT_NEAR((subject - focal) * (image - focal) / (focal * focal), 1, 1e-9);
      EXPECT_NEAR(magnification_with_close_up(114 * mm, d * dioptre, e), image / subject, 1e-9);
    }
  }
}

// Law: through an afocal attachment distances scale by its factor squared, but for a length of the
// attachment's own: what one metre more of setting gives is exactly that. Cross-check, not a
// truth: 1000 mm set is 3563.1095 mm through the invented attachment, by a second program.
TEST(Afocal, ScalesDistancesByItsFactorSquared) {
  const LensModel lens = model_of(lenses::tele_attachment(), line_d);
  const double factor = angular_magnification(lens);
  EXPECT_NEAR(*subject_through_afocal(lens, 1000 * mm) / mm, 3563.1095, 1e-4);
  const Length more =
      *subject_through_afocal(lens, 3000 * mm) - *subject_through_afocal(lens, 2000 * mm);
  EXPECT_NEAR(more / subject_through_afocal(1000 * mm, factor), 1, 1e-6);
}

// Law: the angle that the film sees is that of a lens whose focal length is the factor larger.
TEST(Afocal, NarrowsTheAngle) {
  const double tangent = tan(half_angle_with_afocal(114 * mm, 1.9, 60 * mm));
  EXPECT_NEAR(tangent, 60 / (1.9 * 114), 1e-12);
}

}  // namespace
}  // namespace backfit
