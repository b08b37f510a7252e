// SPDX-License-Identifier: MIT
#include "parts/pack_holder.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "quantity/random.hpp"
#include "sizes_shown.hpp"

namespace backfit {
namespace {

// For a picture of 75 × 97 mm in a room of 90 × 124 mm.
PackHolder sample(bool slide) {
  PackHolder h;
  h.gap = 0.25 * mm;
  h.smallest_wall = 1.2 * mm;
  h.picture_width = 75 * mm;
  h.picture_height = 97 * mm;
  h.sheet_width = 81 * mm;
  h.sheet_height = 103 * mm;
  h.sheet_play = 0.25 * mm;
  h.width = 89.3 * mm;
  h.length = 123.3 * mm;
  h.rail = 1.2 * mm;
  h.sheet_slot = 0.3 * mm;
  h.lid = 1.2 * mm;
  h.ledge = 2 * mm;
  if (slide) {
    PackHolder::Slide s;
    s.wall = 1.3 * mm;
    s.slot = 1 * mm;
    s.thickness = 0.5 * mm;
    s.width = 80 * mm;
    s.end_width = 82 * mm;
    s.end_length = 5 * mm;
    s.reach = 4 * mm;
    s.stops = 54.5 * mm;
    s.tab = 30 * mm;
    s.felt = 1 * mm;
    s.felt_width = 4 * mm;
    s.pocket = 0.1 * mm;
    s.felt_at = 55.8 * mm;
    h.slide = s;
  }
  return h;
}

const Piece& piece(const PieceSet& set, std::string_view name) {
  return *std::ranges::find(set.pieces, name, &Piece::name);
}

// Law: the kernel's volume is the one from the numbers; each piece is one sound lump.
void expect_well_made(const PackHolder& h) {
  const PieceSet set = set_of(h, {});
  std::vector<std::pair<const char*, Volume>> volumes{{"tray", tray_volume(h)},
                                                      {"lid", lid_volume(h)}};
  if (h.slide) {
    volumes.emplace_back("face", face_volume(h));
    volumes.emplace_back("dark slide", slide_volume(h));
  }
  ASSERT_EQ(set.pieces.size(), volumes.size());
  ASSERT_EQ(set.apart.size(), volumes.size());
  for (const auto& [name, volume] : volumes) {
    const Soundness s = soundness_of(piece(set, name).on_bed);
    EXPECT_TRUE(s.sound()) << name << s.valid << s.bodies << s.cavities << s.bad_edges;
    EXPECT_NEAR(s.volume / volume, 1, 1e-9) << name;  // rounding in the kernel's integration
  }
}

TEST(PackHolder, SamplesAreWellMade) {
  for (const bool slide : {false, true}) {
    for (const PartFault& f : faults(sample(slide))) ADD_FAILURE() << f.id << ": " << f.text;
    expect_sizes_shown(set_of(sample(slide), {}));
    expect_well_made(sample(slide));
  }
}

// Truth: worked out by hand for the sample's round numbers.
TEST(PackHolder, VolumesAreTheSumsOfTheirBoxes) {
  const PackHolder h = sample(true);
  EXPECT_NEAR(tray_volume(h) / mm3,
              89.3 * 123.3 * 2.7 - 75 * 97 * 1.2 - 81.5 * 103.5 * 0.3 - 86 * 108 * 1.2, 1e-6);
  const double groove = 82.5 * (54.5 + 52.75) + 80.5 * (61.65 - 54.5);
  EXPECT_NEAR(face_volume(h) / mm3,
              89.3 * 123.3 * 2.3 - 75 * 97 * 1.3 - groove * 1.0 - 80 * 4 * 0.1, 1e-6);
  EXPECT_NEAR(slide_volume(h) / mm3, (82 * 5 + 80 * (61.65 + 30 + 52.5 - 5)) * 0.5, 1e-9);
}

// Law: pieces share no room, shut or drawn; what slides keeps the gauge's gap, and drawn to its
// stops the slide leaves the picture free.
TEST(PackHolder, PiecesKeepClear) {
  const PackHolder h = sample(true);
  const PieceSet set = set_of(h, {-2 * mm, 2});
  for (std::size_t i = 0; i < set.pieces.size(); ++i) {
    for (std::size_t j = i + 1; j < set.pieces.size(); ++j) {
      EXPECT_NEAR(
          common_volume(set.pieces[i].in_place.front(), set.pieces[j].in_place.front()) / mm3, 0,
          1e-6)
          << set.pieces[i].name << " and " << set.pieces[j].name;
    }
  }
  const Solid& slide = piece(set, "dark slide").in_place.front();
  const Solid& face = piece(set, "face").in_place.front();
  EXPECT_NEAR(distance_between(slide, face) / mm, 0.25, 1e-6);
  EXPECT_NEAR(distance_between(slide, piece(set, "tray").in_place.front()) / mm, 0.25, 1e-6);
  // Turned by a half, its slide comes out below.
  EXPECT_LT(bounds_of(slide).low.y, -h.length / 2 - 29 * mm);
  const Solid drawn = translated(slide, {{}, -h.travel(), {}});
  EXPECT_NEAR(common_volume(drawn, face) / mm3, 0, 1e-6);
  EXPECT_LE(bounds_of(drawn).high.y, -h.picture_height / 2);
  EXPECT_GT(common_volume(translated(slide, {{}, -h.travel() - 0.5 * mm, {}}), face), 0.1 * mm3);
  // The sheet's front lies behind the lips.
  EXPECT_NEAR(bounds_of(face).low.z / mm, -2, 1e-6);
  EXPECT_NEAR((bounds_of(piece(set, "lid").in_place.front()).low.z - h.sheet_slot) / mm,
              -2 + 1.3 + 1.0 + 1.2, 1e-6);
}

TEST(PackHolder, NamesItsFaults) {
  const auto fault_of = [](auto change) {
    PackHolder h = sample(true);
    change(h);
    const std::vector<PartFault> list = faults(h);
    return list.empty() ? std::string() : list.front().id + ": " + list.front().text;
  };
  EXPECT_EQ(fault_of([](PackHolder& h) { h.width = 86 * mm; }),
            "pack-holder-wall-thin: beside the lid the tray has across 0.00 mm; 1.20 mm is needed");
  EXPECT_EQ(fault_of([](PackHolder& h) { h.sheet_width = 76 * mm; }).substr(0, 20),
            "sheet-falls-through:");
  EXPECT_EQ(fault_of([](PackHolder& h) { h.slide->slot = 0.7 * mm; }).substr(0, 12),
            "slide-tight:");
  EXPECT_EQ(fault_of([](PackHolder& h) { h.slide->felt = 3 * mm; }).substr(0, 10), "felt-jams:");
  EXPECT_EQ(fault_of([](PackHolder& h) { h.lid = NAN * mm; }).substr(0, 17), "pack-holder-size:");
}

// A holder near the sample in every number; a coarse step makes faces that meet as often as owners'
// round numbers do.
PackHolder random_holder(Random& random, Length step) {
  const auto between = [&random, step](double low_mm, double high_mm) {
    const Length drawn = (low_mm + (high_mm - low_mm) * random.unit()) * mm;
    return step > Length{} ? std::round(drawn / step) * step : drawn;
  };
  PackHolder h = sample(random.unit() < 0.7);
  h.gap = between(0.1, 0.4);
  h.smallest_wall = between(0.6, 1.4);
  h.picture_width = between(40, 130);
  h.picture_height = between(40, 130);
  h.sheet_play = between(0.1, 0.5);
  h.sheet_width = h.picture_width + 2 * h.sheet_play + between(1.6, 8);
  h.sheet_height = h.picture_height + 2 * h.sheet_play + between(1.6, 8);
  h.ledge = h.gap + between(1, 3);
  h.width = h.lid_width() + 2 * (h.gap + h.smallest_wall) + between(0, 12);
  h.length = h.lid_height() + 2 * (h.gap + h.smallest_wall) + between(0, 30);
  h.rail = h.smallest_wall + between(0, 2);
  h.lid = h.smallest_wall + between(0, 1);
  h.sheet_slot = between(0.2, 0.5);
  if (!h.slide) return h;
  PackHolder::Slide& s = *h.slide;
  s.thickness = between(0.3, 1);
  s.slot = s.thickness + 2 * h.gap + between(0, 0.2);
  s.pocket = between(0.1, 0.6);
  s.wall = h.smallest_wall + s.pocket + between(0, 1);
  s.width = h.picture_width + 2 * h.gap + between(3, 7);
  s.end_width = s.width + 4 * h.gap + between(1, 2);
  s.end_length = between(2, 6);
  s.reach = between(1.5, 6);
  s.stops = h.picture_height / 2 + s.end_length + between(0, 2);
  s.felt = (s.pocket + s.slot - s.thickness) / between(0.45, 0.8) * mm;
  s.felt_at = s.stops + h.smallest_wall + between(0, 1);
  s.felt_width = between(2, 8);
  s.tab = between(5, 40);
  return h;
}

void expect_random_holders_well_made(std::uint64_t seed, Length step, int wanted) {
  Random random(seed);
  int built = 0, drawn = 0;
  while (built < wanted && !testing::Test::HasFailure()) {
    ASSERT_LT(drawn, 12 * wanted) << "only " << built << " holders could be built";
    ++drawn;
    const PackHolder h = random_holder(random, step);
    if (!faults(h).empty()) continue;
    ++built;
    expect_well_made(h);
  }
  testing::Test::RecordProperty("drawn", drawn);
}

TEST(PackHolder, RandomOnesAreWellMade) { expect_random_holders_well_made(1, Length{}, 150); }
TEST(PackHolder, RandomOnesOfRoundNumbersAreWellMade) {
  expect_random_holders_well_made(2, 0.1 * mm, 150);
}

}  // namespace
}  // namespace backfit
