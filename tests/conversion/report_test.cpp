// SPDX-License-Identifier: MIT
// Laws of the whole report: what must change, and how, when one measurement changes.
#include <array>

#include "kestrel.hpp"

namespace backfit {
namespace {

constexpr const char* room = "room_behind_infinity = \"9.0 mm ± 0.3\"";

TEST(Report, TakesInfinityAwayWhenTheBedIsTooShort) {
  const Kestrel k(room, "room_behind_infinity = \"5.0 mm ± 0.2\"");
  const RegisterStudy& r = k.report->register_;
  EXPECT_EQ(k.report->verdict, Verdict::does_not_fit);
  ASSERT_NE(k.finding("register-short"), nullptr);
  EXPECT_EQ(k.finding("register-short")->weight, Weight::blocker);
  EXPECT_EQ(r.odds_infinity, 0);
  // By hand: 8.5587 - 5.0 = 3.5587 of extension stay, 118 + 118^2 / 3.5587 = 4030.6.
  ASSERT_TRUE(r.farthest_focus);
  EXPECT_NEAR(*r.farthest_focus / mm, 4030.6, 0.1);
}

// Law: room and set-back that differ by nothing but symmetric errors leave even odds.
TEST(Report, LeavesEvenOddsWhereRoomEqualsSetBack) {
  const Kestrel k(room, "room_behind_infinity = \"8.5587 mm ± 0.3\"");
  EXPECT_NEAR(k.report->register_.odds_infinity, 0.5, 3 * 0.00224);
  EXPECT_EQ(k.report->verdict, Verdict::fits_with_work);
  EXPECT_EQ(k.finding("register-short")->weight, Weight::warning);
}

// A lens that sits fast needs no room as long as its depth of focus, by hand 9 x 0.1 mm = 0.9 mm to
// one side at f/9, takes the set-back up; beyond that it is as short of infinity as any other.
TEST(Report, LetsDepthOfFocusStandInForALensThatSitsFast) {
  const std::pair<std::string, std::string> fast{"moves = \"standard\"", "moves = \"fixed\""};
  const Kestrel near({fast, {room, "room_behind_infinity = \"8.0 mm ± 0.1\""}});
  EXPECT_NEAR(near.report->register_.give / mm, 0.9, 1e-9);
  EXPECT_GT(near.report->register_.odds_infinity, 0.95);
  EXPECT_FALSE(near.report->register_.farthest_focus);
  ASSERT_NE(near.finding("register-reached"), nullptr);
  const Kestrel at_odds({fast, {room, "room_behind_infinity = \"7.6587 mm ± 0.3\""}});
  EXPECT_NEAR(at_odds.report->register_.odds_infinity, 0.5, 3 * 0.00224);
  const Kestrel far({fast, {room, "room_behind_infinity = \"5.0 mm ± 0.2\""}});
  EXPECT_NEAR(*far.report->register_.farthest_focus / mm, 4030.6, 0.1);
  ASSERT_EQ(far.report->depth_of_field.rows.size(), 1);
  EXPECT_EQ(far.report->depth_of_field.rows.front().subject, *far.report->register_.farthest_focus);
}

// Law: the remedies' numbers cure what they are given for.
TEST(Report, AGateOpenedAsAdvisedLightsTheWholeSheet) {
  const Kestrel before;
  const FrameSize open = before.report->frame.gate_to_open;
  const auto key = [](const char* name, Length l) {
    return std::string(name) + " = \"" + std::to_string(l / mm + 0.001) + " mm ± 0.1\"";
  };
  const Kestrel k({{"width = \"73.0 mm ± 0.1\"", key("width", open.width)},
                   {"height = \"95.0 mm ± 0.1\"", key("height", open.height)},
                   {"width = \"88.0 mm ± 0.2\"", "width = \"100 mm\""},
                   {"height = \"108.0 mm ± 0.2\"", "height = \"130 mm\""}});
  const FrameStudy& f = k.report->frame;
  EXPECT_TRUE(f.limited_by.empty());
  EXPECT_NEAR(f.whole.width / mm, 95, 1e-9);
  EXPECT_NEAR(f.whole.height / mm, 120, 1e-9);
  EXPECT_NE(k.finding("frame-clear"), nullptr);
}

TEST(Report, ASetBackAsAdvisedClearsTheGate) {
  const Kestrel before;
  const Length more = before.report->frame.clearing_set_back->value -
                      before.report->register_.set_back.value + 0.001 * mm;
  const Length thick = before.report->assembly.plate_thickness + more;
  const Kestrel k(
      {{"rib_height = \"1.5 mm ± 0.1\"", "rib_height = \"1.5 mm ± 0.1\"\nplate_thickness = \"" +
                                             std::to_string(thick / mm) + " mm\""},
       {room, "room_behind_infinity = \"40 mm ± 0.3\""},
       {"before_film = \"6.0 mm ± 0.5\"", "before_film = \"1.0 mm ± 0.5\""},
       {"width = \"88.0 mm ± 0.2\"", "width = \"100 mm\""},
       {"height = \"108.0 mm ± 0.2\"", "height = \"130 mm\""}});
  ASSERT_TRUE(k.report);
  EXPECT_TRUE(k.report->frame.limited_by.empty()) << k.report->frame.limited_by;
  EXPECT_FALSE(k.report->register_.farthest_focus);
}

TEST(Report, TurnsEverythingForAHolderThatLiesLengthways) {
  const Kestrel k({{"way_up = \"upright\"", "way_up = \"lengthways\""},
                   {"width = \"138.0 mm ± 0.2\"", "width = \"176.0 mm ± 0.2\""},
                   {"height = \"176.0 mm ± 0.2\"", "height = \"138.0 mm ± 0.2\""},
                   {"inner_width = \"107.0 mm ± 0.1\"", "inner_width = \"137.0 mm ± 0.1\""},
                   {"inner_height = \"137.0 mm ± 0.1\"", "inner_height = \"107.0 mm ± 0.1\""}});
  ASSERT_TRUE(k.report);
  EXPECT_EQ(k.report->frame.window.width, 120 * mm);
  EXPECT_EQ(k.report->frame.window.height, 95 * mm);
  EXPECT_GT(k.report->assembly.plate->rib_groove.size_y,
            k.report->assembly.plate->rib_groove.size_x);
}

TEST(Report, NamesWhatToMeasureWhenTheHolderIsNotKnown) {
  const Kestrel k("rib_from_centre = \"80.0 mm ± 0.3\"\n", "");
  EXPECT_EQ(k.report->verdict, Verdict::cannot_tell_yet);
  ASSERT_NE(k.finding("measure-first"), nullptr);
  EXPECT_NE(k.finding("measure-first")->text.find("back.rib_from_centre"), std::string::npos);
  EXPECT_FALSE(k.report->can_be_made());
}

TEST(Report, TakesAMeasuredImageCircleBeforeTheKindsAngle) {
  const Kestrel k("exit_pupil_before_film",
                  "image_circle = \"140 mm ± 3\"\nexit_pupil_before_film");
  EXPECT_EQ(k.report->circle.grade, CircleGrade::measured);
  EXPECT_EQ(k.report->circle.odds_covered, 1);  // 137 at least against 130.1
  EXPECT_NE(k.finding("circle-covers"), nullptr);
}

TEST(Report, IsTheSameTwice) {
  const Kestrel a;
  const Kestrel b;
  ASSERT_EQ(a.report->findings.size(), b.report->findings.size());
  for (std::size_t i = 0; i < a.report->findings.size(); ++i) {
    EXPECT_EQ(a.report->findings[i].text, b.report->findings[i].text);
  }
}

TEST(Report, PutsTheGravestFindingFirst) {
  const Kestrel k(room, "room_behind_infinity = \"5.0 mm ± 0.2\"");
  Weight last = Weight::blocker;
  for (const Finding& f : k.report->findings) {
    EXPECT_GE(f.weight, last);
    last = f.weight;
  }
}

}  // namespace
}  // namespace backfit
