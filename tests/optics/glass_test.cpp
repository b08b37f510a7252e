// SPDX-License-Identifier: MIT
#include "optics/glass.hpp"

#include <gtest/gtest.h>

namespace backfit {
namespace {

// Coefficients of two glasses: glass-database in data/sources.toml (READ).
Medium borosilicate_crown() {
  return Medium::of_sellmeier(
      {1.03961212, 0.231792344, 1.01046945},
      {0.00600069867 * (um * um), 0.0200179144 * (um * um), 103.560653 * (um * um)});
}
Medium dense_flint() {
  return Medium::of_sellmeier(
      {1.52481889, 0.187085527, 1.42729015},
      {0.011254756 * (um * um), 0.0588995392 * (um * um), 129.141675 * (um * um)});
}

// Truth: the maker's listed index and Abbe number (the same source, READ), 1.5168 with 64.17 and
// 1.67271 with 32.25. Tolerance: their last digit.
TEST(Sellmeier, GivesTheListedIndexAndAbbeNumber) {
  const auto abbe = [](const Medium& m) {
    return (*m.index(line_d) - 1) / (*m.index(line_f) - *m.index(line_c));
  };
  EXPECT_NEAR(*borosilicate_crown().index(line_d), 1.51680, 1e-5);
  EXPECT_NEAR(abbe(borosilicate_crown()), 64.17, 0.01);
  EXPECT_NEAR(*dense_flint().index(line_d), 1.67271, 1e-5);
  EXPECT_NEAR(abbe(dense_flint()), 32.25, 0.01);
}

// Law: the two-term formula returns the index and the Abbe number it was made of, and lies within
// 2e-4 of a real glass over the visible.
TEST(TwoTerms, ReturnWhatTheyWereMadeOf) {
  const Medium m = Medium::of_abbe(1.5168, 64.17);
  EXPECT_NEAR(*m.index(line_d), 1.5168, 1e-12);
  EXPECT_NEAR((*m.index(line_d) - 1) / (*m.index(line_f) - *m.index(line_c)), 64.17, 1e-9);
  for (const Length w : {440 * nm, line_f, 546 * nm, line_c}) {
    EXPECT_NEAR(*m.index(w), *borosilicate_crown().index(w), 2e-4);
  }
}

TEST(Index, IsUnknownAwayFromTheLineThatItWasGivenFor) {
  EXPECT_EQ(Medium::of_index(1.6).index(line_d), 1.6);
  EXPECT_FALSE(Medium::of_index(1.6).index(line_f));
  EXPECT_EQ(Medium::air().index(line_f), 1);
  EXPECT_FALSE(Medium::of_index(0.9).index(line_d));
}

}  // namespace
}  // namespace backfit
