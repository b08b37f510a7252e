// SPDX-License-Identifier: MIT
#include "files/source.hpp"

#include <gtest/gtest.h>

namespace backfit {
namespace {

using namespace std::string_literals;

// Truth: well-formed UTF-8 is what the Unicode Standard's table 3-7 allows (from memory of the
// table; each row's limits follow from the code points U+0080, U+0800, U+D800, U+E000, U+10000 and
// U+10FFFF, computed).
TEST(Utf8, TakesTheEndsOfEachRange) {
  for (const std::string& good :
       {"\x7F"s, "\xC2\x80"s, "\xDF\xBF"s, "\xE0\xA0\x80"s, "\xED\x9F\xBF"s, "\xEE\x80\x80"s,
        "\xEF\xBF\xBF"s, "\xF0\x90\x80\x80"s, "\xF4\x8F\xBF\xBF"s}) {
    EXPECT_EQ(first_invalid_utf8("a" + good + "b"), std::string::npos);
    EXPECT_EQ(code_points("a" + good + "b"), 3U);
  }
}

TEST(Utf8, RefusesWhatLiesJustOutside) {
  for (const std::string& bad :
       {"\x80"s, "\xC1\xBF"s, "\xC2"s, "\xE0\x9F\xBF"s, "\xED\xA0\x80"s, "\xE2\x82"s,
        "\xF0\x8F\xBF\xBF"s, "\xF4\x90\x80\x80"s, "\xF5\x80\x80\x80"s, "\xFF"s}) {
    EXPECT_EQ(first_invalid_utf8("a" + bad), 1U);
    EXPECT_EQ(first_invalid_utf8("a" + bad + "bcd"), 1U);
  }
}

TEST(SourceText, GivesLinesWithoutTheirEndings) {
  const SourceText s("x.toml", "one\r\ntwo\n\nfour");
  EXPECT_EQ(s.line_count(), 4U);
  EXPECT_EQ(s.line(1), "one");
  EXPECT_EQ(s.line(2), "two");
  EXPECT_EQ(s.line(3), "");
  EXPECT_EQ(s.line(4), "four");
  EXPECT_EQ(s.line(0), "");
  EXPECT_EQ(s.line(5), "");
}

}  // namespace
}  // namespace backfit
