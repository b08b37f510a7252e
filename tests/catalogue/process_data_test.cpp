// SPDX-License-Identifier: MIT
#include "catalogue/process_data.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace backfit {
namespace {

ProcessData shipped() {
  Diagnostics diagnostics;
  auto data = read_process_data(std::string(BACKFIT_SOURCE_DIR) + "/data", diagnostics);
  EXPECT_TRUE(diagnostics.list().empty()) << rendered(diagnostics.list().front());
  return data.value_or(ProcessData{});
}

// Truth: reversal-order-of-steps in data/sources.toml (READ in kind): black and white developer,
// then fogging to light, then colour developer, bleach-fix last; darkness until the fogging.
TEST(Reversal, RunsInItsOrderAndInTheDarkUntilTheFogging) {
  const ProcessData d = shipped();
  const auto at = [&](std::string_view id) {
    return std::ranges::find_if(d.reversal, [&](const ProcessStep& s) { return *s.id == id; });
  };
  ASSERT_LT(at("first-developer"), at("fogging"));
  ASSERT_LT(at("fogging"), at("colour-developer"));
  ASSERT_LT(at("colour-developer"), at("bleach-fix"));
  for (auto s = d.reversal.begin(); s != d.reversal.end(); ++s) {
    EXPECT_EQ(*s->dark, s < at("fogging")) << *s->id;
  }
}

TEST(Reversal, SaysTheCautionAtEachStepWithChemistry) {
  const ProcessData d = shipped();
  for (const char* id : {"first-developer", "stop", "colour-developer", "bleach-fix"}) {
    const auto step =
        std::ranges::find_if(d.reversal, [&](const ProcessStep& s) { return *s.id == id; });
    ASSERT_NE(step, d.reversal.end());
    EXPECT_FALSE(step->hazards.empty()) << id;
  }
  EXPECT_NE(d.hazard("flash-bulb"), nullptr);
  EXPECT_NE(d.hazard("flash-capacitor"), nullptr);
}

TEST(Bulbs, AreThere) {
  const ProcessData d = shipped();
  ASSERT_NE(d.bulb("no-11"), nullptr);
  EXPECT_EQ(*d.bulb("no-11")->class_, "M");
  EXPECT_EQ(d.bulb("no-12"), nullptr);
}

}  // namespace
}  // namespace backfit
