// SPDX-License-Identifier: MIT
#include "parts/sheet_holder.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

#include "quantity/random.hpp"
#include "sample_holder.hpp"
#include "sizes_shown.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

const Piece& piece(const PieceSet& set, std::string_view name) {
  return *std::ranges::find(set.pieces, name, &Piece::name);
}

// Law: the kernel's volume is the one from the numbers; each piece is one sound lump. The pieces
// that are hard to make come first: `count` of all.
void expect_well_made(const SheetHolder& h, const PieceSet& set, std::size_t count = 7) {
  const std::pair<const char*, Volume> volumes[] = {
      {"frame", frame_volume(h)},      {"flap", flap_volume(h)},     {"rails", rails_volume(h)},
      {"dark slide", slide_volume(h)}, {"septum", septum_volume(h)}, {"grip", grip_volume(h)},
      {"rib", rib_volume(h)}};
  for (const auto& [name, volume] : std::span(volumes).first(count)) {
    const Piece& p = piece(set, name);
    const Soundness s = soundness_of(p.on_bed);
    EXPECT_TRUE(s.sound()) << name << s.valid << s.bodies << s.cavities << s.bad_edges;
    EXPECT_NEAR(s.volume / volume, 1, 1e-9) << name;  // rounding in the kernel's integration
  }
}

TEST(SheetHolder, SampleHasNoFaults) {
  for (const PartFault& f : faults(sample_holder())) ADD_FAILURE() << f.id << ": " << f.text;
}

TEST(SheetHolder, SampleIsWellMade) {
  const SheetHolder h = sample_holder();
  const PieceSet set = set_of(h, {});
  ASSERT_EQ(set.apart.size(), set.pieces.size());
  expect_sizes_shown(set);
  expect_well_made(h, set);
  for (const Piece& p : set.pieces) {
    EXPECT_NEAR(bounds_of(p.on_bed).low.z / mm, 0, 1e-6) << p.name;
    EXPECT_EQ(p.in_place.size(), p.name == "septum" || p.name == "flap" ? 1U : 2U) << p.name;
  }
}

// Truth: holder-4x5-asa-1951 and holder-depths-it3-108 in data/sources.toml (READ): a film 0.007 in
// thick whose back touches the septum of a 4 × 5 in holder, 0.197 in deep, has its front 0.190 in
// behind the face; lifted to the front of the slot of 0.012 in, 0.185 in: 4.826 mm and 4.699 mm.
TEST(SheetHolder, HoldsFilmWhereTheStandardDoes) {
  SheetHolder h = sample_holder();
  h.film_slot = 0.012 * 25.4 * mm;
  h.front = 0.197 * 25.4 * mm - h.slide_slot - h.rail - h.film_slot;
  EXPECT_NEAR(h.depth() / mm, 5.004, 0.0005);  // the source's rounding to 0.001 in, told in mm
  EXPECT_NEAR((h.depth() - 0.007 * 25.4 * mm) / mm, 4.826, 0.0005);
  EXPECT_NEAR((h.frame() + h.rail) / mm, 4.699, 0.0005);
  // The solids have it, too: rails end where the slot begins, the septum lies behind it.
  const PieceSet set = set_of(h, {2 * mm});
  const auto material_at = [&](std::string_view name, Length z) {
    const Solid probe = box({48 * mm, -1 * mm, z - 0.02 * mm}, {49 * mm, 1 * mm, z + 0.02 * mm});
    return common_volume(piece(set, name).in_place.front(), probe) / volume_of(probe);
  };
  EXPECT_NEAR(material_at("rails", 2 * mm + 4.67 * mm), 1, 1e-6);
  EXPECT_NEAR(material_at("rails", 2 * mm + 4.73 * mm), 0, 1e-6);
  EXPECT_NEAR(material_at("septum", 2 * mm + 4.98 * mm), 0, 1e-6);
  EXPECT_NEAR(material_at("septum", 2 * mm + 5.03 * mm), 1, 1e-6);
}

// Truth: volumes worked out by hand for round numbers, each piece a sum of boxes.
TEST(SheetHolder, VolumesAreTheSumsOfTheirBoxes) {
  const SheetHolder h = sample_holder();
  const double outside = 120.6 * 168, open = 95 * 119.75 + (120.6 - 6.4) * 16.25;
  const double hole = pi / 4 * 2.5 * 2.5 * 2.2 + pi / 12 * (4.5 * 4.5 + 4.5 * 2.5 + 2.5 * 2.5);
  const double grooves = 104.5 * (66 + 59.75) + 102.5 * 26 - 95 * 119.75;
  EXPECT_NEAR(frame_volume(h) / mm3,
              (outside - open) * 3.2 - grooves * 1.3 - 2 * 102 * 8 * 0.4 - 120.6 * 1.85 * 0.7 -
                  2 * 2 * 1.75 * 1.75 - 6 * hole,
              1e-6);
  const double slot = 101.2 * (62.9 + 0.4 + 59.75) - 95 * 119.75;
  EXPECT_NEAR(rails_volume(h) / mm3, (outside - open - 12 * pi / 4 * 1.7 * 1.7) * 1.8 - slot * 0.3,
              1e-6);
  EXPECT_NEAR(grip_volume(h) / mm3, 102 * (12 * 3.45 - 8 * 1.05), 1e-9);
  EXPECT_NEAR(slide_volume(h) / mm3, (104 * 5 + 102 * (92 + 0.25 + 8 - 0.25 + 68 - 5)) * 0.8, 1e-9);
}

