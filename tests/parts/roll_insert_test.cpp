// SPDX-License-Identifier: MIT
#include "parts/roll_insert.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "parts/insert_shapes.hpp"
#include "sample_insert.hpp"
#include "solid/mesh.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

// One set of pieces for all tests: the kernel takes a second for them.
const std::vector<Piece>& sample_pieces() {
  static const std::vector<Piece> pieces = pieces_of(sample_insert());
  return pieces;
}
const Piece& piece(const std::string& name) {
  return *std::ranges::find(sample_pieces(), name, &Piece::name);
}

void expect_volume(const Solid& body, double expected_mm3) {
  EXPECT_NEAR(volume_of(body) / mm3, expected_mm3, 1e-8 * expected_mm3);  // the kernel's rounding
}

TEST(RollInsert, SampleHasNoFaults) {
  for (const PartFault& f : faults(sample_insert())) ADD_FAILURE() << f.id << ": " << f.text;
}

// Law: every piece is one sound lump, and lies on the bed.
TEST(RollInsert, PiecesAreSoundAndLieOnTheBed) {
  for (const Piece& p : sample_pieces()) {
    const Soundness s = soundness_of(p.on_bed);
    EXPECT_TRUE(s.sound()) << p.name << ": valid " << s.valid << ", bodies " << s.bodies
                           << ", cavities " << s.cavities << ", bad edges " << s.bad_edges
                           << ", watertight " << s.watertight;
    EXPECT_NEAR(bounds_of(p.on_bed).low.z / mm, 0, 1e-6) << p.name;
    const Mesh mesh = mesh_of(p.on_bed, 0.05 * mm);
    // Chords of 0.05 mm on curved faces that make up less than a tenth of a thin piece.
    EXPECT_NEAR(volume_of(mesh) / volume_of(p.on_bed), 1, 0.01) << p.name;
  }
}

// Truth: worked by hand, piece by piece, from elementary geometry. Without window, ears' grooves
// and notches every cut of the body is a box, a cylinder or a ring of its own.
TEST(RollInsert, VolumeOfABareBodyIsTheSumOfItsPieces) {
  RollInsert i = sample_insert();
  i.window.reset();
  i.notches.clear();
  i.plate.ears.clear();
  i.rollers.clear();
  const double cheeks = 2 * 123.2 * 4.1 * 34.2;
  // End walls between the cheeks, 66.6 mm: 1.6 thick, thickened to the rim of 4.1 over the top 4.45
  // mm and under it by a 45 degree wedge.
  const double ends = 2 * 66.6 * (1.6 * 34.2 + 2.5 * 4.45 + 2.5 * 2.5 / 2);
  const double floor = (94 * 72 - 56 * 56) * 1.2;
  // Rails, 0.8 over the floor and 63.7 long. What a quarter circle of 1 mm leaves of its square
  // down to a depth t below its top: t minus the circle's part, from cos to 1.
  const auto left_by_arc = [](double t) {
    const double u = 1 - t;
    return t - ((pi / 2 - std::asin(u)) / 2 - u * std::sqrt(1 - u * u) / 2);
  };
  const double rails = (63.7 * 0.8 - 2 * left_by_arc(0.8)) * 72 - 56 * 56 * 0.8;
  // The cheeks' feet on the floor's edges, 2.7 wide and 0.6 high below the cheeks, where no rails
  // are; and the rails' upper 0.2 mm, which are the cheeks' too.
  const double rails_below = 63.7 * 0.6 - 2 * (left_by_arc(0.8) - left_by_arc(0.2));
  const double feet = 2 * 2.7 * (94 * 0.6 - rails_below);
  const double twice = 2 * 2.7 * (63.7 * 0.2 - 2 * left_by_arc(0.2));
  // Seats of the pressure plate, 1.2 wide beside the cheeks, 0.4 over the rails.
  const double seats = 2 * 1.2 * 58 * 0.4;
  const double bosses = 2 * 4.9 * 4.9 * 31.9;
  // The groove: a ring with sharp corners inside and corners of its own width outside.
  const double ring = 120.8 * 72.4 - (4 - pi) * 1.7 * 1.7 - 117.4 * 69.0;
  const double groove = 3.25 * ring;
  const double bores = 4 * pi / 4 * (10.9 * 10.9 * 2.2 + 14.3 * 14.3 * 1.9);
  const double pad = pi / 4 * 5.4 * 5.4 * 1;
  const double pilots = 2 * pi / 4 * 2.5 * 2.5 * 10;
  expect_volume(insert_body(i), cheeks + ends + floor + rails + feet - twice + seats + bosses -
                                    groove - bores - pad - pilots);
}

// Truth: likewise.
TEST(RollInsert, VolumesOfTheTurnedPiecesAreThoseOfTheirCylinders) {
  const RollInsert i = sample_insert();
  const auto disc = [](double diameter) { return pi / 4 * diameter * diameter; };
  // Stub 5.1 over 3.3 mm, journal 10.4 over 2.2, collar 13.8 over 1.9 in the cheek and 3 beyond.
  expect_volume(spool_pin(i), disc(5.1) * 3.3 + disc(10.4) * 2.2 + disc(13.8) * 4.9);
  // Roller: 10 mm under the film, hubs of 8.8 beside it, the first 0.6 of the film's part a cone,
  // all bored 3.5.
  const double cone = pi / 3 * 0.6 * (4.4 * 4.4 + 4.4 * 5 + 5 * 5);
  expect_volume(film_roller(i, i.rollers[0]),
                disc(10) * (62.6 - 0.6) + disc(8.8) * (66 - 62.6) + cone - disc(3.5) * 66);
}

