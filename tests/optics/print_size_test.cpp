// SPDX-License-Identifier: MIT
#include "optics/print_size.hpp"

#include <gtest/gtest.h>

namespace backfit {
namespace {

constexpr Length at_reading_distance = 250 * mm;

// Truth: large-format-selecting-stop in data/sources.toml (READ): 35 mm film to a 6 x 8 in print,
// 6.25 times, asks for 0.032 mm; 4 x 5 in to 8 x 10 in, twice, for 0.1 mm. From 1 m four times the
// blur is unseen.
TEST(Enlargement, IsTheOneThatTheCircleOfConfusionStandsFor) {
  EXPECT_NEAR(enlargement_of(0.032 * mm, at_reading_distance), 6.25, 0.01);
  EXPECT_NEAR(enlargement_of(0.1 * mm, at_reading_distance), 2, 1e-12);
  EXPECT_NEAR(enlargement_of(0.1 * mm, 1000 * mm), 8, 1e-12);
}

// Truth: the same source's table (READ), printed to 0.001 mm.
TEST(DiffractionBlur, IsTheTables) {
  for (const auto& [n, blur_mm] : {std::pair{11.0, 0.014},
                                   {16.0, 0.021},
                                   {22.0, 0.029},
                                   {32.0, 0.042},
                                   {45.0, 0.059},
                                   {64.0, 0.085}}) {
    EXPECT_NEAR(diffraction_blur({n}) / mm, blur_mm, 0.0011) << n;  // the table cuts digits off
  }
}

// Truth: the same source: a focus spread of 10 mm asks for f/61, one of 1.3 mm for f/22.
// Law: the blur is larger on both sides.
TEST(SharpestStop, LiesBetweenDefocusAndDiffraction) {
  EXPECT_NEAR(sharpest_stop(5 * mm).value, 61.2, 0.05);
  EXPECT_NEAR(sharpest_stop(0.65 * mm).value, 22.1, 0.05);
  const FNumber best = sharpest_stop(0.65 * mm);
  const Length least = blur_of(0.65 * mm, best);
  EXPECT_GT(blur_of(0.65 * mm, {best.value * 1.1}), least);
  EXPECT_GT(blur_of(0.65 * mm, {best.value / 1.1}), least);
}

}  // namespace
}  // namespace backfit
