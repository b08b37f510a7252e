// SPDX-License-Identifier: MIT
#include "conversion/strap_design.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "example.hpp"

namespace backfit {
namespace {

// Truth: by hand, triangles of 3, 4 and 5. A holder 120 wide whose edges lie 12 inside the necks,
// its back 16 above the strap: two legs of 20 and 120 between, twice round two necks of 10. Each of
// four legs presses with 16 / 20 of its pull.
TEST(StrapWay, IsTheWayRoundTheHolder) {
  const StrapWay w = strap_way(120 * mm, 10 * mm, 12 * mm, 16 * mm);
  EXPECT_NEAR(w.strand / mm, 160, 1e-9);
  EXPECT_NEAR(w.ring / mm, 340, 1e-9);
  EXPECT_NEAR(w.least / mm, 170, 1e-9);
  EXPECT_NEAR(w.most / mm, 340 / 1.4, 1e-9);
  EXPECT_NEAR(w.press_factor, 3.2, 1e-12);
}

// Laws: straps that rise straight press with all four pulls, flat ones with almost none.
TEST(StrapWay, PressesByItsSlope) {
  EXPECT_NEAR(strap_way(120 * mm, 10 * mm, 0.001 * mm, 100 * mm).press_factor, 4, 1e-6);
  EXPECT_NEAR(strap_way(120 * mm, 10 * mm, 100 * mm, 0.001 * mm).press_factor, 0, 1e-4);
}

// The demo's lugs hold its holder, outside what the labyrinth of the seat needs: the plate's own
// outline and tongue stay as they are without straps.
TEST(StrapDesign, LeavesTheSeamAlone) {
  const Assembly with = example_assembly("kestrel", "kestrel-4x5.conversion.toml");
  ASSERT_TRUE(with.plate->lugs);
  EXPECT_TRUE(faults(*with.plate, 1.2 * mm).empty());
  EXPECT_NEAR(with.plate->width / mm, 137.8, 1e-9);
  EXPECT_TRUE(with.plate->lugs->at_sides);
  EXPECT_TRUE(in_the_way_of_lugs(with).empty());
  // 137.8 / 2 + (4.3 + 0.5 + 1) / 2 - 120.5 / 2 aside, 15.5 + plate - 0.6 up.
  const auto way = strap_way(with);
  ASSERT_TRUE(way);
  const double up = 15.5 + with.plate->thickness / mm - 0.6, aside = 68.9 + 2.9 - 60.25;
  EXPECT_NEAR(way->press_factor, 4 * up / std::hypot(up, aside), 1e-9);
}

TEST(StrapDesign, FindsWhatStandsInTheWay) {
  Assembly a = example_assembly("kestrel", "kestrel-4x5.conversion.toml");
  Neighbour n = a.camera.seat->neighbours.front();
  const auto at = [](double value_mm, double half_mm) {
    return Stated<Measured<Length>>{{value_mm * mm, half_mm * mm}, {}};
  };
  n.x = at(-76, 0.5), n.y = at(20, 0.5);
  n.width = at(6, 0.5), n.height = at(6, 0.5);
  n.behind_seat = at(2, 0.2);
  a.camera.seat->neighbours = {n};
  EXPECT_EQ(in_the_way_of_lugs(a).size(), 1U);
  a.camera.seat->neighbours[0].behind_seat = at(-1, 0.2);  // before the seat's plane
  EXPECT_TRUE(in_the_way_of_lugs(a).empty());
  a.camera.seat->neighbours[0].behind_seat = at(2, 0.2);
  a.camera.seat->neighbours[0].y = at(0, 0.5);  // between the lugs at -20 and 20
  EXPECT_TRUE(in_the_way_of_lugs(a).empty());
}

}  // namespace
}  // namespace backfit
