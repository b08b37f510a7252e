// SPDX-License-Identifier: MIT
// What every piece of a set must be.
#pragma once
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"
#include "quantity/random.hpp"
#include "solid/solid.hpp"

namespace backfit {

// Laws: one sound lump of the volume that the numbers give, to the kernel's rounding.
inline void expect_well_made(const Solid& solid, Volume expected, const std::string& name) {
  const Soundness s = soundness_of(solid);
  EXPECT_TRUE(s.sound()) << name << ": valid " << s.valid << ", bodies " << s.bodies
                         << ", cavities " << s.cavities << ", bad edges " << s.bad_edges
                         << ", watertight " << s.watertight;
  EXPECT_NEAR(s.volume / expected, 1, 1e-6) << name;
}

// Law: a piece lies on the bed's plane, over its middle, and what is in place has the same volume.
inline void expect_lies_on_bed(const Piece& p) {
  const Bounds b = bounds_of(p.on_bed);
  EXPECT_NEAR(b.low.z / mm, 0, 1e-6) << p.name;
  EXPECT_NEAR((b.low.x + b.high.x) / mm, 0, 1e-6) << p.name;
  EXPECT_NEAR((b.low.y + b.high.y) / mm, 0, 1e-6) << p.name;
  ASSERT_FALSE(p.in_place.empty()) << p.name;
}

// Law: a size that a view shows is the distance between its two places along the paper's axis in
// which they lie farther apart, and both lie within the piece's bounds.
inline void expect_sizes_shown(const Piece& p) {
  const Bounds b = bounds_of(p.on_bed);
  for (const PieceSize& size : p.sizes) {
    if (!size.shown) continue;
    const Point3 from = size.shown->from, to = size.shown->to;
    const Length x = abs(to.x - from.x), y = abs(to.y - from.y), z = abs(to.z - from.z);
    Length along;
    switch (size.shown->view) {
      case PieceView::above:
        along = std::max(x, y);
        break;
      case PieceView::front:
        along = std::max(x, z);
        break;
      case PieceView::right:
        along = std::max(z, y);
        break;
    }
    EXPECT_NEAR(along / mm, size.value / mm, 1e-6) << p.name << ": " << size.what;
    const Length near = 1e-6 * mm;
    for (const Point3& at : {from, to}) {
      EXPECT_TRUE(at.x >= b.low.x - near && at.x <= b.high.x + near && at.y >= b.low.y - near &&
                  at.y <= b.high.y + near && at.z >= b.low.z - near && at.z <= b.high.z + near)
          << p.name << ": " << size.what << " is shown beside the piece";
    }
  }
}

inline void expect_good_set(const PieceSet& set) {
  EXPECT_FALSE(set.name.empty());
  EXPECT_FALSE(set.steps.empty()) << set.name;
  for (const Piece& p : set.pieces) {
    expect_lies_on_bed(p);
    expect_sizes_shown(p);
  }
  std::vector<Solid> all;
  for (const Piece& p : set.pieces) all.insert(all.end(), p.in_place.begin(), p.in_place.end());
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t k = i + 1; k < all.size(); ++k) {
      EXPECT_NEAR(common_volume(all[i], all[k]) / mm3, 0, 1e-6) << set.name << i << k;
    }
  }
  EXPECT_TRUE(set.apart.empty() || set.apart.size() == set.pieces.size()) << set.name;
}

template <class Part>
void expect_no_faults(const Part& part) {
  for (const PartFault& f : faults(part)) ADD_FAILURE() << f.id << ": " << f.text;
}

// Draws parts until `wanted` of them have no fault; each of these is checked, each fault says
// something.
template <class Draw, class Check>
void sweep(std::uint64_t seed, int wanted, const Draw& draw, const Check& check) {
  Random random(seed);
  int built = 0, drawn = 0;
  while (built < wanted && !testing::Test::HasFailure()) {
    ASSERT_LT(drawn, 6 * wanted) << "only " << built << " could be built";
    ++drawn;
    const auto part = draw(random);
    const auto list = faults(part);
    for (const PartFault& f : list) EXPECT_FALSE(f.id.empty() || f.text.empty());
    if (!list.empty()) continue;
    ++built;
    check(part);
  }
  testing::Test::RecordProperty("drawn", drawn);
}

// Between the two, to steps of `step` so that round numbers meet as often as owners' do.
inline Length between(Random& random, double low_mm, double high_mm, double step_mm = 0) {
  const double drawn = low_mm + (high_mm - low_mm) * random.unit();
  return (step_mm > 0 ? std::round(drawn / step_mm) * step_mm : drawn) * mm;
}

}  // namespace backfit
