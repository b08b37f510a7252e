// SPDX-License-Identifier: MIT
#include "conversion/accessory_study.hpp"

#include <gtest/gtest.h>

#include "kestrel.hpp"

namespace backfit {
namespace {

// Truth: the dioptre's definition, 2 dpt focus half a metre from infinity. Law: set to 1 m, a third
// of a metre; joint focal length by the sum of powers; the doubt of both measured values.
TEST(AccessoryStudy, OfACloseUpLens) {
  const Kestrel k;
  const AccessoryStudy& s = k.report->accessories.at(0);
  EXPECT_EQ(s.name, "close-up lens");
  EXPECT_FALSE(s.marks.front().set);
  EXPECT_NEAR(*s.marks.front().focuses / mm, 500, 1e-6);
  EXPECT_NEAR(s.focal.value / mm, 1 / (1 / 118.0 + 2 / 1000.0), 1e-6);
  EXPECT_GT(s.focal.standard_uncertainty / mm, 1);  // of 3 % of 118 mm, evenly, most of it
  bool seen = false;
  for (const AccessoryStudy::Mark& m : s.marks) {
    if (!m.set || abs(*m.set - 1000 * mm) > 1e-6 * mm) continue;
    seen = true;
    EXPECT_NEAR(*m.focuses / mm, 1000.0 / 3, 1e-6);
  }
  EXPECT_TRUE(seen);
}

// Law: distances by the square of a tele attachment's factor, infinity stays there.
TEST(AccessoryStudy, OfATeleAttachment) {
  const Kestrel k;
  const AccessoryStudy& s = k.report->accessories.at(1);
  EXPECT_NEAR(s.focal.value / mm, 1.9 * 118, 1e-6);
  EXPECT_FALSE(s.marks.front().focuses);
  for (std::size_t i = 1; i < s.marks.size(); ++i) {
    EXPECT_NEAR(*s.marks[i].focuses / *s.marks[i].set, 1.9 * 1.9, 1e-9);
  }
  const double half = k.report->frame.picture.diagonal() / (2 * mm);
  EXPECT_NEAR(tan(0.5 * s.angle), half / (1.9 * 118), 1e-9);
}

}  // namespace
}  // namespace backfit
