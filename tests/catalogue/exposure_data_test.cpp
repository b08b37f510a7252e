// SPDX-License-Identifier: MIT
#include "catalogue/exposure_data.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

namespace backfit {
namespace {

ExposureData shipped() {
  Diagnostics diagnostics;
  auto data = read_exposure_data(std::string(BACKFIT_SOURCE_DIR) + "/data", diagnostics);
  EXPECT_TRUE(diagnostics.list().empty()) << rendered(diagnostics.list().front());
  return data.value_or(ExposureData{});
}

// Trap: public lists put an overcast day at 1000 lx and at 25 000 lx; such a row must be told as
// disputed, a settled one not.
TEST(LightLevels, TellWhereTheyAreDisputed) {
  const ExposureData d = shipped();
  EXPECT_GT(dispute_stops(d.levels_of("overcast")), 4);
  EXPECT_GT(dispute_stops(d.levels_of("sun")), 1);
  EXPECT_EQ(dispute_stops(d.levels_of("full moon")), 0);
  EXPECT_TRUE(d.levels_of("underground").empty());
}

// Trap: an old and a new sheet of one film maker give 10 s as 31 s, 23 s and 20 s: each law names
// its edition, and the current one comes first.
TEST(LongTimeLaws, CarryTheirEdition) {
  const ExposureData d = shipped();
  const auto laws = d.laws_of("cubic-400-british");
  ASSERT_GE(laws.size(), 4U);
  EXPECT_EQ(*laws.front()->law, LawForm::exponent);
  std::set<std::string> editions;
  for (const LongTimeLaw* law : laws) editions.insert(*law->edition);
  EXPECT_EQ(editions.size(), laws.size());
  EXPECT_TRUE(d.laws_of("colour-negative-400").empty());
}

TEST(LongTimeLaws, AreOfKnownEmulsions) {
  const ExposureData d = shipped();
  for (const LongTimeLaw& law : d.laws) EXPECT_NE(d.emulsion(*law.emulsion), nullptr);
}

TEST(LongTimeLaws, NeedWhatTheirFormNeeds) {
  namespace fs = std::filesystem;
  const fs::path copy = fs::temp_directory_path() / "backfit-planted-law";
  fs::remove_all(copy);
  fs::copy(fs::path(BACKFIT_SOURCE_DIR) / "data", copy);
  std::ifstream in(copy / "reciprocity.toml", std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), {}};
  const std::string_view planted = "exponent = 1.31\n";
  text.erase(text.find(planted), planted.size());
  std::ofstream(copy / "reciprocity.toml", std::ios::binary) << text;
  Diagnostics diagnostics;
  EXPECT_FALSE(read_exposure_data(copy, diagnostics));
  EXPECT_EQ(diagnostics.list().size(), 1U);
  fs::remove_all(copy);
}

}  // namespace
}  // namespace backfit
