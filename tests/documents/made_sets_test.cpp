// SPDX-License-Identifier: MIT
#include "documents/made_sets.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "../parts/piece_checks.hpp"
#include "conversion/read_conversion.hpp"

namespace backfit {
namespace {

Assembly kestrel() {
  const std::filesystem::path root = BACKFIT_SOURCE_DIR;
  Diagnostics diagnostics;
  const Catalogue catalogue = *read_catalogue(root / "data", diagnostics);
  return *assemble(root / "examples/kestrel/kestrel-4x5.conversion.toml", catalogue, diagnostics);
}

Stated<Length> plain(Length value) { return {value, {}}; }
Stated<Measured<Length>> measured(double value_mm) { return {{value_mm * mm, 0.1 * mm}, {}}; }

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
  plan.focus_gauge = FocusGaugePlan{};
  plan.focus_gauge->lies_on = {GaugeRest::seat, {}};
  plan.focus_gauge->glass_thickness = measured(1.5);
  plan.depth_gauge = DepthGaugePlan{};
  plan.gate_mask = GateMaskPlan{{}, plain(56 * mm), plain(83 * mm), {}};
  plan.lens_spacer = LensSpacerPlan{{}, measured(1.2), {}, {}};
  a.camera.lens_board = LensBoard{};
  a.camera.lens_board->diameter = measured(52);
  a.camera.lens_board->opening = measured(34);
  a.camera.lens_board->before_film = measured(112);
  a.camera.lens.filter_thread = measured(40.5);
  AttachmentRingPlan ring;
  ring.name = {"close-up lens", {}};
  ring.attachment_diameter = measured(46);
  plan.attachment_rings = {ring};
  plan.window_cover =
      WindowCoverPlan{{}, measured(12), measured(1), measured(20), measured(38), measured(0.8)};
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
