// SPDX-License-Identifier: MIT
#include "catalogue/catalogue.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace backfit {
namespace {

Catalogue shipped() {
  Diagnostics diagnostics;
  auto catalogue = read_catalogue(std::string(BACKFIT_SOURCE_DIR) + "/data", diagnostics);
  EXPECT_TRUE(diagnostics.list().empty()) << rendered(diagnostics.list().front());
  return catalogue.value_or(Catalogue{});
}

TEST(Catalogue, HasWhatConvertersLoad) {
  const Catalogue c = shipped();
  for (const char* id :
       {"roll-120-6x4.5", "roll-120-6x6", "roll-120-6x7", "roll-120-6x8", "roll-120-6x9",
        "roll-120-6x12", "roll-135-24x36", "sheet-4x5", "sheet-9x12cm", "sheet-2.25x3.25",
        "sheet-3.25x4.25", "sheet-5x7", "paper-rc-4x5", "paper-rc-9x12cm", "paper-fibre-4x5",
        "instant-62x46", "instant-62x62", "instant-99x62", "instant-79x79"}) {
    EXPECT_NE(c.film(id), nullptr) << id;
  }
  EXPECT_EQ(c.film("sheet-8x8"), nullptr);
}

// Truth: film thickness is subtracted from the holder's depth, 0.197 in - 0.007 in = 0.190 in =
// 4.826 mm to the emulsion, as a film list quotes the standard (READ); both numbers printed to
// 0.001 in.
TEST(Catalogue, PutsTheEmulsionOfA4x5HolderAt4Point8) {
  const Catalogue c = shipped();
  const Length depth = c.holder("holder-4x5")->depth.value->value;
  const Length film = c.film("sheet-4x5")->thickness->value->value;
  EXPECT_NEAR((depth - film) / mm, 4.826, 0.0254 / 2);
}

TEST(Catalogue, NamesAHolderForEachSheetThatGoesInOne) {
  const Catalogue c = shipped();
  for (const Film& f : c.films) {
    if (f.holder) {
      EXPECT_NE(c.holder(**f.holder), nullptr) << *f.id;
    }
  }
}

// One planted mistake in a copy of the shipped data gives one message, at its line.
TEST(Catalogue, ReportsEachPlantedMistakeOnce) {
  namespace fs = std::filesystem;
  const fs::path data = fs::path(BACKFIT_SOURCE_DIR) / "data";
  const fs::path copy = fs::temp_directory_path() / "backfit-planted-catalogue";
  struct Plant {
    const char* file;
    const char* from;
    const char* to;
  };
  for (const auto& [name, from, to] :
       {Plant{"films.toml", "61.2 mm ± 0.5", "61,2 mm ± 0.5"},
        Plant{"films.toml", "kind = \"roll\"", "kind = \"rolled\""},
        Plant{"films.toml", "transfers = 0", "transfers = -1"},
        Plant{"holders.toml", "depth = {", "deepth = {"},
        Plant{"lens_kinds.toml", "45 deg ± 5", "45 mm ± 5"},
        Plant{"materials.toml", "status = \"READ\"", "status = \"SEEN\""},
        Plant{"sources.toml", "title =", "titel ="}}) {
    fs::remove_all(copy);
    fs::create_directories(copy);
    std::size_t line = 0;
    for (const auto& entry : fs::directory_iterator(data)) {
      if (!entry.is_regular_file()) continue;
      std::ifstream in(entry.path(), std::ios::binary);
      std::string text{std::istreambuf_iterator<char>(in), {}};
      if (entry.path().filename() == name) {
        const std::size_t at = text.find(from);
        ASSERT_NE(at, std::string::npos) << from;
        line = 1 + static_cast<std::size_t>(std::count(
                       text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
        text.replace(at, std::string_view(from).size(), to);
      }
      std::ofstream(copy / entry.path().filename(), std::ios::binary) << text;
    }
    Diagnostics diagnostics;
    EXPECT_FALSE(read_catalogue(copy, diagnostics)) << to;
    ASSERT_EQ(diagnostics.list().size(), 1U) << to;
    EXPECT_EQ(diagnostics.list().front().place.line, line) << to;
    EXPECT_EQ(diagnostics.list().front().place.source->path().filename(), name);
  }
  fs::remove_all(copy);
}

TEST(Catalogue, SaysWhatIsWrongWithAFolderThatHasNoData) {
  Diagnostics diagnostics;
  EXPECT_FALSE(read_catalogue("/nowhere", diagnostics));
  EXPECT_TRUE(diagnostics.has_errors());
}

}  // namespace
}  // namespace backfit
