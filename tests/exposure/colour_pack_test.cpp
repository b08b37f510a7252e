// SPDX-License-Identifier: MIT
#include "exposure/colour_pack.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace backfit {
namespace {

Pack cc(double y, double m, double c) { return {{y / 100}, {m / 100}, {c / 100}}; }

// Truth: army-colour-course in data/sources.toml (READ): 46Y + 38M + 12C without its neutral is
// 34Y + 26M.
TEST(Pack, LosesItsNeutral) {
  EXPECT_EQ(pack_text(without_neutral(cc(46, 38, 12))), "34Y + 26M");
  EXPECT_NEAR(neutral_in(cc(46, 38, 12)).value, 0.12, 1e-12);
}

// Truth: filter-factor-guide in data/sources.toml (READ): CC20Y + CC20M is CC20R; one filter
// beats two.
TEST(Pack, IsOneFilterWhereItCanBe) {
  EXPECT_EQ(pack_text(cc(20, 20, 0)), "20R");
  EXPECT_EQ(pack_text(cc(5, 0, 5)), "05G");
  EXPECT_EQ(pack_text(cc(0, 30, 30)), "30B");
  EXPECT_EQ(pack_text(cc(0, 0, 0)), "no filter");
}

// Truth: subtractive-colour-article in data/sources.toml (READ): a density of 0.30 passes 0.501,
// one stop.
TEST(Density, IsCountedInStops) {
  EXPECT_NEAR(std::pow(10, -0.30), 0.501, 0.0005);
  EXPECT_NEAR(stops_of(Density{0.30}).value, 1.00, 0.005);
}

// Truth: colour-meter-manual in data/sources.toml (READ), increase by CC magenta, in thirds: 10
// and 20 1/3, 30 and 40 2/3, 50 a stop. The model has no dye that takes light elsewhere, and the
// manual rounds: a third of a stop.
TEST(Pack, CostsWhatAMeterSees) {
  for (const auto& [magenta, stops] :
       {std::pair{10.0, 0.333}, {20.0, 0.333}, {30.0, 0.667}, {40.0, 0.667}, {50.0, 1.0}}) {
    EXPECT_NEAR(pack_stops(cc(0, magenta, 0)).value, stops, 1.0 / 3) << magenta;
  }
  EXPECT_NEAR(pack_stops(cc(30, 30, 30)).value, stops_of(Density{0.30}).value,
              1e-5);  // three bands in steps against the whole in steps
  EXPECT_NEAR(most_held_back(cc(60, 30, 0)).value, 1.993, 0.0005);
}

// Truth: navy-colour-course in data/sources.toml (READ): change the pack by half the viewing filter
// that makes the print look right. A print with 0.20 too little yellow looks right through 20Y, so
// the pack changes by 10Y.
// Law: by reversal more yellow filter gives more yellow: it is added (a negative's print would
// want it taken away).
TEST(Refinement, AddsTheColourThatThePrintLacks) {
  const PackRefinement r = refined_by_reversal(cc(60, 40, 0), {{0.70}, {0.70}, {0.50}}, {0.70});
  EXPECT_EQ(pack_text(r.pack), "70Y + 40M");
  EXPECT_NEAR(r.exposure.value, 0, 1e-12);
  EXPECT_NEAR(r.of_filter.value, 0.01, 1e-12);
}

// Law: a print too dark all over needs more exposure and no other pack: 0.30 at gradient 2 is half
// a stop, 0.15 / log10(2).
TEST(Refinement, GivesADarkPrintMoreExposure) {
  const PackRefinement r = refined_by_reversal(cc(60, 40, 0), {{1.0}, {1.0}, {1.0}}, {0.70});
  EXPECT_EQ(pack_text(r.pack), "60Y + 40M");
  EXPECT_NEAR(r.exposure.value, 0.15 / std::log10(2.0), 1e-12);
}

// Law: cyan that the print has too much of would make the pack's cyan negative: it becomes yellow
// and magenta, and the light that these take is given back as exposure.
TEST(Refinement, TakesOutCyanByAddingRed) {
  const PackRefinement r = refined_by_reversal(cc(60, 40, 0), {{0.90}, {0.70}, {0.70}}, {0.70});
  EXPECT_EQ(pack_text(r.pack), "70Y + 50M");
  EXPECT_NEAR(r.exposure.value, 0.10 / std::log10(2.0), 1e-12);
}

// Law: shooting the refined pack at the refined exposure brings every layer to the aim: each
// layer's log exposure changes by gradient times what it missed.
TEST(Refinement, BringsEveryLayerToTheAim) {
  const Pack used = cc(55, 35, 5);
  const GreyPatch patch{{0.62}, {0.91}, {0.48}};
  const double aim = 0.75, gradient = 1.7;
  const PackRefinement r = refined_by_reversal(used, patch, {aim}, gradient);
  const double light = r.exposure.value * std::log10(2.0);
  const auto density = [&](Density read, Density before, Density after) {
    return read.value - gradient * (light - (after - before).value);
  };
  EXPECT_NEAR(density(patch.blue, used.yellow, r.pack.yellow), aim, 1e-12);
  EXPECT_NEAR(density(patch.green, used.magenta, r.pack.magenta), aim, 1e-12);
  EXPECT_NEAR(density(patch.red, used.cyan, r.pack.cyan), aim, 1e-12);
}

}  // namespace
}  // namespace backfit
