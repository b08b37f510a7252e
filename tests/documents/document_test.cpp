// SPDX-License-Identifier: MIT
#include "documents/document.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <cstdlib>
#include <stdexcept>

#include "documents/drawing.hpp"
#include "documents/pdf.hpp"
#include "printed.hpp"

namespace backfit::paper {
namespace {

using testing::HasSubstr;
using testing::Not;

const std::string signs = "± × ⌀ ½ ° µ Ω → − ☐ • 6 × 9";

Document sample() {
  Document document = blank_document();
  for (int i = 0; i < 2; ++i) {
    Sheet& sheet = document.add_page();
    sheet.text({margin, 30 * mm}, "First " + signs, title_text, content_width);
    sheet.text({margin, 60 * mm}, "Second: measure the seat in three places.", body_text, 40 * mm);
    sheet.text({margin, 90 * mm}, "Third, in bold", strong_text, content_width);
    check_ruler(sheet, {25 * mm, 110 * mm}, Along::x);
    check_ruler(sheet, {150 * mm, 110 * mm}, Along::y);
    sheet.hatch(circle({80 * mm, 180 * mm}, 20 * mm));
    sheet.fill(circle({80 * mm, 180 * mm}, 30 * mm), Ink::accent, 0.2);
  }
  return document;
}

std::string all_bytes(const Document& document) {
  return document.pdf() + document.svg(0) + document.png(0, inch / 110);
}

// Truth: ISO 216 A4 is 210 mm x 297 mm, 595.276 x 841.890 points of 1/72 in (computed); pdfinfo
// reads the size.
TEST(Document, PagesAreA4) {
  const std::string info = said("pdfinfo " + file("a.pdf", sample().pdf()));
  EXPECT_THAT(info, HasSubstr("595.276 x 841.89 pts (A4)"));
  EXPECT_THAT(info, HasSubstr("Pages:           2"));
  EXPECT_THAT(info, HasSubstr("Title:           Title"));
}

TEST(Document, SaysNothingOfTheTimeItWasMade) {
  EXPECT_THAT(said("pdfinfo " + file("a.pdf", sample().pdf())), Not(HasSubstr("Date")));
}

// Truth: an independent renderer's picture, one pixel being 0.01 mm.
TEST(CheckRuler, Is100MillimetresOnPaperBothWays) {
  const std::string pdf = file("a.pdf", sample().pdf());
  for (const bool down : {false, true}) {
    const PagePoint start = down ? PagePoint{151 * mm, 105 * mm} : PagePoint{20 * mm, 111 * mm};
    const Length along = 110 * mm, across = 0.2 * mm;
    const auto ticks = ticks_mm(
        rendered_band(pdf, start, down ? across : along, down ? along : across, down), 20 * 255);
    ASSERT_EQ(ticks.size(), 11U);
    for (int i = 0; i <= 10; ++i) {
      EXPECT_NEAR(ticks[static_cast<std::size_t>(i)], 5 + 10 * i, 0.0101);  // a pixel, and rounding
    }
  }
}

// Truth: an independent renderer's picture, one pixel being 0.01 mm.
TEST(Document, InsetShowsNothingOutsideItsFrame) {
  Document document = blank_document();
  Sheet& sheet = document.add_page();
  Sheet inside(sheet.fonts());
  inside.fill(rectangle({20 * mm, 100 * mm}, {120 * mm, 120 * mm}), Ink::black);
  sheet.inset(rectangle({50 * mm, 90 * mm}, {57 * mm, 130 * mm}), std::move(inside));
  const auto sums =
      rendered_band(file("a.pdf", document.pdf()), {20 * mm, 110 * mm}, 100 * mm, 0.2 * mm, false);
  const auto dark = std::ranges::count_if(sums, [](int s) { return s < 20 * 255 / 2; });
  EXPECT_NEAR(static_cast<double>(dark), 700, 2);
  EXPECT_NEAR(ticks_mm(sums, 20 * 255).front(), 30 + 3.5, 0.02);
}

TEST(Document, TextComesOutInReadingOrderWithItsSigns) {
  const std::string text = text_in(file("a.pdf", sample().pdf()), 1);
  const auto first = text.find("First " + signs), second = text.find("Second: measure"),
             third = text.find("Third, in bold");
  ASSERT_NE(first, std::string::npos) << text;
  ASSERT_NE(third, std::string::npos) << text;
  EXPECT_LT(first, second);
  EXPECT_LT(second, third);
}

TEST(Document, RunningWordsCountThePages) {
  const std::string text = text_in(file("a.pdf", sample().pdf()), 2);
  EXPECT_THAT(text, HasSubstr("Page 2 of 2"));
  EXPECT_THAT(text, HasSubstr("Camera"));
  EXPECT_THAT(text, HasSubstr("Foot"));
}

TEST(Document, FontsAreEmbeddedSubsetAndMapped) {
  const std::string list = said("pdffonts " + file("a.pdf", sample().pdf()));
  EXPECT_GE(count(list, "+DejaVuSans"), 2U) << list;
  EXPECT_GE(count(list, "+DejaVuSans-Bold"), 1U) << list;
  EXPECT_EQ(count(list, "+DejaVuSans"), count(list, "yes yes yes")) << list;
  EXPECT_EQ(count(list, "\n"), count(list, "+DejaVuSans") + 2) << list;  // no other font
}

TEST(Document, IsSoundToAStrictReader) {
  EXPECT_THAT(said("qpdf --check " + file("a.pdf", sample().pdf())),
              HasSubstr("No syntax or stream encoding errors found"));
}

// qpdf writes live objects only, so what it writes is what a viewer obeys.
TEST(Document, AsksToBePrintedAtTrueSizeInEnglishTagged) {
  const std::string live = said("qpdf --qdf " + file("a.pdf", sample().pdf()) + " -");
  EXPECT_THAT(live, HasSubstr("/PrintScaling /None"));
  EXPECT_THAT(live, HasSubstr("/Lang (en)"));
  EXPECT_THAT(live, HasSubstr("/Marked true"));
  EXPECT_THAT(live, HasSubstr("/S /H1"));
}

TEST(Document, SvgIsInMillimetres) {
  const std::string svg = sample().svg(1);
  EXPECT_THAT(svg, HasSubstr("width=\"210mm\" height=\"297mm\" viewBox=\"0 0 210 297\""));
}

// 210 mm at 110 dpi is 909.4 pixels, 297 mm is 1286.2 (computed): bytes 16 to 23 of a PNG.
TEST(Document, PngHasThePixelsAskedFor) {
  const std::string png = sample().png(0, inch / 110);
  EXPECT_EQ(png.substr(1, 3), "PNG");
  EXPECT_EQ(png.substr(16, 8), std::string("\0\0\x03\x8d\0\0\x05\x06", 8));
}

TEST(Document, SameMarksGiveTheSameBytes) {
  const Document one = sample(), other = sample();
  EXPECT_TRUE(one.pdf() == other.pdf());
  EXPECT_TRUE(one.svg(0) == other.svg(0));
  EXPECT_TRUE(one.png(0, inch / 110) == other.png(0, inch / 110));
}

// Run by itself for SettingsOfTheUserDoNotChangeABit, in a process that has BACKFIT_BYTES set.
TEST(Document, WritesItsBytesWhereAsked) {
  const std::string bytes = all_bytes(sample());
  EXPECT_GT(bytes.size(), 10000U);
  if (const char* path = std::getenv("BACKFIT_BYTES")) {
    std::ofstream(path, std::ios::binary) << bytes;
  }
}

TEST(Document, SettingsOfTheUserDoNotChangeABit) {
  const std::string rules =
      "<?xml version='1.0'?><!DOCTYPE fontconfig SYSTEM 'fonts.dtd'><fontconfig><dir>" +
      font_folder.string() +
      "</dir><match target='pattern'><edit name='family' mode='assign' binding='strong'>"
      "<string>DejaVu Serif</string></edit></match><match target='font'>"
      "<edit name='embolden' mode='assign'><bool>true</bool></edit></match></fontconfig>";
  const std::string hostile = file("fonts.conf", rules);
  const std::filesystem::path home = scratch() / "home";
  std::filesystem::create_directories(home / ".config" / "fontconfig");
  std::ofstream(home / ".config" / "fontconfig" / "fonts.conf") << rules;
  // The rules bite where they are read.
  ASSERT_EQ(said("FONTCONFIG_FILE=" + hostile + " fc-match -f '%{embolden}' 'DejaVu Sans'"),
            "True");

  const std::string self = std::filesystem::read_symlink("/proc/self/exe").string();
  const std::string expected = all_bytes(sample());
  const std::string out = (scratch() / "bytes").string();
  for (const std::string& settings :
       {std::string("TZ=Asia/Tokyo LANG=ja_JP.UTF-8 PANGO_LANGUAGE=ja"),
        "FONTCONFIG_FILE=" + hostile, "XDG_CONFIG_HOME= HOME=" + home.string(),
        std::string("FONTCONFIG_FILE=/nowhere HOME=/nowhere XDG_CACHE_HOME=/nowhere"),
        std::string("FONTCONFIG_SYSROOT=/nowhere PANGOCAIRO_BACKEND=none")}) {
    std::filesystem::remove(out);
    std::string command = "env BACKFIT_BYTES=" + out;
    command.append(" ").append(settings).append(" ").append(self);
    const std::string output = said(command + " --gtest_filter=Document.WritesItsBytesWhereAsked");
    EXPECT_THAT(output, Not(HasSubstr("Fontconfig"))) << settings;
    EXPECT_TRUE(bytes_of(out) == expected) << settings;
  }
}

TEST(Fonts, MissingFileIsNamed) {
  const std::filesystem::path folder = scratch() / "fonts";
  std::filesystem::create_directories(folder);
  std::filesystem::copy_file(font_folder / "DejaVuSans.ttf", folder / "DejaVuSans.ttf",
                             std::filesystem::copy_options::overwrite_existing);
  const auto message = [&] {
    try {
      const Fonts fonts(folder);
    } catch (const std::runtime_error& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  std::filesystem::remove(folder / "DejaVuSans-Bold.ttf");
  EXPECT_EQ(message(), "font file '" + (folder / "DejaVuSans-Bold.ttf").string() + "' is missing");
  std::ofstream(folder / "DejaVuSans-Bold.ttf") << "not a font";
  EXPECT_EQ(message(), "font file '" + (folder / "DejaVuSans-Bold.ttf").string() +
                           "' can't be read as a font");
}

TEST(TruePrinting, RefusesAFormItDoesNotKnow) {
  EXPECT_THROW(with_true_size_printing(""), std::runtime_error);
  EXPECT_THROW(with_true_size_printing("%PDF-1.5\ntrailer\n<< /Size 3 /Root 1 0 R >>"),
               std::runtime_error);
  EXPECT_THROW(with_true_size_printing(sample().pdf()), std::runtime_error);  // has the keys
}

}  // namespace
}  // namespace backfit::paper
