// SPDX-License-Identifier: MIT
#include "files/source.hpp"

#include <gtest/gtest.h>

#include <utility>

namespace backfit {
namespace {

using namespace std::string_literals;

// Truth: Python's strict UTF-8 decoder takes these and refuses those of the next test. Each lies at
// a limit: U+0080, U+0800, U+D800, U+E000, U+10000, U+10FFFF.
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

// Truth: 1,920 scalar values from U+0080 on take two bytes, 61,440 from U+0800 on take three
// (63,488 less 2,048 surrogates), and every other string of two or three bytes from 0x80 on is none
// (computed from the definition of UTF-8).
TEST(Utf8, CountsAsManyCodePointsAsThereAre) {
  const auto whole = [](std::string_view text) {
    return first_invalid_utf8(text) == std::string_view::npos && code_points(text) == 1;
  };
  int two = 0;
  int three = 0;
  for (int a = 0x80; a < 0x100; ++a) {
    for (int b = 0; b < 0x100; ++b) {
      const char pair[] = {static_cast<char>(a), static_cast<char>(b)};
      if (whole({pair, 2})) ++two;
      for (int c = 0; c < 0x100; ++c) {
        const char bytes[] = {static_cast<char>(a), static_cast<char>(b), static_cast<char>(c)};
        if (whole({bytes, 3})) ++three;
      }
    }
  }
  EXPECT_EQ(two, 1920);
  EXPECT_EQ(three, 61440);
}

// Truth: 1,048,576 scalar values from U+10000 on, 4,096 for each pair of first bytes: 256 such
// pairs.
TEST(Utf8, TakesFourBytesForTheRest) {
  int pairs = 0;
  for (int a = 0xF0; a < 0x100; ++a) {
    for (int b = 0; b < 0x100; ++b) {
      const char bytes[] = {static_cast<char>(a), static_cast<char>(b), '\x80', '\xBF'};
      if (first_invalid_utf8({bytes, 4}) == std::string_view::npos) ++pairs;
      for (const auto& [c, d] : {std::pair{'\x7F', '\x80'}, std::pair{'\xC0', '\x80'},
                                 std::pair{'\x80', '\x7F'}, std::pair{'\x80', '\xC0'}}) {
        const char bad[] = {static_cast<char>(a), static_cast<char>(b), c, d};
        EXPECT_EQ(first_invalid_utf8({bad, 4}), 0U);
      }
    }
  }
  EXPECT_EQ(pairs, 256);
}

TEST(Utf8, SlicesByCodePoints) {
  EXPECT_EQ(code_point_slice("a±½b", 1, 2), "±½");
  EXPECT_EQ(code_point_slice("a±½b", 3, 9), "b");
  EXPECT_EQ(code_point_slice("a±½b", 9, 1), "");
  EXPECT_EQ(code_point_slice("±", 0, 0), "");
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
  // A carriage return alone ends no line.
  EXPECT_EQ(SourceText("x.toml", "a\rb\r").line(1), "a\rb\r");
}

}  // namespace
}  // namespace backfit
