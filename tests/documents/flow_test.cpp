// SPDX-License-Identifier: MIT
#include "documents/flow.hpp"

#include <gmock/gmock.h>

#include "printed.hpp"

namespace backfit::paper {
namespace {

using testing::HasSubstr;
using testing::Not;

const Flow::Draw nothing = [](Sheet&, PagePoint) {};

std::string words(int n) {
  std::string text;
  for (int i = 0; i < n; ++i) text += "word" + std::to_string(i) + " ";
  return text;
}

// The page, counted from 0, on which some words stand; -1 when they stand nowhere.
int page_with(const Document& document, const std::string& text) {
  for (std::size_t page = 0; page < document.page_count(); ++page) {
    for (const Mark& mark : document.page(page).marks()) {
      const auto* words = std::get_if<Words>(&mark);
      if (words != nullptr && words->text == text) return static_cast<int>(page);
    }
  }
  return -1;
}

TEST(Flow, StartsANewPageForABlockThatDoesNotFit) {
  Document document = blank_document();
  Flow flow(document);
  std::vector<PagePoint> corners;
  for (int i = 0; i < 3; ++i) {
    flow.block(100 * mm, [&](Sheet&, PagePoint corner) { corners.push_back(corner); });
  }
  EXPECT_EQ(document.page_count(), 2U);
  ASSERT_EQ(corners.size(), 3U);
  EXPECT_EQ(corners[0].y, content_top);
  EXPECT_GT(corners[1].y, content_top + 100 * mm);
  EXPECT_EQ(corners[2].y, content_top);
}

TEST(Flow, HeadingGoesWithTheBlockAfterIt) {
  Document document = blank_document();
  Flow flow(document);
  flow.block(200 * mm, nothing);
  flow.heading("Section");
  flow.block(60 * mm, nothing);
  EXPECT_EQ(page_with(document, "Section"), 1);
}

TEST(Flow, HeadingWithNothingAfterItIsStillPrinted) {
  Document document = blank_document();
  { Flow(document).heading("Section"); }
  EXPECT_EQ(page_with(document, "Section"), 0);
}

TEST(Flow, KeepsWhatBelongsTogetherOnOnePage) {
  Document document = blank_document();
  Flow flow(document);
  flow.block(200 * mm, nothing);
  flow.together([&] {
    flow.paragraph("before");
    flow.block(60 * mm, nothing);
    flow.paragraph("after");
  });
  EXPECT_EQ(page_with(document, "before"), 1);
  EXPECT_EQ(page_with(document, "after"), 1);
}

TEST(Flow, StepKeepsItsCautionBeforeItsText) {
  Document document = blank_document();
  {
    Flow flow(document);
    flow.block(235 * mm, nothing);
    flow.step({3, "Drill", "Drill from the front.", {"Wear glasses."}});
  }
  EXPECT_EQ(page_with(document, "Drill"), 1);
  const std::string text = text_in(file("a.pdf", document.pdf()), 2);
  EXPECT_LT(text.find("Wear glasses."), text.find("Drill from the front."));
  EXPECT_THAT(text, HasSubstr("Drill from the front."));
}

TEST(Flow, TextHigherThanAPageLosesNoWord) {
  Document document = blank_document();
  { Flow(document).paragraph(words(3000)); }
  EXPECT_GE(document.page_count(), 2U);
  const std::string text = text_in(file("a.pdf", document.pdf()));
  for (int i = 0; i < 3000; ++i) EXPECT_THAT(text, HasSubstr("word" + std::to_string(i)));
}

TEST(Flow, TableRepeatsItsHeadOnEachPage) {
  Document document = blank_document();
  Table table{{{"Speed", 40 * mm}, {"Resistor", 40 * mm, Align::right}}, {}};
  for (int i = 0; i < 60; ++i) table.rows.push_back({"1/60 s", std::to_string(1000 + i) + " Ω"});
  { Flow(document).table(table); }
  ASSERT_EQ(document.page_count(), 2U);
  const std::string pdf = file("a.pdf", document.pdf());
  EXPECT_THAT(text_in(pdf, 1), HasSubstr("Resistor"));
  EXPECT_THAT(text_in(pdf, 2), HasSubstr("Resistor"));
  EXPECT_THAT(text_in(pdf, 2), HasSubstr("1059 Ω"));
  EXPECT_THAT(text_in(pdf, 2), Not(HasSubstr("1000 Ω")));
}

TEST(Flow, TableRowHigherThanAPageLosesNoWord) {
  Document document = blank_document();
  { Flow(document).table({{{"A", 30 * mm}, {"B", 40 * mm}}, {{"left", words(400)}}}); }
  EXPECT_GE(document.page_count(), 2U);
  const std::string text = text_in(file("a.pdf", document.pdf()));
  for (int i = 0; i < 400; ++i) EXPECT_THAT(text, HasSubstr("word" + std::to_string(i)));
}

// Law: the height that layout counts on is the height that drawing uses.
TEST(Table, UsesTheHeightItSays) {
  const Table table{{{"A head of two lines", 20 * mm}, {"B", 30 * mm}},
                    {{"one", words(20)}, {"two", ""}}};
  Sheet sheet{Fonts(font_folder)};
  const Length used = draw(sheet, {margin, content_top}, table);
  EXPECT_EQ(used, head_height(sheet.fonts(), table) + row_height(sheet.fonts(), table, 0) +
                      row_height(sheet.fonts(), table, 1));
  EXPECT_EQ(width_of(table), 50 * mm);
}

// Law: no mark of a full page leaves the paper, and no text leaves the margins.
TEST(Flow, TextStaysBetweenTheMargins) {
  Document document = blank_document();
  {
    Flow flow(document);
    for (int i = 1; i < 30; ++i) {
      flow.heading("Heading " + words(20));
      flow.finding({Sign::blocker, words(30), words(40), words(10)});
      flow.step({i, words(5), words(60), {words(30), words(3)}});
      flow.item("☐", words(25));
      flow.boxed({Sign::note, "Note", words(30)});
    }
  }
  EXPECT_GT(document.page_count(), 5U);
  for (std::size_t page = 0; page < document.page_count(); ++page) {
    for (const Mark& mark : document.page(page).marks()) {
      const auto* words = std::get_if<Words>(&mark);
      if (words == nullptr || !words->width) continue;
      const TextSize size = document.fonts().size(words->text, words->style, *words->width);
      EXPECT_GE(words->at.y, content_top);
      EXPECT_LE(words->at.y + size.height, content_bottom);
      EXPECT_GE(words->at.x, margin);
      EXPECT_LE(words->at.x + *words->width, page_width - margin + 1e-9 * mm);
    }
  }
}

}  // namespace
}  // namespace backfit::paper
