// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <limits>

#include "sample_plate.hpp"

namespace backfit {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

using Change = std::function<void(BackPlate&)>;

std::vector<std::string> faults_after(const Change& change) {
  BackPlate plate = sample_plate();
  change(plate);
  return faults(plate, sample_wall);
}

// One change to the sample and the one fault that it makes.
struct Case {
  Change change;
  std::string fault;
};

TEST(Faults, SayWhichWallIsTooThin) {
  const std::string needed = "; the smallest wall is 1.200 mm";
  const Case cases[] = {
      {[](BackPlate& p) { p.thickness = 1.1 * mm; }, "the plate is 1.100 mm thick"},
      {[](BackPlate& p) { p.tongue.wall = 1 * mm; }, "the tongue's wall is 1.000 mm thick"},
      {[](BackPlate& p) { p.rib_groove.depth = 2.9 * mm; },
       "the rib groove is 2.900 mm deep in a plate 4.000 mm thick"},
      {[](BackPlate& p) { p.fence.places.pop_back(), p.fence.hole_diameter = 0.4 * mm; },
       "the fence heads sink 2.900 mm deep in a plate 4.000 mm thick"},
      {[](BackPlate& p) { p.screws.head_diameter = 8.4 * mm; },
       "the screw heads sink 3.000 mm deep in a plate 4.000 mm thick"},
      {[](BackPlate& p) { p.window_width = 106 * mm; },
       "only 1.000 mm is left between the window and the tongue"},
      {[](BackPlate& p) { p.tongue.inner_height = 166 * mm, p.rib_groove.centre.y = 75 * mm; },
       "only 1.000 mm is left between the tongue and the plate's edge"},
      {[](BackPlate& p) { p.rib_groove.centre.y = 83.9 * mm, p.rib_groove.size_x = 100 * mm; },
       "only 1.000 mm is left between the rib groove and the plate's edge"},
      {[](BackPlate& p) {
         p.fence.places = {{62.9 * mm, 40 * mm}};
       },
       "only 1.000 mm is left between the fence head at (62.90, 40.00) mm and the plate's edge"},
      {[](BackPlate& p) {
         p.screws.places = {{60 * mm, 73.6 * mm}};
       },
       "only 1.000 mm is left between the screw head at (60.00, 73.60) mm and the rib groove"},
      {[](BackPlate& p) {
         p.screws.places = {{58.2 * mm, 0 * mm}};
       },
       "only 1.000 mm is left between the screw hole at (58.20, 0.00) mm and the tongue"},
  };
  for (const Case& c : cases) {
    EXPECT_THAT(faults_after(c.change), ElementsAre(c.fault + needed));
  }
}

TEST(Faults, SayWhatTouchesOrOverlaps) {
  const std::string needed = "; the smallest wall is 1.200 mm";
  const Case cases[] = {
      {[](BackPlate& p) { p.window_height = 138 * mm; },
       "the window and the tongue touch, 0.000 mm apart"},
      {[](BackPlate& p) { p.window_height = 140 * mm; },
       "the window and the tongue overlap by 1.000 mm"},
      {[](BackPlate& p) { p.rib_groove.centre.y = 62.1 * mm; },
       "the window and the rib groove touch, 0.000 mm apart"},
      {[](BackPlate& p) { p.rib_groove.centre.y = 84.9 * mm, p.rib_groove.size_x = 100 * mm; },
       "the rib groove and the plate's edge touch, 0.000 mm apart"},
      {[](BackPlate& p) { p.rib_groove.size_x = 136 * mm; },
       "the rib groove reaches 1.000 mm past the plate's edge"},
      {[](BackPlate& p) {
         p.screws.places = {{60 * mm, 74.6 * mm}};
       },
       "the screw head at (60.00, 74.60) mm and the rib groove touch, 0.000 mm apart"},
      {[](BackPlate& p) {
         p.screws.places = {{60 * mm, 0 * mm}, {60 * mm, 4.6 * mm}};
       },
       "the screw head at (60.00, 0.00) mm and the screw head at (60.00, 4.60) mm touch, "
       "0.000 mm apart"},
      {[](BackPlate& p) {
         p.screws.places = {{55 * mm, 0 * mm}};
       },
       "the screw hole at (55.00, 0.00) mm and the tongue overlap by 2.200 mm"},
      {[](BackPlate& p) {
         p.screws.places = {{57.2 * mm, 0 * mm}};
       },
       "the screw hole at (57.20, 0.00) mm and the tongue touch, 0.000 mm apart"},
      {[](BackPlate& p) {
         p.screws.places = {{66 * mm, 0 * mm}};
       },
       "the screw head at (66.00, 0.00) mm reaches 1.300 mm past the plate's edge"},
      {[](BackPlate& p) {
         p.fence.places = {{61 * mm, 66 * mm}};
       },
       "the screw head at (60.00, 70.00) mm and the fence head at (61.00, 66.00) mm overlap by "
       "1.277 mm"},
      {[](BackPlate& p) {
         p.fence.places = {{0 * mm, 79 * mm}};
       },
       "the rib groove and the fence head at (0.00, 79.00) mm overlap by 3.200 mm"},
      {[](BackPlate& p) {
         p.fence.places = {{61 * mm, 0 * mm}, {61 * mm, 0 * mm}};
       },
       "the fence head at (61.00, 0.00) mm and the fence head at (61.00, 0.00) mm overlap by "
       "6.200 mm"},
  };
  for (const Case& c : cases) {
    EXPECT_THAT(faults_after(c.change), ElementsAre(c.fault + needed));
  }
  EXPECT_THAT(faults_after([](BackPlate& p) { p.tongue.inner_width = 132 * mm; }),
              Contains("the tongue reaches 1.000 mm past the plate's edge" + needed));
}

TEST(Faults, SayWhichSizeIsNone) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const std::string needed = "; it has to lie between 0.010 mm and 10000.000 mm";
  const Case cases[] = {
      {[](BackPlate& p) { p.width = Length{}; }, "the plate's width is 0.000 mm"},
      {[](BackPlate& p) { p.height = -1 * mm; }, "the plate's height is -1.000 mm"},
      {[nan](BackPlate& p) { p.thickness = nan * mm; }, "the plate's thickness is nan mm"},
      {[](BackPlate& p) { p.window_width = Length{}; }, "the window's width is 0.000 mm"},
      {[](BackPlate& p) { p.window_height = Length{}; }, "the window's height is 0.000 mm"},
      {[](BackPlate& p) { p.tongue.inner_width = 20 * metre; },
       "the tongue's inner width is 20000.000 mm"},
      {[](BackPlate& p) { p.tongue.inner_height = Length{}; },
       "the tongue's inner height is 0.000 mm"},
      {[](BackPlate& p) { p.tongue.wall = Length{}; }, "the tongue's wall is 0.000 mm"},
      {[](BackPlate& p) { p.tongue.depth = Length{}; }, "the tongue's depth is 0.000 mm"},
      {[](BackPlate& p) { p.rib_groove.size_y = Length{}; },
       "the rib groove's size along y is 0.000 mm"},
      {[](BackPlate& p) { p.rib_groove.size_x = Length{}; },
       "the rib groove's size along x is 0.000 mm"},
      {[](BackPlate& p) { p.rib_groove.depth = Length{}; }, "the rib groove's depth is 0.000 mm"},
      {[](BackPlate& p) { p.screws.hole_diameter = Length{}; },
       "the screw holes' diameter is 0.000 mm"},
      {[](BackPlate& p) { p.screws.head_diameter = Length{}; },
       "the screw heads' diameter is 0.000 mm"},
      {[](BackPlate& p) { p.fence.hole_diameter = Length{}; },
       "the fence holes' diameter is 0.000 mm"},
      {[](BackPlate& p) { p.fence.head_diameter = Length{}; },
       "the fence heads' diameter is 0.000 mm"},
  };
  for (const Case& c : cases) {
    EXPECT_THAT(faults_after(c.change), ElementsAre(c.fault + needed));
  }
}

