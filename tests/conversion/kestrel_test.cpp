// SPDX-License-Identifier: MIT
// Truth: every figure is worked out by hand in docs/kestrel-by-hand.md; tolerances are half a unit
// of the last digit there, and for odds three standard errors of 50,000 draws.
#include "kestrel.hpp"

namespace backfit {
namespace {

double share_of(const std::vector<Contribution>& budget, std::string_view name) {
  for (const Contribution& c : budget) {
    if (c.name == name) return c.share;
  }
  return 0;
}

TEST(KestrelByHand, Register) {
  const Kestrel k;
  ASSERT_TRUE(k.report);
  const RegisterStudy& r = k.report->register_;
  EXPECT_NEAR(r.set_back.value / mm, 8.559, 5e-4);
  EXPECT_NEAR(r.set_back.standard_uncertainty / mm, 0.110, 5e-4);
  EXPECT_NEAR(r.spare_room.value / mm, 0.441, 5e-4);
  EXPECT_NEAR(r.spare_room.standard_uncertainty / mm, 0.205, 5e-4);
  EXPECT_EQ(r.spare_room.budget.front().name, "room behind the infinity stop");
  EXPECT_NEAR(share_of(r.spare_room.budget, "room behind the infinity stop"), 0.71, 0.005);
  EXPECT_NEAR(r.odds_infinity, 0.9916, 3 * 0.0004);
  EXPECT_FALSE(r.farthest_focus);
  EXPECT_NEAR(r.nearest_focus / mm, 689.6, 0.05);
  EXPECT_NEAR(r.marks.front().from_new_stop->value / mm, 15.79, 5e-3);
  EXPECT_NEAR(*r.marks.front().uncorrected / mm, 690, 0.5);
}

TEST(KestrelByHand, Focus) {
  const Kestrel k;
  const FocusStudy& f = k.report->focus;
  EXPECT_NEAR(f.depth_of_focus / mm, 0.90, 1e-12);
  EXPECT_NEAR(f.plane_error.standard_uncertainty / mm, 0.124, 5e-4);
  EXPECT_EQ(f.odds_sharp, 1);
}

TEST(KestrelByHand, BulgingFilm) {
  const Kestrel k("aperture = \"f/9\"\n", "aperture = \"f/9\"\nfilm_bulge = \"0.7 mm ± 0.001\"\n");
  const FocusStudy& f = k.report->focus;
  EXPECT_NEAR(f.plane_error.value / mm, -0.7, 1e-12);
  EXPECT_NEAR(f.odds_sharp, 0.946, 0.01);  // six rectangles are not quite a normal distribution
  EXPECT_NEAR(f.shared_bulge->forward / mm, 0.35, 1e-12);
  EXPECT_EQ(f.shared_bulge->odds_sharp, 1);
}

TEST(KestrelByHand, DepthOfField) {
  const Kestrel k;
  const DepthOfFieldStudy& d = k.report->depth_of_field;
  EXPECT_EQ(d.apertures.front().value, 9);
  EXPECT_NEAR(d.hyperfocal.front() / mm, 15589, 0.5);
  const DepthOfFieldStudy::Row& three = d.rows[4];
  EXPECT_EQ(three.subject, 3 * metre);
  EXPECT_NEAR(three.ranges.front().near / mm, 2529, 0.5);
  EXPECT_NEAR(*three.ranges.front().far / mm, 3687, 0.5);
}

TEST(KestrelByHand, ScaleAndRangefinder) {
  const Kestrel k;
  EXPECT_NEAR(k.report->register_.marks.front().from_new_stop->standard_uncertainty / mm, 0.583,
              5e-4);
  EXPECT_NE(k.finding("scale-in-doubt"), nullptr);
  const FinderStudy& f = *k.report->finder;
  EXPECT_NEAR(f.late / mm, 8.559, 5e-4);
  EXPECT_NEAR(f.pose / mm, 8.559, 5e-4);
  EXPECT_NEAR(*f.checks.front().reads / mm, 2044, 0.5);
  EXPECT_FALSE(f.checks.back().reads);
  EXPECT_NEAR(*f.checks.back().focuses / mm, 1515, 0.5);
  EXPECT_NEAR(f.base->film_error / mm, 0.0675, 5e-5);
  EXPECT_NEAR(f.base->needed / mm, 4.50, 5e-3);
}

TEST(KestrelByHand, Frame) {
  const Kestrel k;
  const FrameStudy& f = k.report->frame;
  EXPECT_EQ(f.limited_by, "old gate");
  EXPECT_NEAR(f.picture.width / mm, 79.26, 5e-3);
  EXPECT_NEAR(f.picture.height / mm, 103.14, 5e-3);
  EXPECT_NEAR(f.whole.width / mm, 78.15, 5e-3);
  EXPECT_NEAR(f.whole.height / mm, 102.04, 5e-3);
  EXPECT_NEAR(f.clearing_set_back->value / mm, 30.48, 5e-3);
  EXPECT_NEAR(f.clearing_set_back->standard_uncertainty / mm, 0.205, 5e-4);
  EXPECT_NEAR(*f.farthest_focus_if_clear / mm, 766, 0.5);
  EXPECT_NEAR(f.gate_to_open.width / mm, 88.5, 0.05);
  EXPECT_NEAR(f.gate_to_open.height / mm, 111.5, 0.05);
  for (const FrameStudy::Screen& s : f.screens) {
    if (s.name != "bellows frame") continue;
    EXPECT_NEAR(s.half.width / mm, 100.6, 0.05);
    EXPECT_NEAR(s.half.height / mm, 123.5, 0.05);
  }
  for (const FrameStudy::Loss& l : f.losses) {
    if (l.where == "corner of the frame without shadow") {
      EXPECT_NEAR(l.lost->value, 0.77, 5e-3);
    }
  }
}

TEST(KestrelByHand, Circle) {
  const Kestrel k;
  const CircleStudy& c = k.report->circle;
  EXPECT_EQ(c.grade, CircleGrade::lens_kind);
  EXPECT_NEAR(c.circle.value / mm, 119.0, 0.05);
  EXPECT_NEAR(c.circle.standard_uncertainty / mm, 5.6, 0.05);
  EXPECT_NEAR(c.needed / mm, 130.1, 0.05);
  EXPECT_NEAR(c.odds_covered, 0.012, 0.002);
  EXPECT_FALSE(k.report->hand.reversed);
}

TEST(KestrelByHand, PlateIsTheThinnestThatHoldsTheRib) {
  const Kestrel k;
  ASSERT_TRUE(k.report->assembly.plate);
  EXPECT_NEAR(k.report->assembly.plate->thickness / mm, 3.0, 1e-12);
  EXPECT_TRUE(k.report->can_be_made());
}

TEST(KestrelByHand, FitsWithWork) {
  const Kestrel k;
  EXPECT_EQ(k.report->verdict, Verdict::fits_with_work);
  ASSERT_NE(k.finding("gate-shadows-frame"), nullptr);
  EXPECT_NE(k.finding("register-reached"), nullptr);
  EXPECT_NE(k.finding("circle-short"), nullptr);
}

}  // namespace
}  // namespace backfit
