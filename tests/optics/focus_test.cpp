// SPDX-License-Identifier: MIT
#include "optics/focus.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace backfit {
namespace {

// Truth: Newton's form (s - f)(s' - f) = f^2, in Jacobson, Photographic Lenses Tutorial (1995),
// question 4, READ. Values for f = 114 mm computed from it by hand; tolerance is their rounding.
TEST(Extension, FollowsNewtonsEquation) {
  EXPECT_NEAR(extension_for(114 * mm, 1000 * mm)->in(mm), 14.668172, 5e-7);
  EXPECT_NEAR(extension_for(114 * mm, 1200 * mm)->in(mm), 11.966851, 5e-7);
  EXPECT_FALSE(extension_for(114 * mm, 114 * mm));
  EXPECT_FALSE(extension_for(114 * mm, 50 * mm));
}

// Truth: langford (abstract of a chapter of Langford's Basic Photography, READ): showing a subject
// at half its size takes a bellows of one and a half focal lengths, 2 1/4 times the exposure.
TEST(Magnification, OfHalfSizeTakesHalfAFocalLengthOfExtension) {
  const Length extension = *extension_for(80 * mm, 240 * mm);
  EXPECT_DOUBLE_EQ(magnification(80 * mm, extension), 0.5);
  const double bellows = 1 + magnification(80 * mm, extension);
  EXPECT_DOUBLE_EQ(bellows * bellows, 2.25);
}

// Law: the two conversions undo each other, over four decades of distance.
TEST(Extension, AndSubjectUndoEachOther) {
  for (const double f : {20.0, 50.0, 118.0, 300.0}) {
    for (int step = 0; step < 18; ++step) {
      const double s = 1.1 * f * std::pow(1.7, step);
      const Length back = *subject_for(f * mm, *extension_for(f * mm, s * mm));
      EXPECT_NEAR(back.in(mm), s, 1e-10 * s);  // rounding only
    }
  }
  EXPECT_FALSE(subject_for(118 * mm, 0 * mm));
  EXPECT_FALSE(subject_for(118 * mm, -1 * mm));
}

// Truth: depth-of-focus table in a set of technical notes on large-format photography (READ),
// "N = D / 2c": for c = 0.066 mm total depths 1.4 2.1 3.0 4.2 6.0 8.5 mm go with f/11 to f/64, for
// c = 0.1 mm 2.2 3.2 4.5 6.4 9.0 12.8 mm. Tolerance: the table's printed tenth of a millimetre.
TEST(DepthOfFocus, AgreesWithTheLargeFormatTable) {
  const double stops[] = {11, 16, 22, 32, 45, 64};
  const double fine[] = {1.4, 2.1, 3.0, 4.2, 6.0, 8.5};
  const double coarse[] = {2.2, 3.2, 4.5, 6.4, 9.0, 12.8};
  for (int i = 0; i < 6; ++i) {
    EXPECT_NEAR(2 * depth_of_focus({stops[i]}, 0.066 * mm, 0, 1).in(mm), fine[i], 0.1);
    EXPECT_NEAR(2 * depth_of_focus({stops[i]}, 0.1 * mm, 0, 1).in(mm), coarse[i], 0.1);
  }
}

// Law: at life size the effective f-number has doubled (pupil magnification 1).
TEST(DepthOfFocus, DoublesAtLifeSize) {
  const Length far = depth_of_focus({9}, 0.1 * mm, 0, 1);
  EXPECT_DOUBLE_EQ(depth_of_focus({9}, 0.1 * mm, 1, 1) / far, 2);
  EXPECT_DOUBLE_EQ(depth_of_focus({9}, 0.1 * mm, 1, 0.5) / far, 3);
}

// Truth: the closed form s = f + f^2 / (f^2 / (s0 - f) + d) tabulated for f = 114 mm by an
// independent computation; tolerance its printed digits.
TEST(EngravedScale, ShiftsAsTheTableSays) {
  const struct {
    double farther, engraved, really;
  } rows[] = {{1, 10000, 5728.826},   {1, 3000, 2475.570},     {1, 1500, 1366.431},
              {1, 1000, 943.452},     {0.25, 10000, 8420.349}, {0.25, 1000, 985.152},
              {-1, 10000, 41425.401}, {-1, 3000, 3823.837},    {-1, 1000, 1064.822}};
  for (const auto& row : rows) {
    const auto s = subject_at_mark(114 * mm, row.engraved * mm, row.farther * mm);
    ASSERT_TRUE(s.has_value());
    EXPECT_NEAR(s->in(mm), row.really, 5e-4);
  }
  EXPECT_FALSE(subject_at_mark(114 * mm, 100 * metre, -1 * mm));
}

}  // namespace
}  // namespace backfit