// Law: no two pieces of the set share any room, shut or with a slide drawn to its stops; what
// slides keeps the gauge's gap.
TEST(SheetHolder, PiecesKeepClear) {
  const SheetHolder h = sample_holder();
  const PieceSet set = set_of(h, {});
  std::vector<std::pair<std::string, Solid>> bodies;
  for (const Piece& p : set.pieces) {
    for (const Solid& body : p.in_place) bodies.emplace_back(p.name, body);
  }
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    for (std::size_t j = i + 1; j < bodies.size(); ++j) {
      EXPECT_NEAR(common_volume(bodies[i].second, bodies[j].second) / mm3, 0, 1e-6)
          << bodies[i].first << " and " << bodies[j].first;
    }
  }
  const Solid& slide = piece(set, "dark slide").in_place.front();
  const Solid& frame = piece(set, "frame").in_place.front();
  const Solid& flap = piece(set, "flap").in_place.front();
  EXPECT_NEAR(distance_between(slide, frame) / mm, 0.25, 1e-6);
  EXPECT_NEAR(distance_between(slide, flap) / mm, 0.25, 1e-6);
  EXPECT_NEAR(distance_between(slide, piece(set, "rails").in_place.front()) / mm, 0.25, 1e-6);
  EXPECT_NEAR(distance_between(flap, frame) / mm, 0.25, 1e-6);
  EXPECT_NEAR(distance_between(flap, piece(set, "rails").in_place.front()) / mm, 0.25, 1e-6);
  // Drawn to its stops it clears the picture; a hair farther it meets them.
  const Solid drawn = translated(slide, {{}, h.travel(), {}});
  EXPECT_NEAR(common_volume(drawn, frame) / mm3, 0, 1e-6);
  EXPECT_GE(bounds_of(drawn).low.y, h.picture_height / 2);
  EXPECT_GT(common_volume(translated(slide, {{}, h.travel() + 0.5 * mm, {}}), frame), 0.1 * mm3);
}

// Law: the flap turns back by a right angle about its pins and meets nothing on the way, once the
// slides are drawn.
TEST(SheetHolder, FlapTurnsFreely) {
  const SheetHolder h = sample_holder();
  const PieceSet set = set_of(h, {});
  const Solid& flap = piece(set, "flap").in_place.front();
  // About the pins, (v, w) to (w, -v). On the way every point of the flap before the axis moves
  // away from the seam, and the edge behind it is round about the axis.
  const Length v = h.seam() - h.pin_radius(), w = h.thickness() - h.pin_from_face();
  Solid open = translated(flap, {{}, -v, -w});
  for (int quarter = 0; quarter < 3; ++quarter) open = quarter_turned_about_x(open);
  open = translated(open, {{}, v, w});
  for (const char* name : {"frame", "rails", "septum"}) {
    for (const Solid& body : piece(set, name).in_place) {
      EXPECT_NEAR(common_volume(open, body) / mm3, 0, 1e-6) << name;
    }
  }
  EXPECT_NEAR((bounds_of(open).low.z - (w - h.pin_radius())) / mm, 0, 1e-6);
  // Behind both sheets: the way in is free.
  EXPECT_GT(bounds_of(open).low.z, h.thickness() - h.frame() - h.rails());
}

// Law: both sides are alike, and lengthways is upright turned by a quarter to the right.
TEST(SheetHolder, SidesAreAlikeAndPosesAreTurned) {
  const SheetHolder h = sample_holder();
  const PieceSet upright = set_of(h, {1 * mm}), lying = set_of(h, {1 * mm, true});
  const Bounds a = bounds_of(piece(upright, "rib").in_place.front());
  const Bounds b = bounds_of(piece(lying, "rib").in_place.front());
  EXPECT_NEAR((a.low.y + a.high.y) / 2 / mm, 79, 1e-6);
  EXPECT_NEAR((b.low.x + b.high.x) / 2 / mm, 79, 1e-6);
  EXPECT_NEAR(a.low.z / mm, 1 - 1.5, 1e-6);
  const Bounds rear = bounds_of(piece(upright, "rib").in_place.back());
  EXPECT_NEAR((rear.high.z - 1 * mm - h.thickness()) / mm, 1.5, 1e-6);
}

