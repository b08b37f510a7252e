// SPDX-License-Identifier: MIT
#include "conversion/print_study.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "kestrel.hpp"

namespace backfit {
namespace {

// Truth: large-format-selecting-stop in data/sources.toml (READ): a circle of 0.1 mm on the film
// stands for twice its size. Law: the blur is the root of the sum of squares of defocus and
// diffraction, worked out here from the report's own plane error.
TEST(PrintStudy, SaysHowLargeAPrintTheBlurSupports) {
  const Kestrel k;
  const PrintStudy& s = k.report->print;
  EXPECT_NEAR(s.by_circle.enlargement, 2, 1e-12);
  EXPECT_NEAR(s.by_circle.size.width / k.report->frame.picture.width, 2, 1e-12);
  const Estimate<Length>& error = k.report->focus.plane_error;
  const double off_mm =
      std::abs(error.value / mm) + coverage_95 * (error.standard_uncertainty / mm);
  ASSERT_EQ(s.rows.size(), k.report->assembly.camera.lens.apertures.size());
  for (const PrintStudy::Row& row : s.rows) {
    const double n = row.aperture.value;
    const double blur_mm = std::hypot(off_mm / n, n / 750);
    EXPECT_NEAR(row.blur / mm, blur_mm, 1e-9);
    EXPECT_NEAR(row.print.enlargement, 0.2 / blur_mm, 1e-9);
  }
  EXPECT_FALSE(s.traced);
}

// Law: with the middle focused the middle is sharpest there, and the corner no sharper than it.
TEST(PrintStudy, TracesTheContrastOfAPrescription) {
  const std::string path = std::string(BACKFIT_SOURCE_DIR) + "/data/lenses/triplet-f8.lens.toml";
  const Kestrel k({{"kind = \"triplet\"", "kind = \"triplet\"\nprescription = \"" + path + "\""}});
  PrintStudy s = k.report->print;
  EXPECT_FALSE(s.traced);
  add_contrast(s, k.report->assembly, k.report->frame.picture);
  ASSERT_TRUE(s.traced);
  ASSERT_EQ(s.places, (std::vector<std::string>{"centre", "side", "corner"}));
  EXPECT_NEAR(s.traced->frequencies[0] / lp_per_mm, 10, 1e-9);
  const ImageQuality::Light& centre = *s.traced->points[0].light;
  const double focused = s.traced->at(centre.by_waves, 1, 0).sagittal;
  EXPECT_GE(focused, s.traced->at(centre.by_waves, 0, 0).sagittal);
  EXPECT_GE(focused, s.traced->at(centre.by_waves, 2, 0).sagittal);
  const ImageQuality::Light& corner = *s.traced->points[2].light;
  EXPECT_NEAR(corner.height / mm, k.report->frame.picture.diagonal() / 2 / mm, 0.5);
  EXPECT_LE(s.traced->at(corner.by_waves, 1, 0).tangential, focused);
}

}  // namespace
}  // namespace backfit