TEST(Faults, SayWhichPlaceIsNone) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const std::string needed = "; it has to lie within 10000.000 mm of the axis";
  const Case cases[] = {
      {[nan](BackPlate& p) { p.rib_groove.centre.y = nan * mm; },
       "the rib groove is at (0.00, nan) mm"},
      {[nan](BackPlate& p) { p.screws.places[1].x = nan * mm; },
       "a screw hole is at (nan, -70.00) mm"},
      {[](BackPlate& p) { p.fence.places[0].y = 11 * metre; },
       "a fence hole is at (-61.50, 11000.00) mm"},
  };
  for (const Case& c : cases) {
    EXPECT_THAT(faults_after(c.change), ElementsAre(c.fault + needed));
  }
}

TEST(Faults, SayWhichCornerRadiusIsTooLarge) {
  EXPECT_THAT(faults_after([](BackPlate& p) { p.corner_radius = 67 * mm; }),
              ElementsAre("the plate's corner radius is 67.000 mm; sides of 134.000 mm and "
                          "172.000 mm need 0 or a radius between 0.010 mm and 66.990 mm"));
  EXPECT_THAT(faults_after([](BackPlate& p) { p.tongue.inner_corner_radius = -1 * mm; }),
              ElementsAre("the tongue's inner corner radius is -1.000 mm; sides of 108.000 mm and "
                          "138.000 mm need 0 or a radius between 0.010 mm and 53.990 mm"));
}