TEST(SheetHolder, NamesItsFaults) {
  const auto fault_of = [](auto change) {
    SheetHolder h = sample_holder();
    change(h);
    const std::vector<PartFault> list = faults(h);
    return list.empty() ? std::string() : list.front().id + ": " + list.front().text;
  };
  EXPECT_EQ(fault_of([](SheetHolder& h) { h.front = 1.5 * mm; }),
            "holder-wall-thin: before the felt the frame's wall is 1.10 mm; 1.20 mm is needed");
  EXPECT_EQ(fault_of([](SheetHolder& h) { h.width = 115 * mm; }).substr(0, 17),
            "holder-too-narrow");
  EXPECT_EQ(fault_of([](SheetHolder& h) { h.slide.width = 97 * mm; }).substr(0, 15),
            "slide-uncovers:");
  EXPECT_EQ(fault_of([](SheetHolder& h) { h.rib.from_middle = 71 * mm; }).substr(0, 17),
            "holder-wall-thin:");
  EXPECT_EQ(fault_of([](SheetHolder& h) { h.sheet_width = 96 * mm; }).substr(0, 20),
            "sheet-falls-through:");
  EXPECT_EQ(fault_of([](SheetHolder& h) { h.screws.left[1] = 25 * mm; }).substr(0, 15),
            "screws-crowded:");
  EXPECT_EQ(fault_of([](SheetHolder& h) { h.picture_width = NAN * mm; }).substr(0, 12),
            "holder-size:");
}

// A holder near the sample in every number; a coarse step makes faces that meet as often as
// owners' round numbers do.
SheetHolder random_holder(Random& random, Length step) {
  const auto between = [&random, step](double low_mm, double high_mm) {
    const Length drawn = (low_mm + (high_mm - low_mm) * random.unit()) * mm;
    return step > Length{} ? std::round(drawn / step) * step : drawn;
  };
  SheetHolder h = sample_holder();
  h.gap = between(0.1, 0.4);
  h.smallest_wall = between(0.6, 1.4);
  h.picture_width = between(40, 130);
  h.picture_height = between(50, 180);
  h.sheet_width = h.picture_width + between(3, 8);
  h.sheet_height = h.picture_height + between(3, 8);
  h.sheet_play = between(0.2, 0.6);
  h.slide.thickness = between(0.4, 1.2);
  h.slide_slot = h.slide.thickness + 2 * h.gap + between(0, 0.3);
  h.front = h.smallest_wall + between(0.3, 1.5);
  h.rail = h.smallest_wall + h.gap + between(0, 0.4);
  h.film_slot = between(0.2, 0.5);
  h.septum = h.smallest_wall + between(0, 1.5);
  h.slide.width = h.picture_width + 2 * h.gap + between(4, 8);
  h.slide.end_width = h.slide.width + 4 * h.gap + between(1, 2);
  h.slide.end_length = between(2, 8);
  h.slide.reach = between(3, 10);
  h.slide.stops = h.picture_height / 2 + h.slide.end_length + between(0, 2);
  h.felt.thickness = between(1, 2);
  h.felt.width = between(4, 10);
  h.felt.pocket = between(0.2, 0.8);
  h.rib.sunk = between(0.2, 1);
  const Length felt = h.slide.stops + h.smallest_wall + between(0, 1);
  h.rib.from_middle = felt + h.felt.width + h.smallest_wall + h.rib_groove() / 2 + between(0, 3);
  const Length second = h.rib.from_middle + h.rib_groove() / 2 + h.smallest_wall + between(0, 1);
  h.felt.at = {felt, second};
  h.top = second + h.felt.width + h.smallest_wall + between(0, 6);
  h.width = h.groove() + 2 * (h.screw_head() + 2 * h.smallest_wall) + between(0, 8);
  h.flap.pin = between(1, 1.6);
  h.flap.pin_in_arm = between(1, 3);
  h.flap.arm = h.flap.pin_in_arm + h.smallest_wall + between(0, 0.5);
  h.flap.pin_in_flap = (h.flap_width() - h.groove()) / 2 - h.smallest_wall;
  h.bottom =
      -h.seam() + std::max(h.slide_groove(), h.sheet_groove()) + h.smallest_wall + between(0, 8);
  const Length low = h.seam() + h.gap + h.screw_head() / 2 + h.smallest_wall + between(0, 2);
  const Length pitch = (h.rib.from_middle - 5 * mm - low) / 4;
  h.screws.left = {low, low + 2 * pitch};
  h.screws.right = {low + pitch, low + 3 * pitch};
  return h;
}

void expect_random_holders_well_made(std::uint64_t seed, Length step, int wanted) {
  Random random(seed);
  int built = 0, drawn = 0;
  while (built < wanted && !testing::Test::HasFailure()) {
    ASSERT_LT(drawn, 12 * wanted) << "only " << built << " holders could be built";
    ++drawn;
    const SheetHolder h = random_holder(random, step);
    const std::vector<PartFault> list = faults(h);
    if (!list.empty()) continue;
    ++built;
    expect_well_made(h, set_of(h, {}), built % 10 == 0 ? 7 : 3);
  }
  testing::Test::RecordProperty("drawn", drawn);
}

TEST(SheetHolder, RandomOnesAreWellMade) { expect_random_holders_well_made(1, Length{}, 150); }
TEST(SheetHolder, RandomOnesOfRoundNumbersAreWellMade) {
  expect_random_holders_well_made(2, 0.1 * mm, 150);
}

}  // namespace
}  // namespace backfit
