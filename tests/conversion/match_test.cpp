// SPDX-License-Identifier: MIT
// A match says what the studies of a conversion say, of every film, in one order.
#include "conversion/match.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "example.hpp"

namespace backfit {
namespace {

const std::string cameras[] = {"kestrel", "heron", "bittern"};

const MatchRow& row_of(const Match& match, std::string_view film) {
  return *std::ranges::find(match.rows, film, &MatchRow::film);
}

// Law: no film of the catalogue is passed over, and none is tried twice in the same way.
TEST(Match, NamesEveryFilm) {
  const Catalogue catalogue = shipped_catalogue();
  for (const std::string& name : cameras) {
    const Match match = matched(example_camera(name, catalogue), catalogue);
    std::set<std::pair<std::string, std::optional<Method>>> tried;
    for (const MatchRow& row : match.rows) {
      EXPECT_TRUE(tried.insert({row.film, row.method}).second) << row.film;
    }
    for (const Film& film : catalogue.films) {
      EXPECT_NE(std::ranges::find(match.rows, *film.id, &MatchRow::film), match.rows.end());
    }
  }
}

// Law: what can't be told yet names what to measure; what doesn't fit says why.
TEST(Match, SaysWhatToMeasureOrWhyNot) {
  const Catalogue catalogue = shipped_catalogue();
  for (const std::string& name : cameras) {
    for (const MatchRow& row : matched(example_camera(name, catalogue), catalogue).rows) {
      EXPECT_EQ(row.verdict == Verdict::cannot_tell_yet, !row.measure.empty()) << row.film;
      if (row.verdict == Verdict::does_not_fit) {
        EXPECT_FALSE(row.reason.empty()) << row.film;
      }
      if (row.verdict == Verdict::fits || row.verdict == Verdict::fits_with_work) {
        EXPECT_TRUE(row.numbers) << row.film;
      }
    }
  }
}

// Law: the order is that of the header.
TEST(Match, PutsTheBestFirst) {
  const Catalogue catalogue = shipped_catalogue();
  const auto place = [](Verdict v) {
    return v == Verdict::fits              ? 0
           : v == Verdict::fits_with_work  ? 1
           : v == Verdict::cannot_tell_yet ? 2
                                           : 3;
  };
  for (const std::string& name : cameras) {
    std::tuple<int, int, double> last{0, 0, -1e9};
    for (const MatchRow& row : matched(example_camera(name, catalogue), catalogue).rows) {
      double area = 0;
      if (row.numbers) {
        area = row.numbers->covered.width / mm * (row.numbers->covered.height / mm);
      }
      const int short_of = row.numbers && row.numbers->odds_infinity >= sure_enough ? 0 : 1;
      const std::tuple now{place(row.verdict), short_of, -area};
      EXPECT_LE(last, now) << row.film;
      last = now;
    }
  }
}

// Law: a row is the report of the same plan. Both planned cameras stop at other apertures and
// blurs than a match, which leaves these numbers alone; odds of the match: 0.8 % (standard error).
TEST(Match, AgreesWithTheReportOfTheSamePlan) {
  const Catalogue catalogue = shipped_catalogue();
  const Match match = matched(example_camera("bittern", catalogue), catalogue);
  const Report report = example_report("bittern", "bittern-paper.conversion.toml");
  const MatchRow& row = row_of(match, "paper-rc-9x12cm");
  ASSERT_TRUE(row.numbers);
  const MatchRow::Numbers& n = *row.numbers;
  EXPECT_EQ(n.set_back.value, report.register_.set_back.value);
  EXPECT_EQ(n.set_back.standard_uncertainty, report.register_.set_back.standard_uncertainty);
  EXPECT_EQ(n.nearest_focus, report.register_.nearest_focus);
  EXPECT_NEAR(n.odds_covered, report.circle.odds_covered, 3 * 0.008);
  EXPECT_NEAR(n.corner->value, report.frame.losses.back().lost->value, 1e-9);
  EXPECT_EQ(row.verdict, report.verdict);
}

// By hand: 56 mm of 120 film, over the gate of 63.5 × 108.0 mm.
TEST(Match, CountsTheCropAgainstTheOldGate) {
  const Catalogue catalogue = shipped_catalogue();
  const Match match = matched(example_camera("heron", catalogue), catalogue);
  EXPECT_NEAR(row_of(match, "roll-120-6x11").numbers->area_change, 56 * 107.95 / (63.5 * 108.0) - 1,
              1e-9);
  EXPECT_NEAR(row_of(match, "roll-120-6x6").numbers->area_change, 56 * 56 / (63.5 * 108.0) - 1,
              1e-9);
}

// Law: a circle worked out once for a camera is the circle of each film's own study.
TEST(Match, TracesThePrescriptionsCircleOnce) {
  const Catalogue catalogue = shipped_catalogue();
  SurveyedCamera camera = example_camera("bittern", catalogue);
  Diagnostics diagnostics;
  camera.prescription =
      read_lens(source_root / "data/lenses/triplet-f8.lens.toml", catalogue, diagnostics)
          ->prescription;
  camera.camera.lens.apertures = {{FNumber{8}, {}}, {FNumber{16}, {}}};
  const Match match = matched(camera, catalogue);
  const MatchRow& first = row_of(match, "sheet-4x5");
  const MatchRow& last = row_of(match, "paper-fibre-4x5");
  ASSERT_TRUE(first.numbers && last.numbers);
  EXPECT_EQ(first.numbers->covered.width, last.numbers->covered.width);
  EXPECT_EQ(first.numbers->odds_covered, last.numbers->odds_covered);
}

// A fixed lens that can't leave infinity is sharp from one focal length before its hyperfocal
// distance on: by hand 130^2 / (8 c) mm from the front focal point, c the picture's diagonal / 1500.
TEST(Match, TakesALensThatStaysAtInfinity) {
  const Catalogue catalogue = shipped_catalogue();
  SurveyedCamera camera = example_camera("heron", catalogue);
  camera.camera.focusing.moves.value = LensMotion::fixed;
  camera.camera.focusing.travel_forward.value = {0 * mm, 0 * mm};
  camera.camera.focusing.room_behind_infinity.value = {0 * mm, 0 * mm};
  const Match match = matched(camera, catalogue);
  const MatchRow& row = row_of(match, "roll-120-6x9");
  const double circle = row.numbers->picture.diagonal() / mm / 1500;
  EXPECT_NEAR(row.numbers->nearest_focus / mm, 130 * 130 / (8 * circle), 1e-6);
}

// Law: a picture costs its share of the pack and its own processing.
TEST(Match, ShowsWhatAPictureCosts) {
  const Catalogue catalogue = shipped_catalogue();
  Diagnostics diagnostics;
  const auto prices =
      read_prices(source_root / "examples" / "shelf.prices.toml", catalogue, diagnostics);
  ASSERT_TRUE(prices);
  Match match = matched(example_camera("bittern", catalogue), catalogue);
  add_prices(match, *prices);
  EXPECT_EQ(match.currency, "EUR");
  for (const MatchRow& row : match.rows) {
    if (row.film == "paper-rc-9x12cm") {
      EXPECT_NEAR(row.picture_cost.value_or(0), 9.0 / 25 + 0.08, 1e-12);
    }
    if (row.film == "sheet-5x7") {
      EXPECT_FALSE(row.picture_cost);
    }
  }
}

}  // namespace
}  // namespace backfit
