// SPDX-License-Identifier: MIT
#include "exposure/scales.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "exposure/metering.hpp"

namespace backfit {
namespace {

// Truth: film-speed-article in data/sources.toml (READ): 100/21, 200/24; slow-film-speeds in
// data/sources.toml (READ): the scale's bottom, 0.8/0.
TEST(FilmSpeed, HasItsDegrees) {
  EXPECT_EQ(degrees_of({100}), 21);
  EXPECT_EQ(degrees_of({200}), 24);
  EXPECT_EQ(degrees_of({0.8}), 0);
}

// Truth: slow-film-speeds in data/sources.toml (READ): S = 0.8 / H in steps of 0.1 in log10,
// named to one or two figures. From 2.5 down.
TEST(FilmSpeed, IsNamedByTheStandardSeries) {
  double speed = std::pow(10, 0.4);
  for (const double name : {2.5, 2.0, 1.6, 1.3, 1.0, 0.8, 0.6, 0.5, 0.4, 0.32}) {
    EXPECT_NEAR(standard_speed({speed}).value, name, 1e-12);
    speed /= std::pow(10, 0.1);
  }
  for (const double name : {3.0, 6.0, 12.0, 25.0, 64.0, 100.0, 125.0, 640.0, 3200.0}) {
    EXPECT_NEAR(standard_speed({name}).value, name, 1e-9);
    EXPECT_NEAR(standard_speed({name * 1.05}).value, name, 1e-9);
  }
}

// Truth: equal-exposure-ladder in data/sources.toml (READ), from f/16 at 1/125 s. With the true
// numbers behind the marks all agree (they are powers of two); with the marks as they stand, only
// to 0.15 stop.
TEST(Marks, MakeALadderOfEqualExposures) {
  const std::array<std::pair<double, double>, 6> ladder{
      {{32, 30}, {22, 60}, {16, 125}, {11, 250}, {8, 500}, {5.6, 1000}}};
  const Ev wanted = ev_of(true_stop({16}), true_speed(second / 125));
  const Ev marked_wanted = ev_of(FNumber{16}, second / 125);
  for (const auto& [n, per_second] : ladder) {
    const Time marked = second / per_second;
    EXPECT_NEAR((ev_of(true_stop({n}), true_speed(marked)) - wanted).value, 0, 1e-9) << n;
    EXPECT_NEAR((ev_of(FNumber{n}, marked) - marked_wanted).value, 0, 0.15) << n;
  }
}

// Law: full stops are powers of sqrt 2, thirds also hold the old series from f/9; a mark off the
// series stays itself.
TEST(Marks, StandForTrueNumbers) {
  EXPECT_NEAR(true_stop({22}).value, 22.627, 0.001);
  EXPECT_NEAR(true_stop({5.6}).value, 5.657, 0.001);
  EXPECT_NEAR(true_stop({12.5}).value, 12.699, 0.001);
  EXPECT_NEAR(true_stop({9}).value, 8.980, 0.001);
  EXPECT_DOUBLE_EQ(true_stop({8.5}).value, 8.5);
  EXPECT_NEAR(second / true_speed(second / 125), 128, 1e-9);
  EXPECT_NEAR(second / true_speed(second / 100), 101.59, 0.01);
  EXPECT_DOUBLE_EQ(second / true_speed(second / 300), 300);
}

// Truth: filter-factor-guide in data/sources.toml: whole stops READ (1 1 2 2 2 3 3 3 5 6 10); the
// scan lost the thirds, which follow from log2 by rounding.
TEST(Thirds, AreWhatAFilterFactorCosts) {
  const std::array<std::pair<double, const char*>, 11> table{{{2.5, "+1 1/3"},
                                                              {3, "+1 2/3"},
                                                              {4, "+2"},
                                                              {5, "+2 1/3"},
                                                              {6, "+2 2/3"},
                                                              {8, "+3"},
                                                              {10, "+3 1/3"},
                                                              {12, "+3 2/3"},
                                                              {40, "+5 1/3"},
                                                              {100, "+6 2/3"},
                                                              {1000, "+10"}}};
  for (const auto& [factor, text] : table) {
    EXPECT_EQ(thirds_text(to_thirds(stops_of(factor))), text) << factor;
  }
  EXPECT_EQ(thirds_text({-1.0 / 3}), "-1/3");
  EXPECT_EQ(thirds_text({0.1}), "0");
  // Truth: army-filter-course in data/sources.toml (READ): factor 1.5 is about 2/3 stop.
  EXPECT_EQ(thirds_text(stops_of(1.5)), "+2/3");
}

TEST(Times, AreSaidAsPhotographersSayThem) {
  for (const auto& [s, said] : {std::pair{1.0 / 128, "1/130 s"},
                                {1.0 / 8, "1/8 s"},
                                {0.5, "0.5 s"},
                                {2.26, "2.3 s"},
                                {20.4, "20 s"},
                                {75.0, "1 min 15 s"},
                                {120.0, "2 min"},
                                {417.0, "7 min"},
                                {3600.0, "1 h"},
                                {5000.0, "1 h 25 min"},
                                {40000.0, "11 h"}}) {
    EXPECT_EQ(shutter_text(s * second), said);
  }
}

TEST(Times, FitANarrowColumn) {
  for (const auto& [s, said] : {std::pair{1.0 / 635, "1/640"},
                                {1.0 / 9.9, "1/10"},
                                {0.32, "0.32 s"},
                                {38.2, "38 s"},
                                {171.0, "2.9 min"},
                                {1200.0, "20 min"},
                                {7200.0, "2.0 h"}}) {
    EXPECT_EQ(narrow_text(s * second), said);
  }
}

TEST(Times, AreMarkedOnShutters) {
  EXPECT_EQ(speed_mark(second / 125), "1/125 s");
  EXPECT_EQ(speed_mark(second / 2), "1/2 s");
  EXPECT_EQ(speed_mark(2 * second), "2 s");
}

}  // namespace
}  // namespace backfit
