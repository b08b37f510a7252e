// SPDX-License-Identifier: MIT
#include "documents/plate_cut.hpp"

#include <gtest/gtest.h>

#include "../parts/sample_plate.hpp"

namespace backfit::paper {
namespace {

Area area_of(const std::vector<std::vector<PartPoint>>& pieces) {
  Area sum;
  for (const std::vector<PartPoint>& piece : pieces) {
    Area twice;
    for (std::size_t i = 0; i < piece.size(); ++i) {
      const PartPoint &a = piece[i], &b = piece[(i + 1) % piece.size()];
      twice += a.x * b.y - b.x * a.y;
    }
    sum += abs(twice) / 2;
  }
  return sum;
}

// Truth: rectangles by hand, mm2. Slab 172 - 122 by 4, tongue 2 by 2 by 2.5, groove 2.2 by 1.9.
TEST(PlateCut, HoldsTheMaterialOfSlabAndTongueWithoutTheGroove) {
  const BackPlate plate = sample_plate();
  EXPECT_NEAR(area_of(cut_pieces(plate, Along::y)) / mm2, 50 * 4 + 2 * 2 * 2.5 - 2.2 * 1.9, 1e-9);
  // Along x the groove isn't crossed: 134 - 97 by 4, and the tongue.
  EXPECT_NEAR(area_of(cut_pieces(plate, Along::x)) / mm2, 37 * 4 + 2 * 2 * 2.5, 1e-9);
}

// Truth: by hand. A hole of 2.4 through 4 mm, and a head of 4.6 sunk 1.1 deep at 45 degrees: two
// triangles of 1.1 by 1.1 / 2.
TEST(PlateCut, IsInterruptedByAHoleOnTheAxis) {
  BackPlate plate = sample_plate();
  const Area without = area_of(cut_pieces(plate, Along::y));
  plate.screws.places.push_back({0 * mm, -82 * mm});
  const auto pieces = cut_pieces(plate, Along::y);
  EXPECT_EQ(pieces.size(), 3U);
  EXPECT_NEAR((without - area_of(pieces)) / mm2, 2.4 * 4 + 1.1 * 1.1, 1e-9);
}

}  // namespace
}  // namespace backfit::paper
