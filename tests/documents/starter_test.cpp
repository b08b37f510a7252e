// SPDX-License-Identifier: MIT
#include "documents/starter.hpp"

#include <gmock/gmock.h>

#include <set>

#include "documents/survey_form.hpp"
#include "documents/survey_sketch.hpp"
#include "printed.hpp"
#include "survey/camera.hpp"

namespace backfit {
namespace {

using testing::HasSubstr;

std::vector<FormLine> camera_lines() {
  Camera camera;
  return form_lines([&camera](Fields& fields) { describe(fields, camera); });
}

TEST(SurveyForm, AsksForEveryKeyOfACameraOnFewPages) {
  const FolderContents folder = camera_starter(paper::font_folder);
  const std::string pdf = paper::file("survey.pdf", folder.at("survey-sheet.pdf"));
  EXPECT_THAT(paper::said("pdfinfo " + pdf), HasSubstr("Pages:           7"));
  EXPECT_THAT(paper::said("qpdf --check " + pdf), HasSubstr("No syntax or stream encoding errors"));
  const std::string text = paper::text_in(pdf);
  for (const FormLine& line : camera_lines()) {
    EXPECT_THAT(text, HasSubstr(line.heading ? line.meaning.substr(0, 12) : line.key));
  }
  EXPECT_THAT(text, HasSubstr("☐ front element"));  // a box to tick for each choice
  EXPECT_EQ(folder, camera_starter(paper::font_folder));
}

// Law: each letter of the sketches belongs to one key that the form asks for.
TEST(SurveyForm, EachLetterOfTheSketchesNamesOneKey) {
  std::set<std::string> letters;
  for (const FormLine& line : camera_lines()) {
    const std::string letter = sketch_letter(line.path, line.key);
    if (letter.empty()) continue;
    EXPECT_TRUE(letters.insert(letter).second) << letter;
  }
  EXPECT_EQ(letters.size(), 17U);
}

// Law: the sketch alone is a picture that marks what it is asked to, and nothing when not asked.
TEST(SurveySketch, MarksWhatIsAskedFor) {
  const std::string plain = paper::survey_sketch_svg("", paper::font_folder);
  const std::string marked = paper::survey_sketch_svg("DG", paper::font_folder);
  EXPECT_THAT(plain, HasSubstr("<svg"));
  EXPECT_NE(plain, marked);
  EXPECT_EQ(plain, paper::survey_sketch_svg("z", paper::font_folder));
  // A letter that belongs to nothing drawn by a dimension or a leader would leave it plain.
  for (const SketchLetter& l : sketch_letters()) {
    EXPECT_NE(plain, paper::survey_sketch_svg(l.letter, paper::font_folder)) << l.letter;
    EXPECT_EQ(sketch_letter(l.path, l.key), l.letter);
  }
}

}  // namespace
}  // namespace backfit
