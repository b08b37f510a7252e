// SPDX-License-Identifier: MIT
// Law: turning a dial changes the digits of its number and no other byte.
#include "files/dial.hpp"

#include <gtest/gtest.h>

#include <map>

namespace backfit {
namespace {

struct Sample {
  Stated<Measured<Length>> set_back, bare;
  Stated<FNumber> aperture;
  std::vector<Stated<Length>> marks;
  std::string_view unused;
};
void describe(Fields& f, Sample& s) {
  f.value("set_back", s.set_back, {"Set-back", {}, Tool::caliper, Sign::any});
  f.value("depth", s.bare, {"Depth", {}, Tool::caliper, Sign::not_negative});
  f.value("aperture", s.aperture, {"Stop"});
  f.values("marks", s.marks, {"Marks"}, false);
}

std::map<std::string, Dial> dials_of(const std::string& text) {
  const auto source = std::make_shared<const SourceText>("a.toml", text);
  Sample sample;
  std::map<std::string, Dial> dials;
  for (const ReadValue& v : values_in(source, [&](Fields& f) { describe(f, sample); })) {
    if (const auto d = dial_of(v)) dials[d->key + "@" + std::to_string(d->number.column)] = *d;
  }
  return dials;
}

const std::string text =
    "# über the bench: 8.56 mm\r\n"
    "set_back =  '8.56 mm ± 0.22'   # kept, 8.56 mm\r\n"
    "depth = \" 0.50 mm\"\r\n"
    "aperture = \"f/9\"\r\n"
    "marks = [\"1 m\", \"3 1/4 in\", \"1/2 in\", \"1.2 m\"]\r\n";

TEST(Dial, FindsThePlainNumbers) {
  const auto dials = dials_of(text);
  ASSERT_EQ(dials.size(), 5U);  // fractions have none
  const Dial& d = dials.at("set_back@14");
  EXPECT_EQ(d.unit, "mm");
  EXPECT_EQ(d.number.length, 4U);
  EXPECT_DOUBLE_EQ(d.value, 8.56);
  EXPECT_DOUBLE_EQ(d.step, 0.01);
  EXPECT_NEAR(d.least, 6.42, 1e-9);
  EXPECT_NEAR(d.most, 10.70, 1e-9);
  const Dial& depth = dials.at("depth@11");
  EXPECT_DOUBLE_EQ(depth.least, 0.3);  // twenty steps
  EXPECT_DOUBLE_EQ(depth.most, 0.7);
  const Dial& stop = dials.at("aperture@15");
  EXPECT_EQ(stop.unit, "f/");
  EXPECT_DOUBLE_EQ(stop.most, 36);
  EXPECT_DOUBLE_EQ(stop.least, 2.5);  // thirteen half stops below
  EXPECT_TRUE(dials.contains("marks@11"));
}

TEST(Dial, TurnsTheNumberAndNothingElse) {
  const auto dials = dials_of(text);
  std::string expected = text;
  expected.replace(expected.find("'8.56"), 5, "'9.10");
  EXPECT_EQ(turned(dials.at("set_back@14"), 9.1), expected);
  expected = text;
  expected.replace(expected.find("f/9"), 3, "f/12.5");
  EXPECT_EQ(turned(dials.at("aperture@15"), 12.5), expected);
}

TEST(Dial, KeepsToItsRangeAndItsDecimals) {
  const auto dials = dials_of(text);
  EXPECT_NE(turned(dials.at("set_back@14"), 1e9).find("'10.70 mm"), std::string::npos);
  EXPECT_NE(turned(dials.at("set_back@14"), 9.123456).find("'9.12 mm"), std::string::npos);
}

TEST(Dial, NeverPassesTheSignThatTheValueMayHave) {
  const auto dials =
      dials_of("set_back = \"0.00 mm ± 0.10\"\ndepth = \"0.1 mm\"\naperture = \"f/9\"\n");
  EXPECT_DOUBLE_EQ(dials.at("set_back@13").least, -0.2);
  EXPECT_DOUBLE_EQ(dials.at("depth@10").least, 0);
}

TEST(Dial, StandsBesideMistakes) {
  EXPECT_EQ(dials_of("set_back = \"1.00 mm\"\ndepth = \"2 mn\"\naperture = 9\n").size(), 1U);
}

}  // namespace
}  // namespace backfit
