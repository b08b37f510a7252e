// SPDX-License-Identifier: MIT
#include "timer/preferred.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace backfit {
namespace {

using testing::ElementsAre;
using testing::ElementsAreArray;

// Truth: iec-60063-lists in data/sources.toml (READ; of E96 the numbers above 787 were not there
// and are the rule's), to the digit.
TEST(PreferredNumbers, AreThoseOfTheStandard) {
  EXPECT_THAT(preferred_numbers(Series::e6), ElementsAre(10, 15, 22, 33, 47, 68));
  EXPECT_THAT(preferred_numbers(Series::e12),
              ElementsAre(10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82));
  EXPECT_THAT(preferred_numbers(Series::e24),
              ElementsAre(10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51,
                          56, 62, 68, 75, 82, 91));
  EXPECT_THAT(preferred_numbers(Series::e48),
              ElementsAreArray({100, 105, 110, 115, 121, 127, 133, 140, 147, 154, 162, 169,
                                178, 187, 196, 205, 215, 226, 237, 249, 261, 274, 287, 301,
                                316, 332, 348, 365, 383, 402, 422, 442, 464, 487, 511, 536,
                                562, 590, 619, 649, 681, 715, 750, 787, 825, 866, 909, 953}));
  EXPECT_THAT(
      preferred_numbers(Series::e96),
      ElementsAreArray({100, 102, 105, 107, 110, 113, 115, 118, 121, 124, 127, 130, 133, 137,
                        140, 143, 147, 150, 154, 158, 162, 165, 169, 174, 178, 182, 187, 191,
                        196, 200, 205, 210, 215, 221, 226, 232, 237, 243, 249, 255, 261, 267,
                        274, 280, 287, 294, 301, 309, 316, 324, 332, 340, 348, 357, 365, 374,
                        383, 392, 402, 412, 422, 432, 442, 453, 464, 475, 487, 499, 511, 523,
                        536, 549, 562, 576, 590, 604, 619, 634, 649, 665, 681, 698, 715, 732,
                        750, 768, 787, 806, 825, 845, 866, 887, 909, 931, 953, 976}));
}

// Truth: preferred-number-notes in data/sources.toml (READ): E24 departs from the rounded powers.
// By the lists above it does so at eight numbers.
TEST(PreferredNumbers, DepartFromTheRuleAtEightOfE24) {
  int apart = 0;
  const auto numbers = preferred_numbers(Series::e24);
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    apart += numbers[i] != std::lround(10 * std::pow(10, double(i) / 24)) ? 1 : 0;
  }
  EXPECT_EQ(apart, 8);
}

TEST(PreferredResistors, RunFromTheLeastToTheMost) {
  const auto list = preferred_resistors(Series::e6, 4.7 * ohm, 1 * Mohm);
  EXPECT_EQ(list.front(), 4.7 * ohm);
  EXPECT_EQ(list.back(), 1 * Mohm);
  EXPECT_EQ(list.size(), 33U);  // 4.7 and 6.8, five decades of six, 1 M
  EXPECT_TRUE(std::is_sorted(list.begin(), list.end()));
  EXPECT_EQ(preferred_resistors(Series::e96, 0.1 * kohm, 0.1 * kohm).size(), 1U);
}

}  // namespace
}  // namespace backfit
