// SPDX-License-Identifier: MIT
// Light through the seams and walls of the demo's inserts for roll film.
#include "conversion/leak_insert.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "conversion/leak_scene.hpp"
#include "example.hpp"
#include "leak_scenes.hpp"

namespace backfit {
namespace {

// Its path takes a second or two to find. The print counts as not known.
struct Found {
  Assembly assembly = of_unknown_print(example_assembly("kestrel", "kestrel-6x6.conversion.toml"));
  InsertStudy study = *study_insert(assembly, catalogue());
};
const Found& found() {
  static const Found square;
  return square;
}

SeamScene scene(const LeakInsert& insert = {}) {
  return seam_scene(found().assembly, found().study, insert, 2, 3);
}

// Law: each way alone leads to film, and to that film alone to which it opens: the floor's edges to
// the picture, all others to the film beside it.
TEST(LeakInsert, EachWayLeadsToItsFilm) {
  const SeamScene whole = scene({.felt_under_feet = false, .window_open = true});
  ASSERT_EQ(whole.pieces.size(), 2U);
  for (const LeakSeam& seam : whole.seams) {
    const LeakStudy s = studied(alone(whole, seam), false, 2048);
    const bool to_picture = seam.name == "floor in the old gate";
    EXPECT_GT(light_on(s, to_picture), 0) << seam.name << ", " << seam.side;
    EXPECT_EQ(light_on(s, !to_picture), 0) << seam.name << ", " << seam.side;
  }
  for (const PrintedWall& wall : whole.walls) {
    const LeakStudy s = studied(alone(whole, wall), false, 2048);
    EXPECT_GT(light_on(s, false), 0) << wall.name << ", " << wall.side;
    EXPECT_EQ(light_on(s, true), 0) << wall.name << ", " << wall.side;
  }
}

// Law: the floor's edges are alike on the left and on the right, and so is the picture under a sky.
TEST(LeakInsert, IsAlikeOnBothSides) {
  const LeakStudy s = studied(scene({.felt_in_bores = true}), false, 65536);
  for (std::size_t row = 0; row < 3; ++row) {
    const TallyResult &left = s.patches[2 * row].all, &right = s.patches[2 * row + 1].all;
    ASSERT_TRUE(left.interval && right.interval);
    EXPECT_NEAR(left.mean, right.mean, 4.5 * std::hypot(left.standard_error, right.standard_error));
  }
}

// Law: felt helps where it lies, and a bare foot, which has one bend, lets in a thousand times as
// much as the bores do.
TEST(LeakInsert, IsDarkerWithFelt) {
  const LeakStudy bare = studied(scene({.felt_under_feet = false})), felted = studied(scene());
  EXPECT_GT(light_on(bare, false), 1e3 * light_on(felted, false));
  const LeakStudy floor = studied(scene({.felt_round_floor = true}));
  EXPECT_EQ(light_on(floor, true), 0);
  EXPECT_EQ(floor.worst_patch().name, floor.pieces[floor.worst - floor.patches.size()].name);
}

// Law: with the sun as well the worst patch has a number, and the answer says what is open and what
// the walls must take: as much as they let in when they pass all.
TEST(LeakInsert, HasAVerdict) {
  const SeamScene as_built = scene();
  const LeakStudy s = studied(as_built, true, 65536);
  ASSERT_TRUE(s.worst_light.interval);
  EXPECT_EQ(s.verdict, LeakVerdict::leaks);
  EXPECT_EQ(s.shelter, "the camera's closed back");
  ASSERT_TRUE(s.wall_need);
  EXPECT_GT(s.wall_need->least.value, 30);
  SeamScene open = as_built;
  open.readings = thin_print;
  const LeakStudy bright = studied(open, true);
  EXPECT_TRUE(bright.seams.front().thickness);
  EXPECT_FALSE(bright.worst_patch().name.empty());
}

// Law: only what is known to be printed can be studied.
TEST(LeakInsert, IsRefusedWithoutItsNumbers) {
  const Assembly heron = example_assembly("heron", "heron-120.conversion.toml");
  EXPECT_TRUE(leak_refusal({heron, nullptr}));
  EXPECT_FALSE(leak_refusal({found().assembly, &found().study}));
}

}  // namespace
}  // namespace backfit
