// SPDX-License-Identifier: MIT
#include "files/diagnostic.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

namespace backfit {
namespace {

namespace fs = std::filesystem;

Place place_in(const std::string& text, std::size_t line, std::size_t column, std::size_t length) {
  return {std::make_shared<const SourceText>("a.toml", text), line, column, length};
}

TEST(Rendered, UnderlinesCodePointsBehindTabsAndSigns) {
  EXPECT_EQ(rendered({Severity::warning, place_in("x\n\t½ ± bad\n", 2, 6, 3), "no", "yes", {}}),
            "a.toml:2:6: warning: no\n"
            "  2 | \t½ ± bad\n"
            "    | \t    ^~~\n"
            "    = help: yes\n");
}

TEST(Rendered, AddsTheSecondPlace) {
  const Place place = place_in("a = 1\na = 2\n", 2, 1, 1);
  Place first = place;
  first.line = 1;
  EXPECT_EQ(rendered({Severity::error, place, "twice", {}, {{first, "first given here"}}}),
            "a.toml:2:1: error: twice\n"
            "  2 | a = 2\n"
            "    | ^\n"
            "a.toml:1:1: note: first given here\n"
            "  1 | a = 1\n"
            "    | ^\n");
}

// Law: no character of an owner's file that a terminal obeys comes out.
TEST(Rendered, SendsNoControlCharacters) {
  const std::string text =
      "a\x1b[2J\x07\xC2\x9B\x7F"
      "b";
  const std::string out =
      rendered({Severity::error, place_in(text, 1, 1, 1), "'" + text + "\n'", text, {}});
  for (const char c : out) EXPECT_TRUE(c == '\n' || static_cast<unsigned char>(c) >= 0x20) << out;
  EXPECT_EQ(out.find("\xC2\x9B"), std::string::npos);
  EXPECT_EQ(out.find('\x7F'), std::string::npos);
  EXPECT_EQ(first_invalid_utf8(out), std::string::npos);
}

TEST(Rendered, ShowsTheBeginningOfALongLine) {
  const std::string out =
      rendered({Severity::error, place_in(std::string(5000, 'x'), 1, 4000, 900), "long", {}, {}});
  EXPECT_LT(out.size(), 400U);
}

class ReadSource : public testing::Test {
 protected:
  ReadSource() { fs::create_directories(folder_); }
  ~ReadSource() override { fs::remove_all(folder_); }
  std::string fault(const std::string& bytes) {
    std::ofstream(folder_ / "a.toml", std::ios::binary) << bytes;
    Diagnostics diagnostics;
    const auto source = read_source(folder_ / "a.toml", diagnostics);
    if (source != nullptr) return "reads " + source->text();
    return diagnostics.list().size() == 1 ? diagnostics.list().front().text : "not one message";
  }
  fs::path folder_ =
      fs::temp_directory_path() / (std::string("backfit-source-") +
                                   testing::UnitTest::GetInstance()->current_test_info()->name());
};

TEST_F(ReadSource, TakesTextAndRefusesTheRest) {
  EXPECT_EQ(fault("a = \"½\"\n"), "reads a = \"½\"\n");
  EXPECT_EQ(fault("\xEF\xBB\xBF"
                  "a = 1"),
            "reads a = 1");
  EXPECT_EQ(fault(""), "reads ");
  EXPECT_EQ(fault("a\xB1"), "byte 0xB1 is not UTF-8 text");
  EXPECT_EQ(fault("a\xC2"), "byte 0xC2 is not UTF-8 text");
}

TEST_F(ReadSource, TakesAMebibyteAndNoByteMore) {
  EXPECT_EQ(fault(std::string(1024UL * 1024, '#')).substr(0, 5), "reads");
  EXPECT_NE(fault(std::string(1024UL * 1024 + 1, '#')).substr(0, 5), "reads");
}

TEST_F(ReadSource, PointsAtTheFirstByteThatIsNotText) {
  std::ofstream(folder_ / "a.toml", std::ios::binary) << "½\n½½\xFF tail\n";
  Diagnostics diagnostics;
  EXPECT_EQ(read_source(folder_ / "a.toml", diagnostics), nullptr);
  EXPECT_EQ(diagnostics.list().front().place.line, 2U);
  EXPECT_EQ(diagnostics.list().front().place.column, 3U);
}

}  // namespace
}  // namespace backfit
