// SPDX-License-Identifier: MIT
// Where walks are aimed at, and how densely.
#include "lighttrap/aim.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "lighttrap/panes.hpp"

namespace backfit::ray {
namespace {

Vec any_direction(Random& random) { return within_cone({0, 0, 1}, 2, random); }

Aim ways_goals_and_panes() {
  return {2,
          {unit({1, 2, 3}), unit({-1, 0, 1})},
          0.2,
          {{{1, 0, 4}, 0.5, 1}, {{-3, 1, 1}, 1, 3}, {{0.2, 0.1, 0.3}, 0.2, 2}},
          {{{0, 6, 1}, {4, 0, 0}, {0, 0, 0.3}, 3}, {{5, 0, 3}, {0, 1, 0}, {-0.3, 0, 0.5}, 1}}};
}

// Law: a density of directions sums to 1 over all of them. 4 standard errors of 400 000 even
// directions.
TEST(Aim, IsSomewhere) {
  const Aim aim = ways_goals_and_panes();
  Sight sight;
  sight.look(aim, {0.1, -0.2, 0.05});
  Random random(1);
  constexpr int count = 400000;
  double sum = 0, squares = 0;
  for (int i = 0; i < count; ++i) {
    const double all = 4 * std::numbers::pi * sight.density(any_direction(random));
    sum += all;
    squares += all * all;
  }
  EXPECT_NEAR(sum / count, 1, 4 * std::sqrt(squares) / count);
}

// Law: of directions drawn by a density, one over it is the solid angle that they fill: as much as
// even directions find filled. 4 standard errors of each.
TEST(Aim, DrawsAsItSays) {
  const Aim aim = ways_goals_and_panes();
  Sight sight;
  sight.look(aim, {0.1, -0.2, 0.05});
  Random random(2);
  constexpr int count = 400000;
  double drawn = 0, drawn_squares = 0, even = 0;
  for (int i = 0; i < count; ++i) {
    const double density = sight.density(sight.direction((i + random.unit()) / count, random));
    ASSERT_GT(density, 0);
    drawn += 1 / density;
    drawn_squares += 1 / density / density;
    even += sight.density(any_direction(random)) > 0 ? 1 : 0;
  }
  const double filled = 4 * std::numbers::pi * even / count;
  EXPECT_NEAR(
      drawn / count, filled,
      4 * (std::sqrt(drawn_squares) / count + 4 * std::numbers::pi * std::sqrt(even) / count));
}

// Law: panes cover all that they are made about, and lose none of its light.
TEST(Aim, PanesCoverWhatIsSeen) {
  Random random(3);
  std::vector<Spot> spots;
  double light = 0;
  for (int i = 0; i < 200; ++i) {  // a slit round three sides
    const double t = 80 * random.unit() - 40;
    const Vec at = i % 3 == 0 ? Vec{30, t, 2.3} : i % 3 == 1 ? Vec{-30, t, 2.3} : Vec{t, 40, 2.3};
    spots.push_back(
        {at, {at + Vec{0.1, 0, 0}, at + Vec{0, 0.3, 0}, at - Vec{0.1, 0.3, 0}}, 1 + t * t});
    light += spots.back().light;
  }
  const Vec from{3, -5, -1};
  const auto panes = panes_about(from, spots);
  EXPECT_LE(panes.size(), 32U);
  double of_panes = 0;
  for (const Aim::Pane& p : panes) of_panes += p.light;
  EXPECT_NEAR(of_panes, light, 1e-9 * light);
  const Aim aim(0, {}, 1, {}, panes);
  Sight sight;
  sight.look(aim, from);
  for (const Spot& s : spots) EXPECT_GT(sight.density(unit(s.place - from)), 0);
}

}  // namespace
}  // namespace backfit::ray
