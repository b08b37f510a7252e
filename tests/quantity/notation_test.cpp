// SPDX-License-Identifier: MIT
#include "quantity/notation.hpp"

#include <gtest/gtest.h>

#include <regex>

namespace backfit {
namespace {

template <class Q>
std::variant<Reading, NotationFault> read(const char* text, Sign sign = Sign::positive) {
  return read_quantity(text, kind_of<Q>(), sign);
}

template <class Q>
void expect_reads(const char* text, double value, double tolerance = 0) {
  const auto result = read<Q>(text);
  ASSERT_TRUE(std::holds_alternative<Reading>(result))
      << text << ": " << std::get<NotationFault>(result).message;
  const Reading& reading = std::get<Reading>(result);
  EXPECT_NEAR(reading.value, value, 1e-12 * value) << text;
  EXPECT_NEAR(reading.tolerance.value_or(0), tolerance, 1e-12 * value) << text;
}

// Truth: the units' definitions; an inch is 25.4 mm exactly, base units are mm, s, ohm of 1e3.
TEST(Notation, ReadsWhatTheTradeWrites) {
  expect_reads<Length>("114.3 mm ± 0.2", 114.3, 0.2);
  expect_reads<Length>("114.3 mm +/- 0.2 mm", 114.3, 0.2);
  expect_reads<Length>("73mm±.1", 73, 0.1);
  expect_reads<Length>("3 1/4 in", 82.55);
  expect_reads<Length>("4 13/64 in", 106.759375);
  expect_reads<Length>("0.197 in ± 0.007", 5.0038, 0.1778);
  expect_reads<Length>("1.5 m ± 2 cm", 1500, 20);
  expect_reads<Time>("1/125 s", 0.008);
  expect_reads<Time>("4 ms", 0.004);
  expect_reads<FNumber>("f/8.8", 8.8);
  expect_reads<IsoSpeed>("ISO 400/27°", 400);
  expect_reads<IsoSpeed>("EI 6", 6);
  expect_reads<Resistance>("47 kΩ 5%", 47e6, 2.35e6);
  expect_reads<double>("2.2x", 2.2);
  expect_reads<double>("0.3 % ± 0.1", 0.003, 0.001);
}

// Truth: S degrees = 1 + 10 log10 S, rounded: 100 is 21, 200 is 24, 0.8 is 0 (a discussion of slow
// films that tabulates the series, READ).
TEST(Notation, HoldsTheTwoFilmSpeedsAgainstEachOther) {
  expect_reads<IsoSpeed>("ISO 100/21°", 100);
  expect_reads<IsoSpeed>("ISO 200/24°", 200);
  expect_reads<IsoSpeed>("ISO 0.8/0°", 0.8);
  EXPECT_TRUE(std::holds_alternative<NotationFault>(read<IsoSpeed>("ISO 100/24°")));
}

struct Slip {
  const char* text;
  const char* guilty;
  const char* remedy;
};

// Law: every slip is told at its own bytes, and every remedy reads without a fault.
template <class Q>
void expect_told(std::initializer_list<Slip> slips) {
  for (const Slip& slip : slips) {
    const auto result = read<Q>(slip.text);
    ASSERT_TRUE(std::holds_alternative<NotationFault>(result)) << slip.text;
    const auto& fault = std::get<NotationFault>(result);
    EXPECT_EQ(std::string(slip.text).substr(fault.begin, fault.length), slip.guilty);
    EXPECT_EQ(fault.remedy, slip.remedy);
    if (!fault.remedy.empty()) {
      EXPECT_TRUE(std::holds_alternative<Reading>(read<Q>(fault.remedy.c_str()))) << fault.remedy;
    }
  }
}

TEST(Notation, TellsEachSlipAtItsPlaceWithARemedyThatReads) {
  expect_told<Length>({{"73,0 mm ± 0.1", "73,0", "73.0 mm ± 0.1"},
                       {"73", "73", "73 mm"},
                       {"73 mn", "mn", "73 mm"},
                       {"1/4 3 in", "1/4 3", "3 1/4 in"},
                       {"-5 mm", "-5", "5 mm"},
                       {"73 mm wide", "wide", "73 mm"},
                       {"73 mm 0.1", "0.1", "73 mm ± 0.1"},
                       {"73 s", "s", ""},
                       {"73 mm ± 80", "80", ""},
                       {"3/0 in", "3/0", ""}});
  expect_told<Time>({{"125/1 s", "125/1", "1/125 s"}});
  expect_told<FNumber>({{"8.8", "8.8", "f/8.8"}, {"F8", "F8", "f/8"}});
  expect_told<IsoSpeed>({{"ISO 400/26°", "400/26°", "ISO 400/27°"}});
}

TEST(Notation, KeepsToTheSignThatAKeyAllows) {
  EXPECT_TRUE(std::holds_alternative<Reading>(read<Length>("-0.8 mm", Sign::any)));
  EXPECT_TRUE(std::holds_alternative<Reading>(read<Length>("0 mm", Sign::not_negative)));
  EXPECT_TRUE(std::holds_alternative<NotationFault>(read<Length>("0 mm", Sign::positive)));
  EXPECT_TRUE(std::holds_alternative<NotationFault>(read<Length>("-1 mm", Sign::not_negative)));
}

// Law: the schema's pattern takes what the reader takes, and no bare number or foreign unit.
TEST(Notation, PatternAgreesWithTheReader) {
  const std::regex pattern(notation_pattern(kind_of<Length>()));
  for (const char* text : {"114.3 mm ± 0.2", "3 1/4 in", "4 13/64 in +/- 1/64", "0.197 in ± 0.007",
                           "73mm", "1.5 m ± 2 cm", "47 mm 5%"}) {
    EXPECT_TRUE(std::regex_match(text, pattern)) << text;
    EXPECT_TRUE(std::holds_alternative<Reading>(read<Length>(text))) << text;
  }
  for (const char* text : {"73", "73,0 mm", "73 s", "mm", "", "73 mm wide", "1/4 3 in"}) {
    EXPECT_FALSE(std::regex_match(text, pattern)) << text;
    EXPECT_TRUE(std::holds_alternative<NotationFault>(read<Length>(text))) << text;
  }
}

TEST(Notation, PrintsTwoFiguresOfTheHalfWidth) {
  EXPECT_EQ(text_with_u(8.5587 * mm, 0.10991 * mm), "8.56 mm ± 0.22");
  EXPECT_EQ(mm_with_u(118.95 * mm, 5.611 * mm), "119 ± 11");
  EXPECT_EQ(text_with_u(8 * mm, 0 * mm), "8.00 mm");
  EXPECT_EQ(text(1046 * mm), "1.05 m");
  EXPECT_EQ(fixed(-0.001, 2), "0.00");
  EXPECT_EQ(odds_text(0.9995), "over 99.9 %");
  EXPECT_EQ(odds_text(0.57), "57 %");
}

TEST(Notation, OffersANameThatIsNear) {
  const std::string_view names[] = {"width", "height", "before_film"};
  EXPECT_EQ(nearest_name("befor_film", names), "before_film");
  EXPECT_EQ(nearest_name("hieght", names), "height");
  EXPECT_EQ(nearest_name("colour", names), "");
}

}  // namespace
}  // namespace backfit
