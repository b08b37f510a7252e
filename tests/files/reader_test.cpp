// SPDX-License-Identifier: MIT
#include "files/reader.hpp"

#include <gtest/gtest.h>

#include "sample_record.hpp"

namespace backfit {
namespace {

TEST(Reader, FillsARecordAndRemembersEachPlace) {
  const ReadBracket r(
      "name = \"left ± one\"  # ×\n"
      "finish = \"bright\"\n"
      "caliper = \"3.0 mm ± 0.2\"\n"
      "count = 3\n"
      "left = true\n"
      "times = [\"1 s\", \"1/2 s\"]\n"
      "[[holes]]\n"
      "x = \"-1 mm ± 0.5\"\n"
      "[[holes]]\n"
      "x = \"1 mm ± 0.5\"\n"
      "[spare.small]\n"
      "x = \"2 mm ± 0.5\"\n");
  ASSERT_TRUE(r.bracket) << r.message();
  EXPECT_TRUE(r.diagnostics.list().empty());
  const Bracket& b = *r.bracket;
  EXPECT_EQ(*b.name, "left ± one");
  EXPECT_EQ(**b.finish, Finish::bright);
  EXPECT_EQ(b.caliper->value.value, 3 * mm);
  EXPECT_EQ(b.caliper->value.half_width, 0.2 * mm);
  EXPECT_EQ(**b.count, 3);
  EXPECT_TRUE(**b.left);
  ASSERT_EQ(b.times.size(), 2U);
  EXPECT_EQ(*b.times[1], 0.5 * second);
  EXPECT_EQ(b.times[1].place.column, 17U);
  EXPECT_EQ(b.times[1].place.length, 7U);
  ASSERT_EQ(b.holes.size(), 2U);
  EXPECT_EQ(b.holes[0].x->value, -1 * mm);
  EXPECT_EQ(b.holes[1].place.line, 9U);
  EXPECT_EQ(b.holes[1].x.place.line, 10U);
  ASSERT_EQ(b.spares.size(), 1U);
  EXPECT_EQ(b.spares[0].first, "small");
  EXPECT_EQ(b.spares[0].second.x->value, 2 * mm);
  EXPECT_FALSE(b.bare);
}

// Truth: the defaults that design.md, section 3, states: caliper 0.05 mm, ruler 0.5 mm, engraved
// focal length 3 %. Without a tool nothing is assumed.
TEST(Reader, TakesTheToolsToleranceAndSaysSoOnce) {
  const ReadBracket r(
      "name = \"b\"\ncaliper = \"3 mm\"\nruler = \"30 mm\"\nengraved = \"50 mm\"\nbare = \"5 "
      "mm\"\n");
  ASSERT_TRUE(r.bracket);
  EXPECT_EQ(r.bracket->caliper->value.half_width, 0.05 * mm);
  EXPECT_EQ(r.bracket->ruler->value.half_width, 0.5 * mm);
  EXPECT_NEAR(r.bracket->engraved->value.half_width / mm, 1.5, 1e-12);  // rounding only
  EXPECT_EQ(r.bracket->bare->value.half_width, 0 * mm);
  EXPECT_EQ(r.message(),
            "b.toml:2:11: note: no ± is written here and elsewhere; taken: caliper ± 0.05 mm "
            "(caliper), ruler ± 0.5 mm (ruler), engraved ± 3 % (engraved)\n"
            "  2 | caliper = \"3 mm\"\n"
            "    |           ^~~~~~\n");
}

TEST(Reader, RefusesADefaultToleranceAsLargeAsTheValue) {
  EXPECT_FALSE(ReadBracket("name = \"b\"\nruler = \"0.5 mm\"\n").bracket);
  EXPECT_TRUE(ReadBracket("name = \"b\"\nruler = \"0.51 mm\"\n").bracket);
  // A place may be nearer to zero than it is sure.
  EXPECT_TRUE(ReadBracket("name = \"b\"\n[[holes]]\nx = \"0 mm\"\n").bracket);
}

// Law: a column is a code point, counted from 1, whatever stands before it on the line.
TEST(Reader, PointsAtTheGuiltyTextBehindTextOfSeveralBytes) {
  EXPECT_EQ(
      ReadBracket("name = \"b\"\nspare = { \"½ ±\" = { x = \"1 mm ± 0.1 µn\" } }\n").message(),
      "b.toml:2:37: error: 'µn' is not a unit of length; the tolerance takes the value's "
      "unit\n"
      "  2 | spare = { \"½ ±\" = { x = \"1 mm ± 0.1 µn\" } }\n"
      "    |                                     ^~\n"
      "    = help: write \"1 mm ± 0.1 µm\"\n");
}

TEST(Reader, ShowsABareNumberBehindTextOfSeveralBytes) {
  EXPECT_EQ(ReadBracket("name = \"b\"\nspare = { \"½ ±\" = { x = 12.5 } }\n").message(),
            "b.toml:2:25: error: '12.5' is a bare number; a length bears its unit\n"
            "  2 | spare = { \"½ ±\" = { x = 12.5 } }\n"
            "    |                         ^~~~\n"
            "    = help: write \"12.5 mm\" if it is in mm\n");
}

TEST(Reader, PointsAtTheWholeValueWhereEscapesHideTheColumn) {
  EXPECT_EQ(ReadBracket("name = \"b\"\nbare = \"1 m\\u006E\"\n").message(),
            "b.toml:2:8: error: 'mn' is not a unit of length; known are mm, cm, m, µm, um, in, "
            "inch, \", ft\n"
            "  2 | bare = \"1 m\\u006E\"\n"
            "    |        ^~~~~~~~~~~\n"
            "    = help: write \"1 mm\"\n");
}

TEST(Reader, ReportsMistakesInTheOrderOfTheFile) {
  const ReadBracket r(
      "zebra = 1\nname = \"\"\nbare = 7\ncount = 0\ntimes = [\"1 s\", \"1 mm\"]\n[apple]\n");
  EXPECT_FALSE(r.bracket);
  ASSERT_EQ(r.diagnostics.list().size(), 6U);
  for (std::size_t i = 0; i < 6; ++i) EXPECT_EQ(r.diagnostics.list()[i].place.line, i + 1);
}

TEST(Reader, NamesOneMistakeOnce) {
  // The misspelt key explains the missing one; the line that is lost does, too.
  EXPECT_EQ(ReadBracket("nmae = \"b\"\n").diagnostics.list().size(), 1U);
  EXPECT_EQ(ReadBracket("name = b\n").diagnostics.list().size(), 1U);
  EXPECT_EQ(ReadBracket("name = \"b\"\n[[holes]]\nx = 1,5 mm\n").diagnostics.list().size(), 1U);
}

// Law: a line that is no TOML costs its own value and no other.
TEST(Reader, GoesOnAfterEachLineThatIsNoToml) {
  const ReadBracket r(
      "name = \"b\ncaliper = 3,0 mm\nbare = \"x mm\"\nthis is a remark\ntimes = [\"1 s\"\n"
      "ruler = \"y mm\"\n[[holes]\nx = \"1 mm\"\n");
  std::vector<std::size_t> lines;
  for (const Diagnostic& d : r.diagnostics.list()) lines.push_back(d.place.line);
  EXPECT_EQ(lines, (std::vector<std::size_t>{1, 2, 3, 4, 5, 6, 7}));
}

TEST(Reader, StopsTellingAfterAHundredMistakes) {
  std::string text = "name = \"b\"\n";
  for (int i = 0; i < 250; ++i) text += "extra" + std::to_string(i) + " = 1\n";
  const ReadBracket r(text);
  ASSERT_EQ(r.diagnostics.list().size(), 101U);
  EXPECT_EQ(r.diagnostics.list().back().text, "from here on this file has 150 more mistakes");
}

// Law: no depth of nesting ends the process; the parser's own limit or ours says no.
TEST(Reader, RefusesWhatIsNestedTooDeeply) {
  std::string dots = "a";
  for (int i = 0; i < 500000; ++i) dots += ".a";
  for (const std::string& text : {dots + " = 1\n", "[" + dots + "]\n", "x = {" + dots + " = 1}\n",
                                  "x = " + std::string(500000, '[') + "\n"}) {
    EXPECT_FALSE(ReadBracket(text).bracket);
  }
  EXPECT_FALSE(ReadBracket("name = \"b\"\nleft.a.b.c = 1\n").bracket);
  EXPECT_TRUE(ReadBracket("name = \"1.2.3.4.5.6.7.8.9.1.2.3.4.5.6.7.8.9\"  # ..................\n")
                  .bracket);
}

}  // namespace
}  // namespace backfit