TEST(Faults, SayThatAHeadIsNoWiderThanItsHole) {
  EXPECT_THAT(faults_after([](BackPlate& p) { p.screws.head_diameter = 2.4 * mm; }),
              ElementsAre("the screw heads are 2.400 mm wide; over holes of 2.400 mm they have to "
                          "be at least 2.420 mm"));
}

TEST(Faults, ComeTogether) {
  EXPECT_EQ(faults_after([](BackPlate& p) {
              p.tongue.wall = 1 * mm;
              p.rib_groove.depth = 3 * mm;
              p.fence.places.push_back({0 * mm, 0 * mm});
            }).size(),
            3U);
}

TEST(Faults, IgnoreHoleSizesWhereThereAreNone) {
  EXPECT_THAT(faults_after([](BackPlate& p) {
                p.screws = {};
                p.fence = {};
              }),
              IsEmpty());
}

// 0.8 mm exactly, in numbers that binary fractions can't hold.
TEST(Faults, AllowAWallOfExactlyTheSmallest) {
  BackPlate plate = sample_plate();
  plate.window_width = (108 - 2 * 1.2) * mm;
  plate.tongue.wall = 1.2 * mm;
  plate.rib_groove.depth = 2.8 * mm;
  EXPECT_THAT(faults(plate, 1.2 * mm), IsEmpty());
  plate.window_width = plate.window_width + 0.01 * mm;
  EXPECT_EQ(faults(plate, 1.2 * mm).size(), 1U);
}

TEST(Faults, SayWhatKeepsLugsFromBeingMade) {
  const auto after = [&](const std::function<void(StrapLugs&)>& change) {
    return faults_after([&](BackPlate& p) {
      p.lugs = sample_lugs();
      change(*p.lugs);
    });
  };
  EXPECT_THAT(after([](StrapLugs&) {}), IsEmpty());
  EXPECT_THAT(after([](StrapLugs& l) { l.recess = 3.2 * mm; }),
              ElementsAre("a strap lug's neck behind its recess is 0.80 mm; 1.20 mm is needed"));
  EXPECT_THAT(after([](StrapLugs& l) { l.head_width = 13 * mm; }),
              ElementsAre("a strap lug's head beside its neck is 1.50 mm; 2.01 mm is needed"));
  EXPECT_THAT(after([](StrapLugs& l) {
                l.at = {-9 * mm, 9.5 * mm};
              }),
              ElementsAre("what stays between two strap lugs is 0.50 mm; 1.20 mm is needed"));
  EXPECT_THAT(
      after([](StrapLugs& l) {
        l.at = {0 * mm, 30 * mm};
      }),
      UnorderedElementsAre("the strap over the lug 30.000 mm from the middle is 10.000 mm from the "
                           "fence screw at (61.50, 40.00) mm; it needs 12.100 mm",
                           "the strap over the lug 30.000 mm from the middle is 10.000 mm from the "
                           "fence screw at (-61.50, 40.00) mm; it needs 12.100 mm"));
}

}  // namespace
}  // namespace backfit
