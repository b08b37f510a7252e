// SPDX-License-Identifier: MIT
#include "documents/sheet.hpp"

#include <gtest/gtest.h>

#include "printed.hpp"

namespace backfit::paper {
namespace {

// Law: n lines are n line heights and n - 1 gaps high.
TEST(Text, HeightGrowsByTheLine) {
  const Fonts fonts(font_folder);
  const Length one = fonts.size("line", body_text).height;
  std::string words = "word";
  for (int i = 0; i < 60; ++i) {
    const auto lines = fonts.lines(words, body_text, 40 * mm);
    const double n = static_cast<double>(lines.size());
    EXPECT_NEAR(fonts.size(words, body_text, 40 * mm).height.in(mm),
                (n * one + (n - 1) * line_gap(body_text)).in(mm), 0.001 * n);  // pango's 1/1024 mm
    words += " word";
  }
  EXPECT_GT(fonts.lines(words, body_text, 40 * mm).size(), 5U);
}

// Truth: the horizontal advances of DejaVu Sans 2.37 in its hmtx table, in 1/2048 em, READ from the
// file: a 1255, b 1300, A 1401.
TEST(Text, WidthIsTheSumOfTheFontsAdvances) {
  const Fonts fonts(font_folder);
  const TextStyle style{.size = 2048 * 0.01 * mm};
  EXPECT_NEAR(fonts.size("abba", style).width.in(mm), (1255 + 1300) * 2 * 0.01, 0.01);
  EXPECT_NEAR(fonts.size("A", style).width.in(mm), 14.01, 0.01);
}

// Law: no wrapped line is wider than its column, even of one endless word.
TEST(Text, NeverRunsOutOfItsColumn) {
  const Fonts fonts(font_folder);
  for (const std::string& words :
       {std::string("Countersunk screws and a plate"), std::string(80, 'W')}) {
    for (const std::string& line : fonts.lines(words, body_text, 20 * mm)) {
      EXPECT_LE(fonts.size(line, body_text).width, 20.01 * mm) << line;
    }
    EXPECT_GT(fonts.lines(words, body_text, 20 * mm).size(), 1U);
  }
}

TEST(Text, BytesThatAreNotUtf8AreShownAsSuch) {
  Document document = blank_document();
  document.add_page().text({margin, 30 * mm}, "a\xff z", body_text, content_width);
  EXPECT_NE(text_in(file("a.pdf", document.pdf())).find("a\uFFFD z"), std::string::npos);
}

// Law: every place on the curves lies on the circle, within the error that the header states.
TEST(Path, CircleIsRound) {
  const PagePoint centre{30 * mm, 40 * mm};
  const Path path = circle(centre, 100 * mm);
  ASSERT_EQ(path.chains.size(), 1U);
  PagePoint start = path.chains[0].start;
  for (const Path::Segment& s : path.chains[0].segments) {
    for (int i = 0; i <= 64; ++i) {
      const double t = i / 64.0;
      const double a = (1 - t) * (1 - t) * (1 - t), b = 3 * t * (1 - t) * (1 - t),
                   c = 3 * t * t * (1 - t), d = t * t * t;
      const Length x = a * start.x + b * s.control_1.x + c * s.control_2.x + d * s.end.x;
      const Length y = a * start.y + b * s.control_1.y + c * s.control_2.y + d * s.end.y;
      EXPECT_NEAR(hypot(x - centre.x, y - centre.y).in(mm), 100, 100 * 5e-6);
    }
    start = s.end;
  }
  EXPECT_NEAR((start.x - path.chains[0].start.x).in(mm), 0, 1e-9);
}

TEST(Path, RoundedRectangleStaysInItsCorners) {
  const Path path = rectangle({10 * mm, 40 * mm}, {50 * mm, 20 * mm}, 5 * mm);
  Length left = 1000 * mm, right, top = 1000 * mm, bottom;
  for (const Path::Segment& s : path.chains[0].segments) {
    left = std::min(left, s.end.x), right = std::max(right, s.end.x);
    top = std::min(top, s.end.y), bottom = std::max(bottom, s.end.y);
  }
  EXPECT_NEAR(left.in(mm), 10, 1e-9);
  EXPECT_NEAR(right.in(mm), 50, 1e-9);
  EXPECT_NEAR(top.in(mm), 20, 1e-9);
  EXPECT_NEAR(bottom.in(mm), 40, 1e-9);
}

// The grey value (0 black, 255 white) of the page at `place`, as pdftoppm renders it.
int grey_at(const Document& document, PagePoint place) {
  const std::string pdf = file("a.pdf", document.pdf());
  const std::string image = (scratch() / "dot").string();
  const auto pixel = [](Length l) { return std::to_string(std::lround(l / (0.1 * mm))); };
  said("pdftoppm -r 254 -gray -singlefile -W 1 -H 1 -x " + pixel(place.x) + " -y " +
       pixel(place.y) + " " + pdf + " " + image);
  return static_cast<unsigned char>(bytes_of(image + ".pgm").back());
}

// Truth: 0.2 of black on white is 0.8 of 255 (computed).
TEST(Sheet, TintCoversTheInsideAndSparesTheHole) {
  Document document = blank_document();
  Path ring = circle({100 * mm, 100 * mm}, 20 * mm);
  ring += circle({100 * mm, 100 * mm}, 10 * mm);
  document.add_page().fill(ring, Ink::black, 0.2);
  EXPECT_NEAR(grey_at(document, {115 * mm, 100 * mm}), 204, 1);
  EXPECT_EQ(grey_at(document, {100 * mm, 100 * mm}), 255);
  EXPECT_EQ(grey_at(document, {125 * mm, 100 * mm}), 255);
}

TEST(Sheet, HatchingStaysInsideItsFigure) {
  Document document = blank_document();
  const PagePoint corner{100 * mm, 100 * mm};
  document.add_page().hatch(rectangle(corner, {120 * mm, 120 * mm}), 2 * mm, 0 * deg);
  // Level lines 2 mm apart, in step with the page's upper edge.
  EXPECT_LT(grey_at(document, {110 * mm, 110 * mm}), 128);
  EXPECT_EQ(grey_at(document, {110 * mm, 111 * mm}), 255);
  EXPECT_EQ(grey_at(document, {130 * mm, 110 * mm}), 255);
}

}  // namespace
}  // namespace backfit::paper
