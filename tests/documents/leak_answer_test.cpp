// SPDX-License-Identifier: MIT
#include "documents/leak_answer.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <variant>

namespace backfit {
namespace {

LeakStuff foam() { return {{}, std::get<Slab>(slab_by({{{1 * mm, {3}}, {2 * mm, {5.2}}}}))}; }

LeakStudy of(std::vector<LeakStuff> stuffs) {
  LeakStudy s;
  for (const char* name : {"box", "lid", "knob", "gasket"}) {
    if (s.parts.size() < stuffs.size()) s.parts.emplace_back(name);
  }
  s.stuffs = std::move(stuffs);
  s.whole = full_sun.value;
  s.film.columns = s.film.rows = 1;
  s.patches.resize(1);
  return s;
}

constexpr LeakStuff matt{{0.05, 1}}, glossy{{0.04, 1.5}};

TEST(LeakAnswer, SaysWhichPartIsOfWhatAndWhatTheOthersAre) {
  const std::string text = leak_summary("t", of({matt, glossy, matt, foam()}));
  EXPECT_NE(text.find("  materials       lid: faces scatter 4 %, mirror as index 1.5\n"
                      "                  gasket: felt or foam, 3.0 stops through 1 mm, 5.2 through "
                      "2 mm\n"
                      "                  the others: faces scatter 5 %, dead matt\n"),
            std::string::npos)
      << text;
}

TEST(LeakAnswer, NamesNoPartWhereAllAreAlikeAndEachWhereNoneAre) {
  EXPECT_NE(leak_summary("t", of({matt, matt})).find("materials       all: faces"),
            std::string::npos);
  EXPECT_NE(leak_summary("t", of({matt, glossy}))
                .find("  materials       box: faces scatter 5 %, dead matt\n"
                      "                  lid: faces"),
            std::string::npos);
  EXPECT_EQ(leak_summary("t", of({})).find("materials"), std::string::npos);
}

TEST(LeakAnswer, TellsProgramsWhatEachPartIsOf) {
  const auto j = nlohmann::json::parse(leak_json(of({glossy, foam()})))["materials"];
  ASSERT_EQ(j.size(), 2U);
  EXPECT_EQ(j[0]["part"], "box");
  EXPECT_EQ(j[0]["reflectance"], 0.04);
  EXPECT_EQ(j[0]["specular_index"], 1.5);
  EXPECT_TRUE(j[0]["foam_stops_1_mm"].is_null());
  EXPECT_TRUE(j[1]["reflectance"].is_null());
  EXPECT_NEAR(j[1]["foam_stops_1_mm"], 3, 1e-4);  // six figures, of readings that it explains
  EXPECT_NEAR(j[1]["foam_stops_2_mm"], 5.2, 1e-4);
}

}  // namespace
}  // namespace backfit
