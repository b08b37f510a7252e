// SPDX-License-Identifier: MIT
#include "conversion/trap_study.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace backfit {
namespace {

TrapQuestions bend(Measured<Length> gap, Measured<double> reflectance) {
  TrapQuestions q;
  q.way = TrapQuestions::Gap{gap, {5 * mm, 5 * mm}, {Turn::left}};
  q.reflectance = reflectance;
  return q;
}

// Truth: the L-bend of two independent solvers, 8.47e-5 at 5 %, which is 13.53 stops; 0.5 %.
TEST(TrapStudy, AnswersInStopsAndTime) {
  TrapQuestions q = bend(exactly(1 * mm), exactly(0.05));
  q.film = {100};
  q.seam = 200 * mm;
  const TrapStudy s = study_of(q);
  EXPECT_NEAR(s.through / 8.47e-5, 1, 5e-3);
  EXPECT_NEAR(s.attenuation.value, 13.53, 0.01);
  EXPECT_FALSE(s.sees_through);
  // By hand: 1e5 lx times that for an hour; over 1 mm by 200 mm of mouth; 0.008 lx s for 0.10.
  EXPECT_NEAR(s.an_hour / lux_second, 8.47e-5 * 3.6e8, 200);
  EXPECT_NEAR(*s.an_hour_inside / lumen_second, 8.47e-5 * 3.6e8 * 2e-4, 0.04);
  EXPECT_NEAR(s.fog[1].time / second, 0.008 / 8.47, 1e-5);
  EXPECT_NEAR(s.fog[0].time / s.fog[1].time, 0.2, 1e-12);
}

// Law: near a reflectance r the bend passes in proportion to r for dark walls, so a doubt of a
// tenth of r is a doubt of a tenth of the light (to the second bounces' few per cent); what is
// measured twice as well is half as doubtful.
TEST(TrapStudy, CarriesTheMeasurementsDoubt) {
  const double r = 0.01;
  const TrapStudy s = study_of(bend(exactly(1 * mm), {r, 0.1 * r}));
  EXPECT_NEAR(s.through_u / s.through, 0.1 / std::numbers::sqrt3, 0.005);
  EXPECT_EQ(s.attenuation.budget.front().name, "reflectance");
  const TrapStudy wide = study_of(bend({1 * mm, 0.1 * mm}, exactly(0.05)));
  const TrapStudy half = study_of(bend({1 * mm, 0.05 * mm}, exactly(0.05)));
  EXPECT_EQ(wide.attenuation.budget.front().name, "gap");
  EXPECT_NEAR(wide.stops_u / half.stops_u, 2, 0.02);
}

// Law: what can't be is refused at either end of the doubt.
TEST(TrapStudy, RefusesWaysThatCannotBe) {
  EXPECT_FALSE(refusal(bend({1 * mm, 0.1 * mm}, exactly(0.05))));
  EXPECT_TRUE(refusal(bend({1 * mm, 1 * mm}, exactly(0.05))));
  EXPECT_TRUE(refusal(bend(exactly(1 * mm), exactly(1.2))));
  TrapQuestions hole;
  hole.way = TrapQuestions::Hole{{1 * mm, 0.1 * mm}, exactly(950 * mm)};
  EXPECT_TRUE(refusal(hole));
  hole.way = TrapQuestions::Hole{{1 * mm, 0.1 * mm}, exactly(850 * mm)};
  EXPECT_FALSE(refusal(hole));
}

}  // namespace
}  // namespace backfit
