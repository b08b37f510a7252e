// SPDX-License-Identifier: MIT
// Gauges, mask, spacer, rings and covers as a plan asks for them.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "conversion/cover_design.hpp"
#include "conversion/gauge_design.hpp"
#include "conversion/lens_spacer_design.hpp"
#include "conversion/mask_design.hpp"
#include "conversion/ring_design.hpp"
#include "example.hpp"
#include "kestrel.hpp"

namespace backfit {
namespace {

Stated<Length> plain(Length value) { return {value, {}}; }
Stated<Measured<Length>> measured(double value_mm, double half_width_mm) {
  return {{value_mm * mm, half_width_mm * mm}, {}};
}

// A demo with its plan and survey changed.
Report changed(const char* folder, const char* file,
               const std::function<void(Plan&, Camera&)>& change) {
  Assembly a = example_assembly(folder, file);
  change(a.plan, a.camera);
  return report_on(std::move(a), Scope::without_timer);
}
Report kestrel(const std::function<void(Plan&, Camera&)>& change) {
  return changed("kestrel", "kestrel-4x5.conversion.toml", change);
}

const Finding* finding(const Report& r, std::string_view id) {
  const auto it = std::ranges::find(r.findings, id, &Finding::id);
  return it == r.findings.end() ? nullptr : &*it;
}

FocusGaugePlan gauge_on(GaugeRest rest) {
  FocusGaugePlan plan;
  plan.lies_on = {rest, {}};
  plan.glass_thickness = measured(1.5, 0.05);
  return plan;
}

// Truth: by hand from the survey. The film lies 8.559 behind the old plane, the seat 0.80: the
// ledge 7.759 + 1.5 behind the seat, in layers of 0.2 9.4, packed by 0.141.
TEST(FocusGaugeDesign, OnTheSeatReachesBackToTheFilm) {
  const Report r = kestrel([](Plan& p, Camera&) { p.focus_gauge = gauge_on(GaugeRest::seat); });
  const FocusGauge g = *focus_gauge(r);
  EXPECT_TRUE(faults(g).empty());
  EXPECT_NEAR(g.rest / mm, 0.8, 1e-9);
  EXPECT_NEAR((g.ledge - g.rest) / mm, 9.4, 1e-9);
  EXPECT_NEAR(g.packing() / mm, 10.2 - 1.5 - r.register_.set_back.value / mm, 1e-9);
  EXPECT_NEAR(g.packing() / mm, 0.141, 1e-3);
  EXPECT_NEAR(g.width / mm, 107.1 + 2 * 2.9 + 12, 1e-9);  // six outside the groove at its largest
  EXPECT_NEAR(g.view_width / mm, 95, 1e-9);               // the whole sheet
  EXPECT_NEAR(plane_doubt(r, g) / mm, std::sqrt((0.01 + 0.0025) / 3), 1e-9);
  ASSERT_NE(finding(r, "focus-gauge"), nullptr);
}

// Truth: by hand. Rails at 0.6, glass of 1.5 in a pocket of seven layers stands 0.1 out and lies
// on the rails itself; across the film 61.5 of the catalogue less a gap on each side.
TEST(FocusGaugeDesign, OnRailsTheGlassItselfLiesThere) {
  const Report r = changed("heron", "heron-120.conversion.toml", [](Plan& p, Camera&) {
    p.focus_gauge = gauge_on(GaugeRest::rails);
    p.printer = example_assembly("kestrel", "kestrel-4x5.conversion.toml").plan.printer;
  });
  const FocusGauge g = *focus_gauge(r);
  EXPECT_TRUE(faults(g).empty());
  EXPECT_NEAR(g.rest / mm, 0.6, 1e-9);
  EXPECT_NEAR(g.packing() / mm, -0.1, 1e-9);
  EXPECT_NEAR(g.width / mm, r.assembly.film.width.value->value / mm - 0.5, 1e-9);
  EXPECT_EQ(plane_doubt(r, g), Length{});
}

// Truth: by hand. The sheet lies 0.3575 behind the old plane, a seat 5.00 behind it: the ledge
// 0.3575 + 1.5 - 5 = -3.1425 behind the seat, in layers of 0.2 -3.0; the nose in the old gate of
// 84.0 - 0.2 at the least, with a gap of 0.25 on each side.
TEST(FocusGaugeDesign, BeforeItsRestANoseCarriesTheGlass) {
  const Report r = changed("bittern", "bittern-paper.conversion.toml", [](Plan& p, Camera& c) {
    const Assembly kestrel = example_assembly("kestrel", "kestrel-4x5.conversion.toml");
    c.seat = kestrel.camera.seat;
    c.seat->behind_film = measured(5, 0.1);
    c.seat->groove.inner_width = measured(107, 0.1);
    p.printer = kestrel.plan.printer;
    p.focus_gauge = gauge_on(GaugeRest::seat);
  });
  const FocusGauge g = *focus_gauge(r);
  EXPECT_TRUE(g.has_nose());
  EXPECT_TRUE(faults(g).empty()) << faults(g)[0].text;
  EXPECT_NEAR(g.film / mm, 0.3575, 1e-4);
  EXPECT_NEAR(g.ledge / mm, 2, 1e-9);
  EXPECT_NEAR(g.front / mm, 2 - 1.4, 1e-9);  // seven layers for a glass of 1.5
  EXPECT_NEAR(g.nose_width / mm, 83.8 - 0.5, 1e-9);
}

// Truth: by hand. Bridge of 10: septum 5.00 deep; a sheet's face where the register study has it.
TEST(DepthGaugeDesign, SaysWhatTheRodShouldRead) {
  const auto with = [](BridgeRest rest) {
    return kestrel([rest](Plan& p, Camera&) {
      DepthGaugePlan plan;
      plan.lies_on = {rest, {}};
      p.depth_gauge = plan;
    });
  };
  const Report on_holder = with(BridgeRest::holder);
  const DepthGauge holder = *depth_gauge(on_holder);
  EXPECT_TRUE(faults(holder).empty());
  EXPECT_NEAR(holder.length / mm, 120.5, 1e-9);
  ASSERT_EQ(holder.readings.size(), 2U);
  EXPECT_NEAR(holder.readings[0].reading / mm, 15, 1e-9);
  EXPECT_NEAR(
      holder.readings[1].reading / mm,
      10 + on_holder.register_.set_back.value / mm - 0.8 - on_holder.assembly.plate_thickness / mm,
      1e-9);
  const DepthGauge seat = *depth_gauge(with(BridgeRest::seat));
  EXPECT_TRUE(faults(seat).empty());
  ASSERT_EQ(seat.readings.size(), 2U);  // the new film lies behind the seat
  EXPECT_NEAR(seat.readings[0].reading / mm, 10.8, 1e-9);
  EXPECT_NEAR(seat.readings[1].reading / mm, 11.4, 1e-9);
  EXPECT_NEAR(seat.foot / mm, (137.8 - 107.1 - 2 * 2.9) / 2 - 1, 1e-9);  // outside the groove
}

// Law: through the mask's opening, at the edges of the picture wanted, half of the lens's pupil is
// seen; the study of the frame takes it for the picture and blames nothing.
TEST(GateMaskDesign, LeavesThePictureWanted) {
  for (const double side : {40.0, 66.0}) {
    const Kestrel demo(
        "[printer]", fmt::format("[gate_mask]\nwidth = \"{} mm\"\nheight = \"{} mm\"\n\n[printer]",
                                 side, side + 10));
    ASSERT_TRUE(demo.report);
    const Report& r = *demo.report;
    const GateMask m = *gate_mask(r);
    EXPECT_TRUE(faults(m).empty());
    const ExitPupil pupil = r.assembly.pupil(FNumber{9}, r.register_.standard_moves);
    const Length film = r.register_.set_back.value;
    const RectangularOpening opening{m.opening_width, m.opening_height, m.rear};
    EXPECT_NEAR(lit_frame(pupil, opening, film, Edge::half).width / mm, side, 1e-9);
    // By the shares of the pupil's area, an independent way to the same edge.
    const FilmPoint edge{side / 2 * mm, Length{}, film};
    EXPECT_NEAR(pupil_share_seen(edge, pupil, {&opening, 1}), 0.5, 1e-9);
    const FilmPoint inside{side / 2 * mm - m.soft / 2, Length{}, film};
    EXPECT_NEAR(pupil_share_seen(inside, pupil, {&opening, 1}), 1, 1e-6);
    EXPECT_NEAR(r.frame.picture.width / mm, side, 1e-5);
    EXPECT_NEAR(r.frame.whole.width / mm, side - m.soft / mm, 1e-5);
    EXPECT_EQ(r.frame.limited_by, "");
    ASSERT_NE(demo.finding("gate-mask"), nullptr);
    EXPECT_NE(demo.finding("frame-clear"), nullptr);
  }
}

// Truth: by hand. Bore for 40.5 + 0.1 with a gap of 0.25 a side.
TEST(RingDesign, TakesTheRimFromTheSurveyOrThePlan) {
  const Report r = kestrel([](Plan& p, Camera& c) {
    c.lens.filter_thread = measured(40.5, 0.1);
    AttachmentRingPlan ring;
    ring.name = {"close-up lens", {}};
    ring.attachment_diameter = measured(46, 0.1);
    p.attachment_rings.push_back(ring);
    ring.rim_diameter = measured(38, 0.1);
    p.attachment_rings.push_back(ring);
  });
  const std::vector<AttachmentRing> rings = attachment_rings(r);
  ASSERT_EQ(rings.size(), 2U);
  EXPECT_NEAR(rings[0].rim_bore() / mm, 41.1, 1e-9);
  EXPECT_NEAR(rings[1].rim_bore() / mm, 38.6, 1e-9);
  EXPECT_NEAR(rings[0].light / mm, 118.0 / 9, 1e-9);
  for (const AttachmentRing& ring : rings) EXPECT_TRUE(faults(ring).empty());
}

LensBoard board() {
  LensBoard b;
  b.width = b.height = measured(60, 0.1);
  b.opening = measured(34, 0.1);
  b.before_film = measured(112, 1);
  return b;
}

// Truth: by hand. 2.37 = 1.6 + 0.5 + 0.2 + ... the nearest of whole layers of 0.2 with four shims
// of 0.15 and 0.5: 2.2 + 0.15 = 2.35, 1.4 + 0.5 + 3 x 0.15 = 2.35, 1.8 + ... ; the fewest shims
// win.
TEST(LensSpacerDesign, FillsUpWithShims) {
  const Report r = kestrel([](Plan& p, Camera& c) {
    c.lens_board = board();
    p.lens_spacer = LensSpacerPlan{{}, measured(2.37, 0.1), {}, {}};
    p.focus.shims = {plain(0.15 * mm), plain(0.5 * mm)};
  });
  const LensSpacer s = *lens_spacer(r);
  EXPECT_TRUE(faults(s).empty());
  EXPECT_NEAR(s.printed / mm, 2.2, 1e-9);
  ASSERT_EQ(s.shims.size(), 1U);
  EXPECT_NEAR(s.thickness() / mm, 2.35, 1e-9);
  EXPECT_NEAR(s.front / mm, -112 - 2.35, 1e-9);
  ASSERT_NE(finding(r, "lens-spacer"), nullptr);
}

// Whole layers need no shims, rounding or not.
TEST(LensSpacerDesign, OfWholeLayersIsAPrintAlone) {
  for (const double forward : {0.6, 1.2, 1.4, 2.2, 4.2}) {
    const Report r = kestrel([forward](Plan& p, Camera& c) {
      c.lens_board = board();
      p.lens_spacer = LensSpacerPlan{{}, measured(forward, 0.1), {}, {}};
      p.focus.shims = {plain(0.2 * mm), plain(0.5 * mm)};
    });
    const LensSpacer s = *lens_spacer(r);
    EXPECT_NEAR(s.printed / mm, forward, 1e-9);
    EXPECT_TRUE(s.shims.empty());
  }
}

// Left out, the way of the lens is that of the film, the other way round.
TEST(LensSpacerDesign, GoesAsFarAsTheFilmComes) {
  const Report r = changed("bittern", "bittern-paper.conversion.toml", [](Plan& p, Camera& c) {
    p.printer = example_assembly("kestrel", "kestrel-4x5.conversion.toml").plan.printer;
    c.lens_board = board();
    p.lens_spacer = LensSpacerPlan{};
    p.focus.stop_test.reset();
  });
  EXPECT_EQ(lens_forward(r), -r.register_.set_back.value);
}

// Film that moves back asks for a lens that moves back: no spacer does that. A film that moves
// forward asks for one as thick.
TEST(LensSpacerDesign, FollowsTheFilm) {
  const Report back = kestrel([](Plan& p, Camera& c) {
    c.lens_board = board();
    p.lens_spacer = LensSpacerPlan{};
  });
  EXPECT_FALSE(lens_spacer(back));
  ASSERT_NE(finding(back, "lens-spacer-not-needed"), nullptr);
  EXPECT_LT(lens_forward(back) / mm, -8);
}

TEST(CoverDesign, BlankCoverFitsTheSeatAsThePlateDoes) {
  const Report r = kestrel([](Plan& p, Camera&) { p.blank_cover = BlankCoverPlan{}; });
  const BlankCover c = *blank_cover(r);
  EXPECT_TRUE(faults(c).empty());
  const BackPlate& plate = *r.assembly.plate;
  EXPECT_EQ(c.width, plate.width);
  EXPECT_EQ(c.tongue.inner_width, plate.tongue.inner_width);
  EXPECT_EQ(c.tongue.depth, plate.tongue.depth);
  EXPECT_NEAR(c.thickness / mm, 3, 1e-9);
  EXPECT_NEAR(c.rest / mm, 0.8, 1e-9);
}

TEST(CoverDesign, WindowCoverLiesOverItsWindow) {
  const Report r = kestrel([](Plan& p, Camera&) {
    p.window_cover = WindowCoverPlan{{},
                                     measured(12, 0.2),
                                     measured(3, 0.5),
                                     measured(20, 0.5),
                                     measured(38, 0.5),
                                     measured(0.8, 0.2)};
  });
  const WindowCover c = *window_cover(r.assembly);
  EXPECT_TRUE(faults(c).empty());
  EXPECT_NEAR(c.window / mm, 12.2, 1e-9);
  EXPECT_NEAR(c.place.x / mm, 3, 1e-9);
  EXPECT_NEAR(c.place.z / mm, 38, 1e-9);
}

// What can't be made is left out with a warning; the conversion itself does not hang on it.
TEST(Extras, FaultIsAWarning) {
  const Report r = kestrel([](Plan& p, Camera&) {
    p.focus_gauge = gauge_on(GaugeRest::seat);
    p.focus_gauge->width = plain(90 * mm);
    p.blank_cover = BlankCoverPlan{{}, plain(0.5 * mm)};
    p.printer->bed_width = plain(100 * mm);
  });
  ASSERT_NE(finding(r, "blank-cover-impossible"), nullptr);
  EXPECT_EQ(finding(r, "blank-cover-impossible")->weight, Weight::warning);
  ASSERT_NE(finding(r, "bed-too-small"), nullptr);
}

}  // namespace
}  // namespace backfit
