// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "files/blank_form.hpp"
#include "files/reader.hpp"
#include "files/schema.hpp"
#include "survey/camera.hpp"
#include "survey/film_prices.hpp"
#include "survey/lens_file.hpp"
#include "survey/plan.hpp"

namespace backfit {
namespace {

const std::string root = BACKFIT_SOURCE_DIR;

template <class R>
Description description_of(R& record) {
  return [&record](Fields& fields) { describe(fields, record); };
}

std::string text_of(const std::string& path) {
  std::ifstream in(path);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(Examples, Read) {
  Diagnostics diagnostics;
  const auto camera = read_record<Camera>(
      read_source(root + "/examples/kestrel/kestrel.camera.toml", diagnostics), diagnostics);
  const auto plan = read_record<Plan>(
      read_source(root + "/examples/kestrel/kestrel-4x5.conversion.toml", diagnostics),
      diagnostics);
  ASSERT_TRUE(camera && plan);
  EXPECT_EQ(camera->gate.width->value, 73 * mm);
  EXPECT_EQ(camera->gate.width.place.line, 9U);
  EXPECT_NEAR(camera->lens.focal->half_width / mm, 0.03 * 118, 1e-12);  // engraved: 3 %
  EXPECT_EQ(camera->lens.apertures.size(), 6U);
  EXPECT_EQ(plan->bought.size(), 3U);
}

// Law: whatever stands in examples/ is a camera, a conversion or prices without a mistake.
TEST(Examples, ReadWithoutMistakes) {
  std::size_t count = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(root + "/examples")) {
    const std::string name = entry.path().filename().string();
    if (!name.ends_with(".toml")) continue;
    Diagnostics diagnostics;
    const auto source = read_source(entry.path(), diagnostics);
    const bool read =
        name.ends_with(".camera.toml")   ? read_record<Camera>(source, diagnostics).has_value()
        : name.ends_with(".prices.toml") ? read_record<FilmPrices>(source, diagnostics).has_value()
                                         : read_record<Plan>(source, diagnostics).has_value();
    EXPECT_TRUE(read) << name;
    ++count;
  }
  EXPECT_GE(count, 6U);
}

// The schemas that editors read are written by the same tables; `backfit new` writes them too.
TEST(Schemas, InDocsAreUpToDate) {
  Camera camera;
  Plan plan;
  EXPECT_EQ(json_schema("A camera as surveyed", description_of(camera)),
            text_of(root + "/docs/schema/camera.schema.json"));
  EXPECT_EQ(json_schema("A conversion as planned", description_of(plan)),
            text_of(root + "/docs/schema/conversion.schema.json"));
  LensFile lens;
  EXPECT_EQ(json_schema("A lens prescription", description_of(lens)),
            text_of(root + "/docs/schema/lens.schema.json"));
  FilmPrices prices;
  EXPECT_EQ(json_schema("What films cost", description_of(prices)),
            text_of(root + "/docs/schema/prices.schema.json"));
}

// Law: a form that nobody filled in is TOML, and everything it lacks is something to fill in.
TEST(BlankForm, LacksOnlyWhatIsToBeFilledIn) {
  Camera camera;
  const std::string form =
      blank_form("camera.schema.json", "A camera", form_lines(description_of(camera)));
  Diagnostics diagnostics;
  const auto source = std::make_shared<const SourceText>("new.camera.toml", form);
  EXPECT_FALSE(read_record<Camera>(source, diagnostics));
  for (const Diagnostic& d : diagnostics.list()) {
    const bool to_fill_in = d.text.find("not filled in") != std::string::npos ||
                            d.text.find("is empty") != std::string::npos;
    EXPECT_TRUE(to_fill_in) << d.text;
  }
  EXPECT_GT(diagnostics.list().size(), 10U);
}

// Law: whatever a file holds, it is read or refused, never worse; a cut at each byte in turn.
TEST(Reader, SurvivesAFileCutAnywhere) {
  const std::string whole = text_of(root + "/examples/kestrel/kestrel.camera.toml");
  for (std::size_t end = 0; end < whole.size(); end += 3) {
    if (first_invalid_utf8(std::string_view(whole).substr(0, end)) != std::string::npos) continue;
    Diagnostics diagnostics;
    const auto source = std::make_shared<const SourceText>("cut.toml", whole.substr(0, end));
    const auto camera = read_record<Camera>(source, diagnostics);
    EXPECT_EQ(camera.has_value(), !diagnostics.has_errors());
    for (const Diagnostic& d : diagnostics.list()) EXPECT_FALSE(rendered(d).empty());
  }
}

}  // namespace
}  // namespace backfit
