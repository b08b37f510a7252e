// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>

#include <regex>

#include "../conversion/example.hpp"
#include "../parts/sample_set.hpp"
#include "documents/build_sheet.hpp"
#include "documents/materials.hpp"
#include "documents/set_words.hpp"
#include "parts/meetings.hpp"
#include "printed.hpp"

namespace backfit {
namespace {

using testing::HasSubstr;

std::string words_of(const std::string& pdf, int page = 0) {
  return std::regex_replace(paper::text_in(pdf, page), std::regex("\\s+"), " ");
}

TEST(SetChapter, ShowsPiecesSizesMeetingsAndSteps) {
  const Report report = example_report("kestrel", "kestrel-4x5.conversion.toml");
  PieceSet set = sample_set();
  set.meetings = meetings_of(set, 1 * mm);
  const Solid body = solid_of(*report.assembly.plate);
  const std::string pdf =
      paper::file("set.pdf", build_sheet(report, body, paper::font_folder, {set}));
  const std::string words = words_of(pdf);
  for (const char* said :
       {"Sample tray", "It holds a mask.", "Cut at x = 1 mm, the lens to the left",
        "What touches what", "1 tray 2 mask touches", "54 ±0.1",
        "tray between the walls 54.00 ± 0.10", "Mind the edges.", "Outline, 1:1: sample tray, mask",
        "sample-tray-peg.3mf", "felt, 1 mm 2 price not given"}) {
    EXPECT_THAT(words, HasSubstr(said));
  }
}

// Truth: 0.4 mm x 0.2 mm x 40 mm/s lay 11.52 cm3 in an hour.
TEST(PrintingTime, IsVolumeOverWhatTheNozzleLays) {
  const Report report = example_report("kestrel", "kestrel-4x5.conversion.toml");
  const Time time = paper::printing_time(*report.assembly.plan.printer, 11'520 * mm * mm * mm);
  EXPECT_NEAR(time / second, 3600, 1e-6);
  EXPECT_EQ(paper::duration(time), "1 h");
  EXPECT_EQ(paper::duration(100 * second), "5 min");
  EXPECT_EQ(paper::duration(48 * 60 * second), "50 min");
  EXPECT_EQ(paper::duration(104 * 60 * second), "1 h 40 min");
}

// Truth: RFC 4180, quotes doubled.
TEST(MaterialsCsv, QuotesWhatNeedsIt) {
  paper::PriceList list({});
  list.add("felt, 1 mm", 2, {});
  list.add("screw 1/4\"", 4, 1.5);
  EXPECT_EQ(list.csv(),
            "\"What\",\"count\",\"price\"\r\n\"felt, 1 mm\",\"2\",\"price not given\"\r\n"
            "\"screw 1/4\"\"\",\"4\",\"1.50\"\r\n");
}

}  // namespace
}  // namespace backfit
