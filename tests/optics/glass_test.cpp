// SPDX-License-Identifier: MIT
#include "optics/glass.hpp"

#include <gtest/gtest.h>

#include <array>

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

struct Listed {
  Medium glass;
  double nd, abbe;          // as the maker lists them
  double at_f, at_d, at_c;  // by a second program
};

// Truth: as above, of four glasses of old lenses. Cross-check, not a truth: indices at three lines
// from the same coefficients by a second program, to its 6 digits.
TEST(Sellmeier, GivesTheGlassesOfOldLenses) {
  const auto glass = [](const std::array<double, 3>& b, const std::array<double, 3>& c) {
    return Medium::of_sellmeier(b, {c[0] * (um * um), c[1] * (um * um), c[2] * (um * um)});
  };
  const Listed list[] = {
      {glass({1.4306027, 0.153150554, 1.01390904}, {0.00823982975, 0.0333736841, 106.870822}),
       1.62229, 53.27, 1.630452, 1.622294, 1.618771},
      {glass({1.28189012, 0.257738258, 0.96818604}, {0.0072719164, 0.0242823527, 110.377773}),
       1.60738, 56.65, 1.614857, 1.607381, 1.604135},
      {glass({1.3104463, 0.19603426, 0.96612977}, {0.00958633048, 0.0457627627, 115.011883}),
       1.60342, 38.03, 1.614612, 1.603420, 1.598745},
      {glass({1.34317774, 0.241144399, 0.994317969}, {0.00704687339, 0.0229005, 92.7508526}),
       1.62041, 60.32, 1.627556, 1.620410, 1.617272}};
  for (const Listed& l : list) {
    const double d = *l.glass.index(line_d);
    const double f = *l.glass.index(line_f);
    const double c = *l.glass.index(line_c);
    EXPECT_NEAR(d, l.nd, 1e-5);
    EXPECT_NEAR((d - 1) / (f - c), l.abbe, 0.01);
    EXPECT_NEAR(f, l.at_f, 1e-6);
    EXPECT_NEAR(d, l.at_d, 1e-6);
    EXPECT_NEAR(c, l.at_c, 1e-6);
  }
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