// Truth: a ring of a smallest wall round the countersunk head, 3.25 to 4.4 mm from its middle at
// the lid's outer face, is solid.
TEST(RollInsert, ScrewHeadsAreSurroundedByTheLidsEars) {
  const RollInsert i = sample_insert();
  const Length y = i.half_width() + i.boss() / 2, top = i.lid_top();
  const Solid ring = difference_of(cylinder(8.8 * mm, top - 0.5 * mm, top),
                                   {cylinder(6.54 * mm, top - 1 * mm, top + 1 * mm)});
  const Solid there = translated(ring, {i.screws.x, y, {}});
  EXPECT_NEAR(common_volume(insert_lid(i), there) / volume_of(there), 1, 1e-6);
}

// Law: nothing that lies in the insert shares room with anything else: pieces, spools with full
// rolls, rods. Touching counts as nothing.
TEST(RollInsert, NothingMeetsInTheAssembly) {
  const RollInsert i = sample_insert();
  struct Named {
    std::string name;
    Solid solid;
    Bounds around;
  };
  std::vector<Named> all;
  const auto add = [&](const std::string& name, const Solid& s) {
    all.push_back({name, s, bounds_of(s)});
  };
  for (const Piece& p : sample_pieces()) {
    for (const Solid& s : p.in_place) add(p.name, s);
  }
  add("supply", full_spool(i, i.spools.supply));
  add("take-up", full_spool(i, i.spools.take_up));
  for (const RollInsert::Roller& r : i.rollers) add("rod", rod_of(i, r));
  const auto apart = [](const Bounds& a, const Bounds& b) {
    return a.high.x < b.low.x || b.high.x < a.low.x || a.high.y < b.low.y || b.high.y < a.low.y ||
           a.high.z < b.low.z || b.high.z < a.low.z;
  };
  for (std::size_t a = 0; a < all.size(); ++a) {
    for (std::size_t b = a + 1; b < all.size(); ++b) {
      if (apart(all[a].around, all[b].around)) continue;
      EXPECT_LT(common_volume(all[a].solid, all[b].solid) / mm3, 1e-6)
          << all[a].name << " and " << all[b].name;
    }
  }
  // The check itself finds a spool that lies a little too low.
  EXPECT_GT(common_volume(full_spool(i, i.spools.supply + SectionPoint{{}, -10 * mm}),
                          piece("body").in_place.front()) /
                mm3,
            1.0);
}

// Law: a slip of the hand in any number is told in words with both numbers.
TEST(RollInsertFaults, NameWhatIsWrong) {
  const auto ids = [](const RollInsert& i) {
    std::vector<std::string> list;
    for (const PartFault& f : faults(i)) {
      list.push_back(f.id);
      EXPECT_FALSE(f.remedy.empty()) << f.text;
    }
    return list;
  };
  const auto has = [&](const RollInsert& i, const char* id) {
    const std::vector<std::string> list = ids(i);
    return std::ranges::find(list, id) != list.end();
  };
  RollInsert i = sample_insert();
  i.body.wall = 0.8 * mm;
  EXPECT_TRUE(has(i, "insert-wall-thin"));
  i = sample_insert();
  i.gate.spigot_half_width = 31 * mm;
  EXPECT_TRUE(has(i, "gate-too-narrow"));
  i = sample_insert();
  i.spools.take_up = {48.5 * mm, 21 * mm};
  EXPECT_TRUE(has(i, "insert-rim-clash"));
  i = sample_insert();
  i.knob.chamber_half = 41 * mm;
  EXPECT_TRUE(has(i, "insert-too-wide"));
  EXPECT_TRUE(has(i, "pin-not-drawn"));
  i = sample_insert();
  i.rollers[0].centre = {-36 * mm, 30 * mm};
  EXPECT_TRUE(has(i, "spool-no-way-in"));
  i = sample_insert();
  i.plate.ears = {-40 * mm, 22 * mm};
  EXPECT_TRUE(has(i, "cheek-crowded"));
  i = sample_insert();
  i.window->x = 32 * mm;
  EXPECT_TRUE(has(i, "window-clash"));
  i = sample_insert();
  i.gap = 0 * mm;
  EXPECT_TRUE(has(i, "insert-size"));
}

// Truth: the rim's edge stands 57.5 mm from the middle, 29.55 mm high at its foot; a spool at
// (46, 20.5) led straight back passes it at 11.5 mm, less than its flange of 12.6: it must slant.
TEST(RollInsert, ASpoolIsLedRoundTheRim) {
  const RollInsert i = sample_insert();
  const SpoolWay way = way_out(i, i.spools.take_up);
  EXPECT_LT(way.slant, 0 * deg);
  EXPECT_GT(way.free, i.gap);
}

}  // namespace
}  // namespace backfit
