// SPDX-License-Identifier: MIT
// The parts of every demo put together with their cameras.
#include <gtest/gtest.h>

#include <filesystem>

#include "conversion/read_conversion.hpp"
#include "documents/camera_bodies.hpp"
#include "documents/made_sets.hpp"
#include "parts/meetings.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

Report report_of(const std::string& file) {
  const std::filesystem::path root = BACKFIT_SOURCE_DIR;
  Diagnostics diagnostics;
  const Catalogue catalogue = *read_catalogue(root / "data", diagnostics);
  Report r = report_on(*assemble(root / "examples" / file, catalogue, diagnostics));
  if (r.assembly.method() == Method::insert) add_insert(r, catalogue);
  return r;
}

std::vector<std::string> findings_in(const Report& r) {
  std::vector<std::string> texts;
  for (const Finding& f : assembly_findings(r, made_parts(r)))
    texts.push_back(f.id + ": " + f.text);
  return texts;
}

Stated<Measured<Length>> measured(double value_mm) { return {{value_mm * mm, 0.1 * mm}, {}}; }

class Demo : public testing::TestWithParam<const char*> {};

// Law: what a demo makes goes into its camera, the camera closes, and its screws can be turned.
TEST_P(Demo, GoesTogether) {
  EXPECT_EQ(findings_in(report_of(GetParam())), std::vector<std::string>{});
}

INSTANTIATE_TEST_SUITE_P(
    All, Demo,
    testing::Values("kestrel/kestrel-4x5.conversion.toml", "kestrel/kestrel-62x46.conversion.toml",
                    "kestrel/kestrel-6x6.conversion.toml", "kestrel/kestrel-6x9.conversion.toml",
                    "kestrel/kestrel-79x79.conversion.toml",
                    "kestrel/kestrel-paper.conversion.toml", "heron/heron-120.conversion.toml",
                    "wren/wren-35mm.conversion.toml"),
    [](const auto& demo) {
      std::string name = std::filesystem::path(demo.param).stem().stem().string();
      std::erase_if(name, [](char c) { return c == '-'; });
      return name;
    });

// The printed holder's dark slide goes up past the finder, which stands there for other backs: 36
// by 24 mm about a place 104 mm above the axis.
TEST(Assembly, FindsTheFinderInTheWayOfASlide) {
  const Report r = report_of("kestrel/kestrel-4x5-printed.conversion.toml");
  const MadeParts parts = made_parts(r);
  const std::vector<Finding> found = assembly_findings(r, parts);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].id, "part-runs-into-camera");
  EXPECT_EQ(found[0].weight, Weight::warning);
  EXPECT_EQ(found[0].text, "the grip of the sheet holder runs into the viewfinder");
  const SheetHolder& h = *r.assembly.sheet_holder;
  const double top = (h.grip_start() + h.grip.depth) / mm;
  EXPECT_EQ(found[0].remedies, std::vector<std::string>{"the viewfinder must rise by " +
                                                        text((top - (104 - 12)) * mm, 1)});
}

// Truth: the printer's clearance of 0.25 mm, which the plan states for all that slides, between
// the tongue and the groove's two walls and floor: 107 / 2 and 107 / 2 + 2.8, and 3 deep.
TEST(Assembly, TongueKeepsTheClearanceInItsGroove) {
  const Report r = report_of("kestrel/kestrel-4x5.conversion.toml");
  const std::vector<Surrounding> around = bodies_of(r, Around::seat);
  const BackPlate::Tongue& t = r.assembly.plate->tongue;
  const Length seat = r.assembly.camera.seat->behind_film->value;
  // Without the plate, whose face touches the seat.
  const Solid tongue = rounded_ring(t.inner_width, t.inner_height, t.inner_corner_radius, t.wall,
                                    seat - t.depth, seat - 0.5 * mm);
  ASSERT_EQ(around[0].name, "seat");
  EXPECT_NEAR(distance_between(tongue, around[0].body) / mm, 0.25, 1e-6);
  const MadeParts parts = made_parts(r);
  ASSERT_FALSE(parts.plate_set->meetings.empty());
  EXPECT_EQ(name_of(*parts.plate_set, parts.plate_set->meetings[0].second), "seat");
  EXPECT_NEAR(parts.plate_set->meetings[0].apart / mm, 0, 1e-9);  // it lies on the seat
  EXPECT_LT(parts.plate_set->meetings[0].common, negligible);
}

// A post on the seat, under the plate's corner and beside its screw's head.
TEST(Assembly, FindsWhatStandsInThePlatesPlace) {
  Report r = report_of("kestrel/kestrel-4x5.conversion.toml");
  Neighbour post;
  post.name = {"post", {}};
  post.x = measured(63), post.y = measured(66);
  post.width = measured(2), post.height = measured(2);
  post.behind_seat = measured(10);
  r.assembly.camera.seat->neighbours = {post};
  const std::vector<Finding> found = assembly_findings(r, made_parts(r));
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].id, "part-runs-into-camera");
  EXPECT_EQ(found[0].weight, Weight::warning);
  EXPECT_EQ(found[0].text, "the back plate runs into the post");
  // Above the axis: its lower edge at 65 mm must clear the plate's upper one at 175.8 / 2 mm.
  EXPECT_EQ(found[0].remedies, std::vector<std::string>{"the post must rise by 22.9 mm"});
  EXPECT_EQ(found[1].id, "screw-out-of-reach");
  EXPECT_EQ(found[1].text,
            "no straight driver reaches the screw of the back plate at (60.5, 66.0) mm: the post "
            "stands over it");
}

// The same insert in a camera whose back is 3 mm nearer than it was made for.
TEST(Assembly, FindsABackThatDoesNotClose) {
  Report r = report_of("kestrel/kestrel-6x6.conversion.toml");
  const PieceSet insert = sets_of(r)[1];
  ASSERT_EQ(insert.name, "insert");
  Length rearmost{};
  for (const Piece& p : insert.pieces) {
    for (const Solid& body : p.in_place) rearmost = std::max(rearmost, bounds_of(body).high.z);
  }
  r.assembly.camera.chamber->behind_film.value.value = rearmost - 3 * mm;
  bool told = false;
  for (const Finding& f : assembly_findings(r, made_parts(r))) {
    if (f.id != "back-does-not-close") continue;
    EXPECT_EQ(f.weight, Weight::blocker);
    told = told || f.text.ends_with("it reaches 3.00 mm too far back");
  }
  EXPECT_TRUE(told);
}

// A gate narrower than the mask was made for.
TEST(Assembly, FindsAMaskThatDoesNotGoIn) {
  Report r = report_of("kestrel/kestrel-4x5.conversion.toml");
  r.assembly.plan.timer.reset();
  r.timer.reset();
  r.assembly.plan.gate_mask = GateMaskPlan{{}, {56 * mm, {}}, {83 * mm, {}}, {}};
  EXPECT_EQ(findings_in(r), std::vector<std::string>{});
  MadeParts parts = made_parts(r);
  parts.sets[0].around = {
      {"old gate",
       difference_of(box({-40 * mm, -60 * mm, -1.6 * mm}, {40 * mm, 60 * mm, -0.6 * mm}),
                     {box({-36 * mm, -50 * mm, -2 * mm}, {36 * mm, 50 * mm, 0 * mm})})}};
  parts.sets[0].meetings = meetings_of(parts.sets[0], 1 * mm);
  const std::vector<Finding> found = assembly_findings(r, parts);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_TRUE(found[0].text.starts_with("the mask of the gate mask runs into the old gate"));
}

}  // namespace
}  // namespace backfit
