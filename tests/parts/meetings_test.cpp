// SPDX-License-Identifier: MIT
#include "parts/meetings.hpp"

#include <gtest/gtest.h>

#include "sample_set.hpp"

namespace backfit {
namespace {

TEST(Meetings, TellWhatTouchesAndWhatStaysApart) {
  const std::vector<PieceMeeting> found = meetings_of(sample_set(), 1 * mm);
  ASSERT_EQ(found.size(), 1u);  // the pegs are 5 mm away
  EXPECT_EQ(found[0].first, 0u);
  EXPECT_EQ(found[0].second, 1u);
  EXPECT_EQ(found[0].apart, 0 * mm);  // the mask lies on the floor
  EXPECT_EQ(found[0].common, Volume{});
}

TEST(Meetings, FindWhatTakesUpTheSamePlace) {
  PieceSet set = sample_set();
  // Into the floor by 1 mm: 53.5 x 33.5 less the window's 30 x 20.
  set.pieces[1].in_place = {translated(set.pieces[1].in_place.front(), {0 * mm, 0 * mm, -1 * mm})};
  const std::vector<PieceMeeting> found = meetings_of(set, 0 * mm);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_NEAR(found[0].common / (mm * mm * mm), 53.5 * 33.5 - 30 * 20, 1e-6);
}

// A wall 2 mm beside the tray, and one that cuts into it.
TEST(Meetings, CountTheSurroundingsToo) {
  PieceSet set = sample_set();
  set.around = {{"far wall", box({40 * mm, -20 * mm, 0 * mm}, {42 * mm, 20 * mm, 8 * mm})},
                {"near wall", box({30.4 * mm, -20 * mm, 0 * mm}, {32 * mm, 20 * mm, 8 * mm})},
                {"bad wall", box({29 * mm, -20 * mm, 0 * mm}, {32 * mm, 20 * mm, 8 * mm})}};
  const std::vector<PieceMeeting> found = meetings_of(set, 1 * mm);
  ASSERT_EQ(found.size(), 3u);
  EXPECT_EQ(found[1].first, 0u);
  EXPECT_EQ(name_of(set, found[1].second), "near wall");
  EXPECT_NEAR(found[1].apart / mm, 0.4, 1e-9);
  EXPECT_EQ(found[1].common, Volume{});
  EXPECT_EQ(name_of(set, found[2].second), "bad wall");
  EXPECT_NEAR(found[2].common / (mm * mm * mm), 1 * 40 * 8, 1e-6);
  EXPECT_EQ(name_of(set, found[0].second), "mask");
}

SetScrew in_the_floor() {  // of the sample's tray, through the mask's window
  return {"floor screw", {0 * mm, 0 * mm, 3 * mm}, 4 * mm};
}

TEST(Screws, AreReachedThroughAnOpening) {
  PieceSet set = sample_set();
  set.screws = {in_the_floor()};
  EXPECT_TRUE(blocked_screws(set).empty());  // the pegs stand at x = -10 and 10, 3 mm in radius
}

TEST(Screws, AreBlockedByWhatStandsOverThem) {
  PieceSet set = sample_set();
  set.screws = {in_the_floor(), in_the_floor()};
  set.screws[1].head.x = 10 * mm;  // under a peg
  std::vector<BlockedScrew> blocked = blocked_screws(set);
  ASSERT_EQ(blocked.size(), 1u);
  EXPECT_EQ(blocked[0].screw, 1u);
  EXPECT_EQ(name_of(set, blocked[0].by), "peg");
  set.screws[1].later = {2};  // the pegs come afterwards
  EXPECT_TRUE(blocked_screws(set).empty());
  // From below nothing but the tray itself: its floor lies over a head at 3 mm.
  set.screws[1].from_behind = false;
  blocked = blocked_screws(set);
  ASSERT_EQ(blocked.size(), 1u);
  EXPECT_EQ(name_of(set, blocked[0].by), "tray");
}

// A lid over the tray stands there in the camera, not on the bench.
TEST(Screws, OfTheCameraMindWhatStandsAroundThem) {
  PieceSet set = sample_set();
  set.around = {{"closed back", box({-30 * mm, -20 * mm, 30 * mm}, {30 * mm, 20 * mm, 31 * mm})}};
  set.screws = {in_the_floor()};
  EXPECT_TRUE(blocked_screws(set).empty());
  set.screws[0].in_camera = true;
  ASSERT_EQ(blocked_screws(set).size(), 1u);
  EXPECT_EQ(name_of(set, blocked_screws(set)[0].by), "closed back");
  set.screws[0].later = {set.pieces.size()};
  EXPECT_TRUE(blocked_screws(set).empty());
}

TEST(Laid, PutsTheNamedSideDownOverTheOrigin) {
  const Solid body = box({1 * mm, 2 * mm, 3 * mm}, {2 * mm, 4 * mm, 7 * mm});  // 1 x 2 x 4
  const auto size = [&](BedSide side) {
    const Bounds b = bounds_of(laid(body, side));
    EXPECT_NEAR(b.low.z / mm, 0, 1e-6);
    EXPECT_NEAR((b.low.x + b.high.x) / mm, 0, 1e-6);
    EXPECT_NEAR((b.low.y + b.high.y) / mm, 0, 1e-6);
    return b.high.z / mm;
  };
  EXPECT_NEAR(size(BedSide::low_x), 1, 1e-6);
  EXPECT_NEAR(size(BedSide::high_x), 1, 1e-6);
  EXPECT_NEAR(size(BedSide::low_y), 2, 1e-6);
  EXPECT_NEAR(size(BedSide::high_y), 2, 1e-6);
  EXPECT_NEAR(size(BedSide::low_z), 4, 1e-6);
  EXPECT_NEAR(size(BedSide::high_z), 4, 1e-6);
}

// A wedge tells the sides apart: its wide side must be the one that lies down.
TEST(Laid, TellsOppositeSidesApart) {
  // Along x: 10 wide at x = 0, 2 wide at x = 20.
  const Solid wedge = prism(
      {{0 * mm, -5 * mm}, {20 * mm, -1 * mm}, {20 * mm, 1 * mm}, {0 * mm, 5 * mm}}, 0 * mm, 3 * mm);
  const auto below = [](const Solid& s) {
    return common_volume(s, box({-20 * mm, -20 * mm, 0 * mm}, {20 * mm, 20 * mm, 1 * mm}));
  };
  EXPECT_GT(below(laid(wedge, BedSide::low_x)), below(laid(wedge, BedSide::high_x)));
  const Solid along_y = quarter_turned_about_z(wedge);
  EXPECT_GT(below(laid(along_y, BedSide::low_y)), below(laid(along_y, BedSide::high_y)));
  const Solid along_z =
      quarter_turned_about_y(quarter_turned_about_y(quarter_turned_about_y(wedge)));
  EXPECT_GT(below(laid(along_z, BedSide::low_z)), below(laid(along_z, BedSide::high_z)));
}

}  // namespace
}  // namespace backfit
