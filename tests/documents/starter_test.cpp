// SPDX-License-Identifier: MIT
#include "documents/starter.hpp"

#include <gmock/gmock.h>

#include <set>

#include "documents/survey_form.hpp"
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

}  // namespace
}  // namespace backfit
