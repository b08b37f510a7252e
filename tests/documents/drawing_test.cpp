// SPDX-License-Identifier: MIT
#include "documents/drawing.hpp"

#include <gmock/gmock.h>

#include "printed.hpp"

namespace backfit::paper {
namespace {

const View whole{{100 * mm, 150 * mm}, 1}, half{{100 * mm, 150 * mm}, 0.5};

// Where the one label on `sheet` starts and ends along the page, and what it says.
struct Label {
  Length start, end;
  std::string text;
};
Label label_on(const Sheet& sheet) {
  for (const Mark& mark : sheet.marks()) {
    if (const auto* words = std::get_if<Words>(&mark)) {
      const Length width = sheet.fonts().size(words->text, words->style).width;
      if (words->turn == 0 * deg) return {words->at.x, words->at.x + width, words->text};
      return {words->at.y - width, words->at.y, words->text};
    }
  }
  ADD_FAILURE() << "no label";
  return {};
}

// x or y of the tips of the filled arrow heads, and of the middles of their bases.
std::vector<std::pair<double, double>> arrows_mm(const Sheet& sheet, Along along) {
  const auto of = [&](PagePoint p) { return (along == Along::x ? p.x : p.y).in(mm); };
  std::vector<std::pair<double, double>> result;
  for (const Mark& mark : sheet.marks()) {
    if (const auto* fill = std::get_if<Fill>(&mark)) {
      const Path::Chain& chain = fill->path.chains.at(0);
      result.emplace_back(of(chain.start),
                          (of(chain.segments.at(0).end) + of(chain.segments.at(1).end)) / 2);
    }
  }
  return result;
}

TEST(View, PutsAPartToScaleWithYUp) {
  EXPECT_EQ(whole({10 * mm, 20 * mm}), (PagePoint{110 * mm, 130 * mm}));
  EXPECT_EQ(half({10 * mm, 20 * mm}), (PagePoint{105 * mm, 140 * mm}));
  EXPECT_EQ(half(10 * mm), 5 * mm);
}

TEST(InMm, WritesNumbersAsDrawingsDo) {
  EXPECT_EQ(in_mm(62 * mm), "62");
  EXPECT_EQ(in_mm(62.5 * mm), "62.5");
  EXPECT_EQ(in_mm(4.25 * inch, 3), "107.95");
  EXPECT_EQ(in_mm(100 * mm, 0), "100");
  EXPECT_EQ(in_mm(-0.2 * mm), "−0.2");
  EXPECT_EQ(in_mm(-0.01 * mm), "0");
}

TEST(Dimension, SaysThePartsLengthWhateverTheScale) {
  for (const View& view : {whole, half}) {
    Sheet sheet{Fonts(font_folder)};
    dimension(sheet, view, {.from = {0 * mm, 0 * mm}, .to = {62.5 * mm, 10 * mm}});
    EXPECT_EQ(label_on(sheet).text, "62.5");
  }
}

TEST(Dimension, WideOneHoldsItsLabelAndArrowsInside) {
  Sheet sheet{Fonts(font_folder)};
  dimension(sheet, whole, {.from = {30 * mm, 0 * mm}, .to = {-10 * mm, 0 * mm}});
  const Label label = label_on(sheet);
  EXPECT_NEAR((label.start + label.end).in(mm) / 2, 110, 0.01);  // its middle
  const auto arrows = arrows_mm(sheet, Along::x);
  ASSERT_EQ(arrows.size(), 2U);
  EXPECT_NEAR(arrows[0].first, 90, 1e-9);
  EXPECT_GT(arrows[0].second, 90);
  EXPECT_NEAR(arrows[1].first, 130, 1e-9);
  EXPECT_LT(arrows[1].second, 130);
}

TEST(Dimension, NarrowOneFlipsOutside) {
  Sheet sheet{Fonts(font_folder)};
  dimension(sheet, whole, {.from = {0 * mm, 0 * mm}, .to = {2 * mm, 0 * mm}, .label = "2 ± 0.1"});
  const Label label = label_on(sheet);
  EXPECT_GT(label.start, 102 * mm);
  const auto arrows = arrows_mm(sheet, Along::x);
  ASSERT_EQ(arrows.size(), 2U);
  EXPECT_NEAR(arrows[0].first, 100, 1e-9);
  EXPECT_LT(arrows[0].second, 100);  // points inwards from outside
  EXPECT_NEAR(arrows[1].first, 102, 1e-9);
  EXPECT_GT(arrows[1].second, 102);
}

TEST(Dimension, NarrowVerticalOneStandsAbove) {
  Sheet sheet{Fonts(font_folder)};
  dimension(
      sheet, whole,
      {.from = {0 * mm, 0 * mm}, .to = {0 * mm, 2 * mm}, .along = Along::y, .label = "2 ± 0.1"});
  EXPECT_LT(label_on(sheet).end, 148 * mm);  // y grows downwards on the page
  EXPECT_EQ(arrows_mm(sheet, Along::y).size(), 2U);
}

// The dimension line is the last line drawn; `at` gives its x (vertical) or y (level).
TEST(Dimension, OffsetIsPaperAboveOrRightOfThePart) {
  const auto line_start = [](const Dimension& d) {
    Sheet sheet{Fonts(font_folder)};
    dimension(sheet, half, d);
    PagePoint start{};
    for (const Mark& mark : sheet.marks()) {
      if (const auto* stroke = std::get_if<Stroke>(&mark)) start = stroke->path.chains[0].start;
    }
    return start;
  };
  const PartPoint low{0 * mm, 0 * mm}, high{80 * mm, 40 * mm};  // on paper x 100..140, y 150..130
  EXPECT_EQ(line_start({low, high, Along::x, 8 * mm}).y, 122 * mm);
  EXPECT_EQ(line_start({low, high, Along::x, -8 * mm}).y, 158 * mm);
  EXPECT_EQ(line_start({low, high, Along::y, 8 * mm}).x, 148 * mm);
  EXPECT_EQ(line_start({low, high, Along::y, -8 * mm}).x, 92 * mm);
}

TEST(DiameterCallout, TouchesTheCircleAndSaysItsDiameter) {
  Sheet sheet{Fonts(font_folder)};
  diameter_callout(sheet, half, {0 * mm, 0 * mm}, 20 * mm, {120 * mm, 150 * mm}, " × 4");
  EXPECT_EQ(label_on(sheet).text, "⌀20 × 4");
  const auto arrows = arrows_mm(sheet, Along::x);
  ASSERT_EQ(arrows.size(), 1U);
  EXPECT_NEAR(arrows[0].first, 105, 1e-9);  // radius 10 mm at 1:2
}

}  // namespace
}  // namespace backfit::paper
