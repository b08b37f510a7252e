// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>
#include <regex>

#include "written_quantities.hpp"

namespace backfit {
namespace {

constexpr int texts_a_kind = 4000;

// Law: a fault lies in its text and says something, and a remedy, taken at its word, is read.
TEST(ReadQuantity, OffersOnlyRemediesThatItReads) {
  Writer writer;
  int remedies = 0;
  for (const QuantityKind* kind : all_kinds()) {
    for (int i = 0; i < texts_a_kind; ++i) {
      const std::string text = writer.text(*kind);
      for (const Sign sign : {Sign::positive, Sign::not_negative, Sign::any}) {
        const auto result = read_quantity(text, *kind, sign);
        const auto* fault = std::get_if<NotationFault>(&result);
        if (fault == nullptr) continue;
        EXPECT_LE(fault->begin + fault->length, text.size()) << text;
        EXPECT_FALSE(fault->message.empty()) << text;
        if (fault->remedy.empty()) continue;
        ++remedies;
        EXPECT_TRUE(reads(fault->remedy, *kind, sign)) << text << " -> " << fault->remedy;
      }
    }
  }
  EXPECT_GT(remedies, 1000);
}

// Law: what is read is finite, as the sign says, and surer than it is large.
TEST(ReadQuantity, GivesOnlyWhatTheKeyAllows) {
  Writer writer;
  int read = 0;
  for (const QuantityKind* kind : all_kinds()) {
    for (int i = 0; i < texts_a_kind; ++i) {
      const auto result = read_quantity(writer.text(*kind), *kind, Sign::positive);
      const auto* reading = std::get_if<Reading>(&result);
      if (reading == nullptr) continue;
      ++read;
      EXPECT_TRUE(reading->value > 0 && std::isfinite(reading->value));
      if (reading->tolerance) {
        EXPECT_TRUE(*reading->tolerance > 0 && *reading->tolerance < reading->value);
      }
    }
  }
  EXPECT_GT(read, 5000);
}

// Law: a tolerance written with either sign, with the unit or without, is one tolerance.
TEST(ReadQuantity, TakesEachWayToWriteATolerance) {
  for (const char* text : {"114.3 mm ± 0.2", "114.3 mm +/- 0.2", "114.3 mm +- 0.2 mm",
                           "114.3mm±0.2mm", "  114.3 mm\t± 1/5 ", "11.43 cm ± 0.2 mm"}) {
    const auto result = read_quantity(text, kind_of<Length>(), Sign::positive);
    ASSERT_TRUE(std::holds_alternative<Reading>(result)) << text;
    EXPECT_NEAR(std::get<Reading>(result).value, 114.3, 1e-12) << text;
    EXPECT_NEAR(*std::get<Reading>(result).tolerance, 0.2, 1e-12) << text;
  }
}

struct Slip {
  const char* text;
  std::size_t begin, length;
  const char* message;
  const char* remedy;
};

void expect_told(const QuantityKind& kind, std::initializer_list<Slip> slips) {
  for (const Slip& slip : slips) {
    const auto result = read_quantity(slip.text, kind, Sign::positive);
    ASSERT_TRUE(std::holds_alternative<NotationFault>(result)) << slip.text;
    const auto& fault = std::get<NotationFault>(result);
    EXPECT_EQ(fault.begin, slip.begin) << slip.text;
    EXPECT_EQ(fault.length, slip.length) << slip.text;
    EXPECT_EQ(fault.message, slip.message) << slip.text;
    EXPECT_EQ(fault.remedy, slip.remedy) << slip.text;
  }
}

TEST(ReadQuantity, ReplacesSignsThatOnlyLookRight) {
  expect_told(kind_of<Length>(), {{"2¼ in", 1, 2, "'¼' is written '1/4' here", "2 1/4 in"},
                                  {"¾ in", 0, 2, "'¾' is written '3/4' here", "3/4 in"},
                                  {"3 1⁄4 in", 3, 3, "'⁄' is written '/' here", "3 1/4 in"},
                                  {"73\u00A0mm", 2, 2, "'\u00A0' is written ' ' here", "73 mm"},
                                  {"5 \u03BCm", 2, 2, "'\u03BC' is written 'µ' here", "5 µm"}});
  expect_told(kind_of<Resistance>(),
              {{"47 k\u2126", 4, 3, "'\u2126' is written 'Ω' here", "47 kΩ"}});
  expect_told(kind_of<IsoSpeed>(),
              {{"ISO 400/27º", 10, 2, "'º' is written '°' here", "ISO 400/27°"}});
  const auto negative = read_quantity("−0.8 mm", kind_of<Length>(), Sign::any);
  EXPECT_EQ(std::get<NotationFault>(negative).remedy, "-0.8 mm");
}

// Law: a unit that may be another size of a known one is never put right by guess: the nearest
// spelling would be ten or a million times off.
TEST(ReadQuantity, OffersNoUnitOfAnotherSize) {
  const auto remedy = [](const char* text, const QuantityKind& kind) {
    return std::get<NotationFault>(read_quantity(text, kind, Sign::positive)).remedy;
  };
  for (const char* text : {"7 km", "7 dm", "7 nm", "7 Mm", "7 h", "7 M"})
    EXPECT_EQ(remedy(text, kind_of<Length>()), "") << text;
  for (const char* text : {"5 F", "5 mF", "5 MF"})
    EXPECT_EQ(remedy(text, kind_of<Capacitance>()), "") << text;
  for (const char* text : {"5 GΩ", "5 mΩ"})
    EXPECT_EQ(remedy(text, kind_of<Resistance>()), "") << text;
  EXPECT_EQ(remedy("1 kg/cm3", kind_of<MassDensity>()), "");
  EXPECT_EQ(remedy("1 ns", kind_of<Time>()), "");
  EXPECT_EQ(remedy("1 grad", kind_of<Angle>()), "");
  EXPECT_EQ(remedy("5 inches", kind_of<Length>()), "5 inch");
  EXPECT_EQ(remedy("6 feet", kind_of<Length>()), "6 ft");
  EXPECT_EQ(remedy("47 kohms", kind_of<Resistance>()), "47 kohm");
}

// Law: half a remedy is none. Each of these has two faults.
TEST(ReadQuantity, OffersNothingForTwoFaults) {
  expect_told(
      kind_of<Length>(),
      {{"73,0 mn", 0, 4, "'73,0' has a decimal comma; numbers here take a decimal point", ""},
       {"1/4 3", 0, 5, "'1/4 3' has the fraction before the whole number", ""},
       {"2 5/4 in", 2, 3, "the fraction '5/4' after a whole number must be less than one", ""},
       {"3.0 1/4 in", 0, 7, "'3.0 1/4' mixes a decimal number and a fraction", ""}});
}

TEST(ReadQuantity, RefusesNumbersBeyondAllNumbers) {
  for (const char* text : {"1e308 ft", "1e400 mm", "inf mm", "nan mm", "5 mm ± 1e400", "1e308 m"})
    EXPECT_FALSE(reads(text, kind_of<Length>())) << text;
  EXPECT_FALSE(reads("-400 ISO", kind_of<IsoSpeed>()));
  EXPECT_FALSE(reads("ISO -400/27°", kind_of<IsoSpeed>(), Sign::positive));
}

// The regular expression for editors knows how quantities look, not what their numbers mean: it
// takes zero, negative values, odd tolerances, speeds that disagree and fractions out of range.
bool only_its_value_is_wrong(std::string_view text, const QuantityKind& kind) {
  const auto result = read_quantity(text, kind, Sign::any);
  const auto* fault = std::get_if<NotationFault>(&result);
  if (fault == nullptr) return false;
  for (const char* part :
       {"tolerance '", "disagrees with itself", "divides by zero", "must be less than one",
        "stands upside down", "is too large", "beyond the range"}) {
    if (fault->message.find(part) != std::string::npos) return true;
  }
  return false;
}

// Where pattern and reader still differ, by the pattern's fault. Each line must leave this list
// when the pattern learns it.
struct Disagreement {
  const QuantityKind& kind;
  const char* text;
  const char* reason;
};
const Disagreement known_disagreements[] = {
    {kind_of<Length>(), ".1 mm", "the pattern wants a digit before the point"},
    {kind_of<Length>(), "73. mm", "the pattern wants a digit after the point"},
    {kind_of<Time>(), "1/2.5 s", "the pattern wants whole numbers in a fraction"},
    {kind_of<Length>(), "73\tmm", "the pattern knows no tabs"},
    {kind_of<Resistance>(), "47 kΩ5%", "the pattern wants a space before a tolerance without ±"},
    {kind_of<Resistance>(), "47 kΩ -5%", "the pattern takes a sign in a tolerance without ±"},
    {kind_of<Dioptre>(), "21/m", "the pattern takes this for 2 of the unit 1/m"},
    {kind_of<FNumber>(), "f/1 1/2", "the pattern takes fractions behind f/"},
    {kind_of<FNumber>(), "f/+8", "the pattern takes a plus behind f/"},
    {kind_of<FNumber>(), "f/8/27°",
     "the pattern takes degrees for every kind with a unit before it"},
};

TEST(NotationPattern, DisagreesWhereThatIsKnown) {
  for (const auto& [kind, text, reason] : known_disagreements) {
    EXPECT_NE(std::regex_match(text, std::regex(notation_pattern(kind))), reads(text, kind))
        << text << ": no longer so: " << reason;
  }
}

bool is_known_to_disagree(const std::string& text, const QuantityKind& kind) {
  static const std::regex forms(R"((^|[^0-9])\.|\.([^0-9]|$)|/[0-9]+\.|\t|[0-9]1/m)");
  static const std::regex bare_per_cent(R"(.*[^-+0-9. ].*%.*)");
  const bool has_sign = std::regex_search(text, std::regex(R"(±|\+/-|\+-)"));
  return kind.units.front().before || std::regex_search(text, forms) ||
         (!has_sign && std::regex_match(text, bare_per_cent));
}

// Law: pattern and reader agree but for values and for the forms listed above.
TEST(NotationPattern, TakesWhatTheReaderTakes) {
  Writer writer;
  for (const QuantityKind* kind : all_kinds()) {
    const std::regex pattern(notation_pattern(*kind));
    int both = 0;
    int neither = 0;
    for (int i = 0; i < texts_a_kind; ++i) {
      const std::string text = writer.text(*kind);
      if (is_known_to_disagree(text, *kind)) continue;
      const bool read = reads(text, *kind);
      const bool matched = std::regex_match(text, pattern);
      both += static_cast<int>(read && matched);
      neither += static_cast<int>(!read && !matched);
      EXPECT_TRUE(read == matched || (matched && only_its_value_is_wrong(text, *kind)))
          << text << (read ? ": the pattern refuses it" : ": the reader refuses it");
    }
    if (kind->units.front().before) continue;
    EXPECT_GT(both, 500) << kind->name;
    EXPECT_GT(neither, 500) << kind->name;
  }
  for (const char* text : {"f/8.8", "f/ 9", " f/9 ", "8.8", "f8", "F/8", "f/", "f/8 s"}) {
    EXPECT_EQ(std::regex_match(text, std::regex(notation_pattern(kind_of<FNumber>()))),
              reads(text, kind_of<FNumber>()))
        << text;
  }
  for (const char* text :
       {"ISO 400", "ISO 400/27°", "ISO400", "EI 6", "400 ISO", "ISO", "ASA 400"}) {
    EXPECT_EQ(std::regex_match(text, std::regex(notation_pattern(kind_of<IsoSpeed>()))),
              reads(text, kind_of<IsoSpeed>()))
        << text;
  }
}

TEST(ReadQuantity, ReadsAPowerInItsOwnUnit) {
  for (const char* text : {"2 1/m", "2 dpt", "1 1/2 1/m", "3/2 1/m"})
    EXPECT_TRUE(reads(text, kind_of<Dioptre>())) << text;
  EXPECT_EQ(std::get<Reading>(read_quantity("2 1/m", kind_of<Dioptre>(), Sign::positive)).value,
            0.002);  // 1/mm
}

}  // namespace
}  // namespace backfit
