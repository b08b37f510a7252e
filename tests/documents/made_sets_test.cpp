// SPDX-License-Identifier: MIT
#include "documents/made_sets.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "../parts/piece_checks.hpp"
#include "conversion/read_conversion.hpp"
#include "sample_extras.hpp"

namespace backfit {
namespace {

Assembly kestrel() {
  const std::filesystem::path root = BACKFIT_SOURCE_DIR;
  Diagnostics diagnostics;
  const Catalogue catalogue = *read_catalogue(root / "data", diagnostics);
  return *assemble(root / "examples/kestrel/kestrel-4x5.conversion.toml", catalogue, diagnostics);
}

Stated<Length> plain(Length value) { return {value, {}}; }

std::vector<std::string> names_of(const std::vector<PieceSet>& sets) {
  std::vector<std::string> names;
  for (const PieceSet& set : sets) {
    for (const Piece& p : set.pieces) names.push_back(set.name + ": " + p.name);
  }
  return names;
}

// The demo asks for a timer's box; its files keep their names, "timer-tray" and "timer-panel".
TEST(MadeSets, OfTheDemoIsTheTimersBox) {
  const std::vector<PieceSet> sets = sets_of(report_on(kestrel()));
  EXPECT_EQ(names_of(sets), (std::vector<std::string>{"timer: tray", "timer: panel"}));
  for (const PieceSet& set : sets) {
    for (const Piece& p : set.pieces) {
      EXPECT_TRUE(soundness_of(p.on_bed).sound()) << p.name;
      expect_lies_on_bed(p);
      expect_sizes_shown(p);
    }
    EXPECT_NEAR(common_volume(set.pieces[0].in_place[0], set.pieces[1].in_place[0]) / mm3, 0, 1e-6);
  }
}

TEST(MadeSets, AreWhatThePlanAsksForAndCanBeMade) {
  Assembly a = kestrel();
  Plan& plan = a.plan;
  plan.timer.reset();
  ask_for_extras(a);
  plan.blank_cover = BlankCoverPlan{{}, plain(0.1 * mm)};  // too thin: left out
  const std::vector<PieceSet> sets = sets_of(report_on(std::move(a), Scope::without_timer));
  EXPECT_EQ(names_of(sets),
            (std::vector<std::string>{"focus gauge: frame", "depth gauge: bridge",
                                      "gate mask: mask", "lens spacer: spacer",
                                      "ring for close-up lens: ring", "window cover: frame",
                                      "window cover: slider", "window cover: plug"}));
  for (const PieceSet& set : sets) {
    expect_good_set(set);
    for (const Piece& p : set.pieces) EXPECT_TRUE(soundness_of(p.on_bed).sound()) << p.name;
  }
}

}  // namespace
}  // namespace backfit
