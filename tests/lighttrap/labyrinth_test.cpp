// SPDX-License-Identifier: MIT
#include "lighttrap/labyrinth.hpp"

#include <gtest/gtest.h>

#include "lighttrap/transmission.hpp"
#include "profiles.hpp"

namespace backfit {
namespace {

using namespace profiles;

double through(const GapProfile& p, double reflectance) {
  return transmission(p, {reflectance}).through;
}

struct Known {
  double length, through;
};

// Truth: free molecules through an endless slit with walls that lose none: the integral equation
// solved apart by two discretisations, met by a random walk; to the last printed digit.
TEST(Slit, PassesWhatFreeMoleculesDo) {
  for (const Known k : {Known{0.1, 0.952452},
                        {0.2, 0.909580},
                        {0.5, 0.804724},
                        {1, 0.684381},
                        {2, 0.542058},
                        {5, 0.356409},
                        {10, 0.240557},
                        {20, 0.153888}}) {
    EXPECT_NEAR(through(profile({k.length}, ""), 1), k.through, 2e-6) << k.length;
  }
}

// Truth: the same with walls that absorb; six figures.
TEST(Slit, LosesToDarkWalls) {
  for (const Known k :
       {Known{1, 0.421934}, {2, 0.240951}, {5, 0.100218}, {10, 0.0501821}, {20, 0.0250580}}) {
    EXPECT_NEAR(through(profile({k.length}, ""), 0.05) / k.through, 1, 1e-5) << k.length;
  }
  for (const Known k :
       {Known{1, 0.511545}, {2, 0.310425}, {5, 0.121559}, {10, 0.0555911}, {20, 0.0262817}}) {
    EXPECT_NEAR(through(profile({k.length}, ""), 0.5) / k.through, 1, 1e-5) << k.length;
  }
  for (const Known k :
       {Known{1, 0.640120}, {2, 0.465947}, {5, 0.229814}, {10, 0.0991279}, {20, 0.0361613}}) {
    EXPECT_NEAR(through(profile({k.length}, ""), 0.9) / k.through, 1, 1e-5) << k.length;
  }
}

// Truth: one bend, by radiosity and by random walks written apart, good to 0.5 %. The last column
// is the limit of through / reflectance for black walls.
TEST(Bend, PassesWhatIndependentSolversFound) {
  struct Row {
    double arm, white, grey, dark, limit;
  };
  for (const Row r : {Row{1, 0.3716, 9.034e-3, 4.273e-3, 0.08104},
                      {2, 0.2831, 1.976e-3, 9.02e-4, 0.01648},
                      {5, 0.1798, 1.895e-4, 8.47e-5, 0.001507}}) {
    const GapProfile p = profile({r.arm, r.arm}, "L");
    EXPECT_NEAR(through(p, 1) / r.white, 1, 5e-3) << r.arm;
    EXPECT_NEAR(through(p, 0.1) / r.grey, 1, 5e-3) << r.arm;
    EXPECT_NEAR(through(p, 0.05) / r.dark, 1, 5e-3) << r.arm;
    EXPECT_NEAR(through(p, 1e-6) / 1e-6 / r.limit, 1, 5e-3) << r.arm;
  }
}

// Truth: two to four bends, by the same two solvers; 3 % where they met each other to 2 %.
TEST(Bends, PassWhatIndependentSolversFound) {
  struct Row {
    std::vector<double> arms;
    std::string_view turns;
    double white, grey, dark, black;
  };
  for (const Row& r : {Row{{5, 5, 5}, "LR", 0.1205, 4.64e-7, 9.92e-8, 1.45e-8},
                       Row{{5, 5, 5}, "LL", 0.1205, 3.25e-7, 6.32e-8, 8.6e-9},
                       Row{{1, 1, 1}, "LR", 0.2571, 2.330e-4, 5.44e-5, 8.37e-6},
                       Row{{2, 5, 2, 5, 2}, "LRRL", 0.0935, 6.91e-11, 3.12e-12, 6.6e-14}}) {
    const GapProfile p = profile(r.arms, r.turns);
    EXPECT_NEAR(through(p, 1) / r.white, 1, 5e-3) << r.turns;
    EXPECT_NEAR(through(p, 0.1) / r.grey, 1, 0.03) << r.turns;
    EXPECT_NEAR(through(p, 0.05) / r.dark, 1, 0.03) << r.turns;
    EXPECT_NEAR(through(p, 0.02) / r.black, 1, 0.03) << r.turns;
  }
}

GapProfile flipped(GapProfile p) {
  for (Turn& turn : p.turns) turn = turn == Turn::left ? Turn::right : Turn::left;
  return p;
}

GapProfile scaled(GapProfile p, double factor) {
  p.gap = factor * p.gap;
  for (Length& arm : p.arms) arm = factor * arm;
  return p;
}

// Law: the same way in and out, mirrored, and in any size. Tolerance: rounding of strings tens of
// gaps long, through up to five steps.
TEST(Bends, PassTheSameBothWaysMirroredAndScaled) {
  Random random(1);
  for (int i = 0; i < 12; ++i) {
    const GapProfile p = some_profile(random);
    const double reflectance = random.unit();
    const auto part = [&](const GapProfile& q) {
      return passage(exchange_of(q, 1), reflectance).through;
    };
    const double one = part(p);
    EXPECT_GT(one, 0);
    EXPECT_NEAR(part(turned_round(p)) / one, 1, 1e-8) << i;
    EXPECT_NEAR(part(flipped(p)) / one, 1, 1e-8) << i;
    EXPECT_NEAR(part(scaled(p, 7.3)) / one, 1, 1e-8) << i;
  }
}

// Law: white walls lose nothing; dark ones lose, the more the darker.
TEST(Bends, KeepTheLightWithWhiteWalls) {
  Random random(2);
  for (int i = 0; i < 12; ++i) {
    const Exchange x = exchange_of(some_profile(random), 1);
    const Passage white = passage(x, 1);
    EXPECT_NEAR(white.through + white.back, 1, 1e-9) << i;
    double before = 2;
    for (const double reflectance : {1.0, 0.8, 0.3, 0.1, 0.03, 0.0}) {
      const Passage p = passage(x, reflectance);
      EXPECT_LT(p.through, before) << i << ' ' << reflectance;
      EXPECT_LE(p.through + p.back, 1 + 1e-9);
      before = p.through;
    }
  }
}

// Law: a wider gap between the same arms passes more.
TEST(Bends, PassMoreWhenWider) {
  double before = 0;
  for (const double gap : {0.1, 0.2, 0.4, 0.8}) {
    const double now = through(profile({2, 3, 2}, "LR", gap * mm), 0.05);
    EXPECT_GT(now, before) << gap;
    before = now;
  }
}

// Law: a finer mesh gives the same answer within the error that the coarser one states.
TEST(Bends, StateHowFarTheMeshIsOff) {
  Random random(3);
  for (int i = 0; i < 6; ++i) {
    const GapProfile p = some_profile(random);
    const double reflectance = 0.02 + random.unit() * 0.3;
    const Transmission stated = transmission(p, {reflectance});
    const auto part = [&](std::size_t fineness) {
      return passage(exchange_of(p, fineness), reflectance).through;
    };
    const double six = part(6);
    const double finer = six + (six - part(3)) / 3;
    EXPECT_LE(std::abs(stated.through - finer), stated.mesh_error + 1e-9 * finer) << i;
    EXPECT_LT(stated.mesh_error, 5e-3 * stated.through) << i;
  }
}

// Law: each piece of wall sees walls and mouths and nothing else, and nobody sees less than
// nothing.
TEST(Bends, EncloseAllThatAPieceSees) {
  Random random(4);
  for (int i = 0; i < 8; ++i) {
    const Exchange x = exchange_of(some_profile(random), 1);
    for (std::size_t k = 0; k < x.pieces(); ++k) {
      double seen = x.entry[k] + x.exit[k];
      for (std::size_t j = 0; j < x.pieces(); ++j) {
        EXPECT_GE(x.mutual(k, j), 0);
        seen += x.mutual(k, j);
      }
      EXPECT_NEAR(seen / x.area[k], 1, 1e-9) << i << ' ' << k;
    }
  }
}

// Truth: only a straight gap, or a step shorter than the gap is wide and seen on the slant, shows
// the sky; a line can pass two corners that turn against each other, however long the arm between
// (drawn by hand), but not if the arms beyond are long.
TEST(SeesThrough, NeedsAStraightLine) {
  EXPECT_TRUE(sees_through(profile({40}, "")));
  EXPECT_TRUE(sees_through(profile({0.2, 0.2}, "L")));
  EXPECT_TRUE(sees_through(profile({0.1, 3, 0.1}, "LR")));
  EXPECT_FALSE(sees_through(profile({3, 3, 3}, "LR")));
  EXPECT_FALSE(sees_through(profile({0.1, 0.1, 0.1}, "LL")));
}

}  // namespace
}  // namespace backfit
