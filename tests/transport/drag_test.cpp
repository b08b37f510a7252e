// SPDX-License-Identifier: MIT
#include "transport/drag.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace backfit {
namespace {

// Truth: capstan-article in data/sources.toml (READ): friction 0.6, five turns: 153,552,935.
// Tolerance: one in the last printed digit.
TEST(Capstan, FiveTurnsHoldAHundredAndFiftyMillion) {
  EXPECT_NEAR(capstan_ratio(0.6, 5 * 360 * deg), 153'552'935, 1);
}

// Truth: band-brake-example in data/sources.toml (READ): 250 degrees at 0.3 give 3.7025; the brake
// of 300 N m at 250 mm pulls with 444.0 and 1644.0 N. Tolerance: the printed digits.
TEST(Capstan, HoldsTheBandBrakeOfTheTextbook) {
  const double ratio = capstan_ratio(0.3, 250 * deg);
  EXPECT_NEAR(ratio, 3.7025, 5e-5);
  const Force slack = 300e3 * newton_mm / (250 * mm) / (ratio - 1);
  EXPECT_NEAR(slack / newton, 444.0, 0.05);
  EXPECT_NEAR(slack * ratio / newton, 1644.0, 0.05);
}

// Truth: conveyor-glossary in data/sources.toml (READ): over half a turn the pull gains 2.00 and
// 3.11 of itself at friction 0.35 and 0.45. Tolerance: half the last digit.
TEST(Capstan, OfHalfATurnGainsWhatTheConveyorTradePrints) {
  EXPECT_NEAR(capstan_ratio(0.35, 180 * deg) - 1, 2.00, 0.005);
  EXPECT_NEAR(capstan_ratio(0.45, 180 * deg) - 1, 3.11, 0.005);
}

// Law: monotone in friction and in wrap; angles of several posts add.
TEST(Capstan, GrowsWithFrictionAndAddsAngles) {
  for (int i = 0; i < 12; ++i) {
    const double friction = 0.05 * i;
    EXPECT_LT(capstan_ratio(friction, 90 * deg), capstan_ratio(friction + 0.05, 90 * deg));
    EXPECT_NEAR(capstan_ratio(friction, 30 * deg) * capstan_ratio(friction, 80 * deg),
                capstan_ratio(friction, 110 * deg), 1e-12);
    EXPECT_LE(roller_ratio(friction, 1.5 * mm, 5 * mm, 90 * deg),
              roller_ratio(friction + 0.05, 1.5 * mm, 5 * mm, 90 * deg));
  }
}

// Law: work in equals work out and rubbed: over one turn of a roller the pulls' difference at its
// rim does the work of the bearing's friction under the resultant 2 T sin(wrap/2), T their mean.
TEST(Roller, LosesWhatItsBearingRubs) {
  const double ratio = roller_ratio(0.2, 1.5 * mm, 5 * mm, 120 * deg);
  const double mean = (1 + ratio) / 2;
  EXPECT_NEAR((ratio - 1) * 5, 0.2 * 1.5 * 2 * mean * std::sin(std::numbers::pi / 3), 1e-12);
}

// Truth: closed form by hand: 4 GPa, 61.5 mm wide, 0.12 mm thick: E w t^3/12 = 35.42 N mm2.
TEST(Bending, StiffnessOfFilmIsAsWorkedByHand) {
  const BendingStiffness film = bending_stiffness(4000 * megapascal, 61.5 * mm, 0.12 * mm);
  EXPECT_NEAR(film / (newton * mm2), 4000 * 61.5 * 0.12 * 0.12 * 0.12 / 12, 1e-12);
  EXPECT_NEAR(outer_fibre_strain(0.12 * mm, 4 * mm), 0.015, 1e-15);
}

// The elastica integrated step by step from where it leaves a cylinder of radius R, at angle `a`
// from its asymptote: how far its far end lies from the cylinder's middle, across the asymptote.
double far_offset(double stiffness, double pull, double radius, double a) {
  double angle = a;
  double curvature = 1 / radius;
  double across = radius * std::cos(a);
  constexpr double step = 1e-4;
  for (int i = 0; i < 2'000'000 && angle > 1e-7; ++i) {
    const double middle = angle - curvature * step / 2;
    const double bent = curvature - pull / stiffness * std::sin(angle) * step / 2;
    across += step * std::sin(middle);
    angle -= bent * step;
    curvature -= pull / stiffness * std::sin(middle) * step;
    if (curvature < 0) break;
  }
  return across;
}

// Truth: the elastica, angle'' = T sin(angle)/EI, integrated numerically. Tolerance: its step.
TEST(Bending, LiftOffAndStandOffAreThoseOfTheElastica) {
  for (const double radius : {8.0, 12.0, 15.0}) {
    const BendingStiffness stiffness = 35 * newton * mm2;
    const Force pull = 1 * newton;
    const Angle off = lift_off(stiffness, pull, radius * mm, 180 * deg);
    const Length apart = stand_off(stiffness, pull, radius * mm, 180 * deg);
    EXPECT_NEAR(radius + apart / mm, far_offset(35, 1, radius, off / rad), 2e-3);
    EXPECT_NEAR(apart / mm, 35 / (2 * radius), 1e-12);
  }
}

// Law: a wrap that is just used up by lifting off joins both forms of the stand-off.
TEST(Bending, StandOffIsContinuousWhereContactBecomesALine) {
  const BendingStiffness stiffness = 50 * newton * mm2;
  const Angle off = lift_off(stiffness, 2 * newton, 6 * mm, 180 * deg);
  const Length lying = stand_off(stiffness, 2 * newton, 6 * mm, 2.0001 * off);
  const Length line = stand_off(stiffness, 2 * newton, 6 * mm, 1.9999 * off);
  EXPECT_NEAR(lying / mm, line / mm, 1e-4);
  EXPECT_NEAR(stand_off(stiffness, 2 * newton, 6 * mm, Angle{}) / mm, 0, 1e-15);
}

// Law: pulls grow along the path, and the last is monotone in each friction.
TEST(Tension, GrowsAlongThePathAndWithFriction) {
  const std::array<Support, 4> supports{Support{{-45 * mm, -14 * mm}, 10 * mm, Face::emulsion},
                                        Support{{-30 * mm, -1 * mm}, 1 * mm, Face::emulsion},
                                        Support{{30 * mm, -2 * mm}, 2 * mm, Face::emulsion},
                                        Support{{48 * mm, -14 * mm}, 8 * mm, Face::emulsion}};
  const StripPath path = *laid_strip(supports, 0.23 * mm);
  const Pulling pulling{50 * newton * mm2, 0.15, 1 * newton, 1};
  Force last;
  for (const double friction : {0.1, 0.2, 0.4}) {
    const std::array<Rub, 2> rubs{Rub{Motion::fixed, friction, Length{}},
                                  Rub{Motion::turning, friction, 1.5 * mm}};
    const std::vector<Force> pulls = tensions(path, rubs, 1 * newton, pulling);
    ASSERT_EQ(pulls.size(), 3U);
    EXPECT_GT(pulls[1], pulls[0]);
    EXPECT_GT(pulls[2], pulls[1] + 1 * newton);
    EXPECT_GT(pulls[2], last);
    last = pulls[2];
  }
}

}  // namespace
}  // namespace backfit
