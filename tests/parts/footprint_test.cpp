// SPDX-License-Identifier: MIT
#include "parts/footprint.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "quantity/random.hpp"

namespace backfit {
namespace {

constexpr double rounding_mm = 1e-9;

// Truths: plane geometry, with the 3-4-5 triangle where corners count.
TEST(GapBetween, IsTheShortestDistance) {
  const Footprint disc = Footprint::circle(13 * mm, 14 * mm, 2 * mm);
  EXPECT_NEAR(gap_between(disc, Footprint::circle(10 * mm, 10 * mm, 4 * mm)) / mm, 5 - 1 - 2,
              rounding_mm);
  const Footprint sharp = Footprint::rectangle({}, {}, 20 * mm, 20 * mm, {});
  EXPECT_NEAR(gap_between(disc, sharp) / mm, 5 - 1, rounding_mm);  // to the corner (10, 10)
  const Footprint rounded = Footprint::rectangle({}, {}, 20 * mm, 20 * mm, 2 * mm);
  EXPECT_NEAR(gap_between(disc, rounded) / mm, std::hypot(5, 6) - 1 - 2, rounding_mm);
  const Footprint beside = Footprint::rectangle(17 * mm, 3 * mm, 6 * mm, 30 * mm, 1 * mm);
  EXPECT_NEAR(gap_between(beside, rounded) / mm, 4, rounding_mm);
  EXPECT_NEAR(gap_between(rounded, beside) / mm, 4, rounding_mm);
}

TEST(GapBetween, IsNegativeByTheShiftThatPartsWhatOverlaps) {
  const Footprint block = Footprint::rectangle({}, {}, 20 * mm, 8 * mm, {});
  EXPECT_NEAR(gap_between(block, Footprint::rectangle(1 * mm, 3 * mm, 2 * mm, 4 * mm, {})) / mm, -3,
              rounding_mm);
  EXPECT_NEAR(gap_between(block, Footprint::circle(11 * mm, 0 * mm, 6 * mm)) / mm, -2, rounding_mm);
}

TEST(RoomInside, IsTheShortestWayToTheEdge) {
  const Footprint plate = Footprint::rectangle({}, {}, 40 * mm, 60 * mm, 5 * mm);
  EXPECT_NEAR(room_inside(Footprint::circle(0 * mm, 20 * mm, 4 * mm), plate) / mm, 30 - 20 - 2,
              rounding_mm);
  // Near the corner's centre (15, 25): 5 - 5 / 2 - 1.
  EXPECT_NEAR(room_inside(Footprint::circle(16.5 * mm, -27 * mm, 2 * mm), plate) / mm, 1.5,
              rounding_mm);
  EXPECT_NEAR(room_inside(Footprint::circle(20 * mm, 0 * mm, 2 * mm), plate) / mm, -1, rounding_mm);
  EXPECT_NEAR(room_inside(Footprint::rectangle({}, 10 * mm, 30 * mm, 20 * mm, {}), plate) / mm, 5,
              rounding_mm);
}

// Law: the gap is the least distance between two sets of points on the outlines.
TEST(Footprints, AgreeWithPointsOnTheirOutlines) {
  Random random(7);
  const auto between = [&random](double low, double high) {
    return (low + (high - low) * random.unit()) * mm;
  };
  const auto outline_of = [](const Footprint& f) {
    std::vector<std::pair<double, double>> points_mm;
    for (int i = 0; i < 360; ++i) {
      const double angle = i * std::numbers::pi / 180;
      const double c = std::cos(angle), s = std::sin(angle);
      points_mm.emplace_back(
          (f.x + std::copysign(1.0, c) * f.core_half_width + c * f.radius) / mm,
          (f.y + std::copysign(1.0, s) * f.core_half_height + s * f.radius) / mm);
    }
    // Straight sides, between the last points of the corners.
    std::vector<std::pair<double, double>> dense_mm;
    for (std::size_t i = 0; i < points_mm.size(); ++i) {
      const auto& [x, y] = points_mm[i];
      const auto& [next_x, next_y] = points_mm[(i + 1) % points_mm.size()];
      const int pieces = std::hypot(next_x - x, next_y - y) > 0.5 ? 100 : 1;
      for (int piece = 0; piece < pieces; ++piece) {
        const double t = static_cast<double>(piece) / pieces;
        dense_mm.emplace_back(x + t * (next_x - x), y + t * (next_y - y));
      }
    }
    return dense_mm;
  };
  for (int draw = 0; draw < 30; ++draw) {
    const Footprint a = Footprint::rectangle(between(-9, 9), between(-9, 9), between(4, 9),
                                             between(4, 9), between(0.5, 2));
    const Footprint b = Footprint::rectangle(between(-9, 9), between(-9, 9), between(4, 30),
                                             between(4, 30), between(0.5, 2));
    double least_mm = 1e9;
    for (const auto& [x, y] : outline_of(a)) {
      for (const auto& [u, v] : outline_of(b)) {
        least_mm = std::min(least_mm, std::hypot(x - u, y - v));
      }
    }
    const double gap_mm = gap_between(a, b) / mm;
    const double room_mm = room_inside(a, b) / mm;
    if (gap_mm > 0) {
      EXPECT_NEAR(gap_mm, least_mm, 0.05);  // points are up to 0.3 mm apart along the outline
    }
    if (room_mm > 0) {
      EXPECT_NEAR(room_mm, least_mm, 0.05);
    }
    EXPECT_FALSE(gap_mm > 0 && room_mm > 0);
  }
}

}  // namespace
}  // namespace backfit
