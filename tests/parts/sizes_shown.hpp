// SPDX-License-Identifier: MIT
// Whether a set's pieces say their sizes where a drawing can show them.
#pragma once
#include <gtest/gtest.h>

#include <algorithm>

#include "parts/piece.hpp"

namespace backfit {

// Law: along the paper's axis in which a size's two places lie farther apart, they lie `value`
// apart, and both within the piece as it lies.
inline void expect_sizes_shown(const PieceSet& set) {
  for (const Piece& piece : set.pieces) {
    const Bounds b = bounds_of(piece.on_bed);
    for (const PieceSize& size : piece.sizes) {
      if (!size.shown) continue;
      const Point3 &from = size.shown->from, &to = size.shown->to;
      const Length x = abs(to.x - from.x), y = abs(to.y - from.y), z = abs(to.z - from.z);
      const Length apart = size.shown->view == PieceView::above   ? std::max(x, y)
                           : size.shown->view == PieceView::front ? std::max(x, z)
                                                                  : std::max(z, y);
      EXPECT_NEAR(apart / mm, size.value / mm, 1e-6) << piece.name << ": " << size.what;
      for (const Point3& p : {from, to}) {
        const Length slack = 1e-6 * mm;
        const bool inside = p.x >= b.low.x - slack && p.x <= b.high.x + slack &&
                            p.y >= b.low.y - slack && p.y <= b.high.y + slack &&
                            p.z >= b.low.z - slack && p.z <= b.high.z + slack;
        EXPECT_TRUE(inside) << piece.name << ": " << size.what;
      }
    }
  }
}

}  // namespace backfit
