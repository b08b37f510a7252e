// SPDX-License-Identifier: MIT
#include "documents/build_sheet.hpp"

#include <regex>
#include <vector>

#include "../conversion/kestrel.hpp"
#include "parts/back_plate.hpp"
#include "printed.hpp"

namespace backfit {
namespace {

using paper::count;
using paper::said;

std::string sheet_of(const Report& report) {
  return build_sheet(report, solid_of(*report.assembly.plate), paper::font_folder);
}

std::string printed(const Report& report) { return paper::file("sheet.pdf", sheet_of(report)); }

TEST(BuildSheet, SaysEveryFindingAndTheVerdict) {
  const Kestrel k;
  const std::string text = paper::text_in(printed(*k.report));
  EXPECT_EQ(count(text, "Verdict: fits with work"), 1U);
  for (const Finding& f : k.report->findings) EXPECT_GE(count(text, f.id), 1U) << f.id;
  EXPECT_GE(count(text, "8.56 mm ± 0.22"), 2U);
}

TEST(BuildSheet, IsTheSameTwiceAndSoundAsAPdf) {
  const Kestrel k;
  EXPECT_EQ(sheet_of(*k.report), sheet_of(*k.report));
  EXPECT_EQ(count(said("qpdf --check " + printed(*k.report)), "WARNING"), 0U);
}

// Truth: the plate's own width. Rendered at 508 dpi a pixel is 0.05 mm; lines are 0.18 mm wide, so
// their outer edges stand half of that outside the outline on either side.
TEST(BuildSheet, TemplateIsTrueToSize) {
  const Kestrel k;
  const std::string pdf = printed(*k.report);
  int page = 0;
  for (int n = 1; n <= 12 && page == 0; ++n) {
    if (count(paper::text_in(pdf, n), "Template, 1:1") > 0) page = n;
  }
  ASSERT_GT(page, 0);
  const std::string one = std::to_string(page);
  const std::string stem = (paper::scratch() / "template").string();
  said("pdftoppm -r 508 -gray -singlefile -f " + one + " -l " + one + " " + pdf + " " + stem);
  const std::string pgm = paper::bytes_of(stem + ".pgm");
  std::smatch head;
  const std::string start = pgm.substr(0, 40);
  ASSERT_TRUE(std::regex_search(start, head, std::regex(R"(^P5\s(\d+) (\d+)\s255\s)")));
  const std::size_t width = std::stoul(head[1]);
  const std::size_t first = static_cast<std::size_t>(head[0].length());
  // A row between the window's middle and its lower edge crosses upright lines only. The ruler
  // along y ends above it.
  const std::size_t row = 190UL * 20;
  std::vector<std::size_t> dark;
  for (std::size_t x = 0; x < width; ++x) {
    if (static_cast<unsigned char>(pgm[first + row * width + x]) < 128) dark.push_back(x);
  }
  ASSERT_FALSE(dark.empty());
  const double found_mm = static_cast<double>(dark.back() - dark.front() + 1) * 0.05 - 0.18;
  EXPECT_NEAR(found_mm, k.report->assembly.plate->width / mm, 0.1);
}

TEST(BuildSheet, KeepsAllWordsOnThePaper) {
  const Edits variants[] = {
      {},
      {{"room_behind_infinity = \"9.0 mm ± 0.3\"", "room_behind_infinity = \"5.0 mm ± 0.2\""}},
      {{"marks = [\"1 m\", \"1.2 m\", \"1.5 m\", \"2 m\", \"3 m\", \"5 m\", \"10 m\"]\n", ""},
       {"filament_per_kg = 24.00\n", ""}},
      {{"way_up = \"upright\"", "way_up = \"lengthways\""},
       {"width = \"138.0 mm ± 0.2\"", "width = \"210.0 mm ± 0.2\""},
       {"height = \"176.0 mm ± 0.2\"", "height = \"240.0 mm ± 0.2\""},
       {"inner_width = \"107.0 mm ± 0.1\"", "inner_width = \"137.0 mm ± 0.1\""},
       {"inner_height = \"137.0 mm ± 0.1\"", "inner_height = \"137.0 mm ± 0.1\""}}};
  const std::regex word(R"-(xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)")-");
  for (const Edits& edits : variants) {
    const Kestrel k(edits);
    ASSERT_TRUE(k.report && k.report->can_be_made());
    const std::string pdf = printed(*k.report);
    const std::string boxes = said("pdftotext -bbox " + pdf + " -");
    int words = 0;
    for (std::sregex_iterator it(boxes.begin(), boxes.end(), word), end; it != end; ++it, ++words) {
      EXPECT_GE(std::stod((*it)[1]), 14 / 25.4 * 72);  // a ruler's 0 stands astride the margin
      EXPECT_LE(std::stod((*it)[3]), 196 / 25.4 * 72);
      EXPECT_GE(std::stod((*it)[2]), 0);
      EXPECT_LE(std::stod((*it)[4]), 297 / 25.4 * 72);
    }
    EXPECT_GT(words, 300);
  }
}

TEST(BuildSheet, LeavesOutWhatDoesNotApply) {
  const Kestrel k(Edits{{"[rangefinder]\ncoupled_to = \"standard\"\nbase = \"60 mm ± 0.5\"\n", ""},
                        {"timing = \"photocell\"\nsync = \"X\"", "timing = \"mechanical\""}});
  const std::string text = paper::text_in(printed(*k.report));
  EXPECT_EQ(count(text, "Set the rangefinder"), 0U);
  EXPECT_EQ(count(text, "hold a charge"), 0U);
  const Kestrel whole;
  const std::string all = paper::text_in(printed(*whole.report));
  EXPECT_EQ(count(all, "Set the rangefinder"), 1U);
  EXPECT_EQ(count(all, "hold a charge"), 1U);
}

TEST(BuildSheet, SaysWherePricesAreMissing) {
  const Kestrel k("filament_per_kg = 24.00\n", "");
  const std::string text = paper::text_in(printed(*k.report));
  EXPECT_EQ(count(text, "not given"), 1U);
  EXPECT_EQ(count(text, "as far as prices are given"), 1U);
}

}  // namespace
}  // namespace backfit
