// SPDX-License-Identifier: MIT
#include "parts/lens_spacer.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "piece_checks.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

LensSpacer sample() {
  LensSpacer s;
  s.width = 60 * mm;
  s.height = 64 * mm;
  s.corner_radius = 3 * mm;
  s.opening = 34 * mm;
  s.screws = {{25 * mm, 25 * mm}, {-25 * mm, 25 * mm}, {25 * mm, -25 * mm}, {-25 * mm, -25 * mm}};
  s.screw_hole = 2.5 * mm;
  s.printed = 1.8 * mm;
  s.shims = {0.5 * mm, 0.1 * mm, 0.1 * mm};
  s.wanted = 2.52 * mm;
  s.front = -114.5 * mm;
  s.smallest_wall = 1.2 * mm;
  s.shim_sheet = "brass";
  s.error = 0.1 * mm;
  s.shim_error = 0.02 * mm;
  return s;
}

// Truth: by hand, the area of outline, opening and holes times the thickness.
TEST(LensSpacer, LayersAreTheOutlineLessItsHoles) {
  expect_no_faults(sample());
  const double area = 60 * 64 - (4 - pi) * 9 - pi * 17 * 17 - 4 * pi / 4 * 2.5 * 2.5;
  EXPECT_NEAR(area_of(sample()) / (mm * mm), area, 1e-9);
  expect_well_made(layer_of(sample(), 1.8 * mm), area * 1.8 * mm3, "spacer");
  LensSpacer round = sample();
  round.round = true;
  round.width = round.height = 52 * mm;
  round.corner_radius = {};
  round.screws = {{22 * mm, 0 * mm}, {-22 * mm, 0 * mm}};
  expect_no_faults(round);
  expect_well_made(layer_of(round, 0.1 * mm),
                   (pi * (26 * 26 - 17 * 17) - 2 * pi / 4 * 6.25) * 0.1 * mm3, "shim");
  expect_good_set(set_of(round));
}

// Law: the stack fills the way from the board to where it stood, without gaps.
TEST(LensSpacer, StackReachesFromBoardToStandard) {
  const PieceSet set = set_of(sample());
  expect_good_set(set);
  ASSERT_EQ(set.pieces.size(), 3U);
  EXPECT_EQ(set.pieces[0].name, "shim 0.50");
  EXPECT_EQ(set.pieces[1].name, "shim 0.10");
  EXPECT_EQ(set.pieces[1].in_place.size(), 2U);
  EXPECT_EQ(set.pieces[2].name, "spacer");
  EXPECT_NEAR(bounds_of(set.pieces[0].in_place[0]).low.z / mm, -114.5, 1e-6);
  EXPECT_NEAR(bounds_of(set.pieces[2].in_place[0]).high.z / mm, -112, 1e-6);
  EXPECT_NEAR(sample().thickness() / mm, 2.5, 1e-12);
  for (const Piece& p : set.pieces) EXPECT_TRUE(p.flat);
}

// Shims are bought sheet, cut by their outlines; the spacer alone is printed.
TEST(LensSpacer, ShimsAreCutFromSheet) {
  const PieceSet set = set_of(sample());
  EXPECT_EQ(set.pieces[0].cut_from, "brass sheet, 0.50 mm");
  EXPECT_EQ(set.pieces[1].cut_from, "brass sheet, 0.10 mm");
  EXPECT_TRUE(set.pieces[2].printed());
}

// Truth: JCGM 100:2008, 4.3.7 and 5.1.2, by hand: three sheets within 0.02 mm and a print within
// 0.1 mm, sqrt((0.1^2 + 3 x 0.02^2) / 3) = 0.061101 mm.
TEST(LensSpacer, DoubtIsThatOfItsLayers) {
  EXPECT_NEAR(sample().doubt() / mm, 0.061101, 5e-7);
  LensSpacer shims = sample();
  shims.printed = {};
  EXPECT_NEAR(shims.doubt() / mm, 0.02, 1e-9);  // sqrt(3 x 0.02^2 / 3)
}

TEST(LensSpacer, SaysWhatCantBeMade) {
  LensSpacer s = sample();
  s.screws[0] = {29 * mm, 25 * mm};
  ASSERT_EQ(faults(s).size(), 1U);
  EXPECT_EQ(faults(s)[0].text,
            "what stays outside the screw hole at (29.0, 25.0) mm is -0.25 mm; 1.20 mm is needed");
}

TEST(LensSpacer, RandomOnesAreWellMade) {
  for (const double step : {0.0, 0.5}) {
    sweep(
        step > 0 ? 2 : 1, 150,
        [step](Random& random) {
          LensSpacer s;
          s.smallest_wall = between(random, 0.8, 1.8);
          s.round = random.unit() < 0.4;
          s.width = between(random, 35, 90, step);
          s.height = s.round ? s.width : between(random, 35, 90, step);
          s.corner_radius =
              s.round || random.unit() < 0.3 ? Length{} : between(random, 0.5, 10, step);
          s.opening = std::min(s.width, s.height) * (0.3 + 0.5 * random.unit());
          s.screw_hole = between(random, 1.5, 4, step);
          const Length x = s.width / 2 - between(random, 2, 8, step);
          const Length y = s.height / 2 - between(random, 2, 8, step);
          if (s.round) {
            s.screws = {{x, Length{}}, {-x, Length{}}};
          } else {
            s.screws = {{x, y}, {-x, y}, {x, -y}, {-x, -y}};
          }
          s.printed = between(random, 0.6, 6);
          return s;
        },
        [](const LensSpacer& s) {
          expect_well_made(layer_of(s, s.printed), area_of(s) * s.printed, "spacer");
          expect_well_made(layer_of(s, 0.05 * mm), area_of(s) * (0.05 * mm), "shim");
        });
  }
}

}  // namespace
}  // namespace backfit
