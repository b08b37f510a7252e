// SPDX-License-Identifier: MIT
#include "catalogue/catalogue.hpp"

#include <gtest/gtest.h>

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
  for (const char* id : {"roll-120-6x4.5", "roll-120-6x6", "roll-120-6x7", "roll-120-6x8",
                         "roll-120-6x9", "roll-120-6x12", "sheet-4x5", "sheet-9x12cm",
                         "sheet-2.25x3.25", "sheet-3.25x4.25", "sheet-5x7", "paper-rc-4x5",
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

TEST(Catalogue, SaysWhatIsWrongWithAFolderThatHasNoData) {
  Diagnostics diagnostics;
  EXPECT_FALSE(read_catalogue("/nowhere", diagnostics));
  EXPECT_TRUE(diagnostics.has_errors());
}

}  // namespace
}  // namespace backfit
