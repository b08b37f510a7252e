// SPDX-License-Identifier: MIT
// Where zones are cut along the shadows of edges close by.
#include "lighttrap/shadow_edges.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "lighttrap/room.hpp"
#include "surfaces.hpp"

namespace backfit::ray {
namespace {

using namespace surfaces;

const Built& box() {
  static const Built b = box_and_lid(Stuff{Wall{0.05}});
  return b;
}

ShadowEdges edges_of(const Surfaces& s, const Kernel& kernel) {
  std::vector<Vec> points;
  std::vector<std::array<std::uint32_t, 3>> triangles;
  for (const SpacePoint& p : s.points) points.push_back(vec_mm(p));
  for (const auto& t : s.triangles) triangles.push_back(t.corners);
  return {points, triangles, kernel};
}

// Law: a sphere about a point names what comes into it, and nothing that lies far off.
TEST(Kernel, NamesWhatIsNear) {
  const Kernel kernel = kernel_of(box().surfaces, nullptr);
  const auto near = [&kernel](Vec at, double radius) {
    std::set<std::uint32_t> parts;
    kernel.near(at, radius,
                [&parts](std::uint32_t t) { parts.insert(box().surfaces.triangles[t].part); });
    return parts;
  };
  EXPECT_EQ(near({0, 0, -29}, 1.5), std::set<std::uint32_t>{0});
  EXPECT_EQ(near({0, 0, 3}, 1.5), std::set<std::uint32_t>{1});
  EXPECT_EQ(near({27, 0, 2.15}, 1), (std::set<std::uint32_t>{0, 1}));
  EXPECT_TRUE(near({200, 0, 0}, 1).empty());
}

// By hand: of a triangle under the lid from y = 38 to 42 the box's outer wall, in the plane y = 40,
// parts the edges in halves; of the two it crosses the longer is cut. Its inner wall is too far
// off, and its rim lies along the triangle. Nothing is cut where nothing is near, nor a sliver.
TEST(ShadowEdges, CutWhereAWallsPlaneGoesOn) {
  const Kernel kernel = kernel_of(box().surfaces, nullptr);
  const ShadowEdges edges = edges_of(box().surfaces, kernel);
  const std::array<Vec, 3> across{Vec{0, 38, 2.3}, {1, 38, 2.3}, {9, 42, 2.3}};
  const auto cut = edges.cut(across, 0.45, 0.01);
  ASSERT_TRUE(cut);
  EXPECT_EQ(cut->edge, 2);
  EXPECT_NEAR(cut->part, 0.5, 1e-9);
  EXPECT_FALSE(edges.cut(across, 0.25, 0.01));
  EXPECT_FALSE(edges.cut(across, 0.45, 2.1));
  const std::array<Vec, 3> beside{Vec{0, 36, 2.3}, {1, 36, 2.3}, {9, 39.9, 2.3}};
  EXPECT_FALSE(edges.cut(beside, 0.45, 0.01));
  // Behind the plane, where the shadow is blurred, a fifth of the distance of 0.3 mm off: y
  // = 39.94.
  const std::array<Vec, 3> behind{Vec{0, 36, 2.3}, {1, 36, 2.3}, {9, 39.98, 2.3}};
  const auto blurred = edges.cut(behind, 0.45, 0.01);
  ASSERT_TRUE(blurred);
  EXPECT_EQ(blurred->edge, 2);
  EXPECT_NEAR(blurred->part, 0.04 / 3.98, 1e-4);
}

// Law: zones under the lid lie to one side of the box's outer wall, first and after a finer cut.
TEST(Zones, EndAtShadows) {
  Room room(box().surfaces, box().film);
  const auto straddling = [&room] {
    return std::ranges::count_if(room.zones.zones(), [&](const Zones::Zone& zone) {
      const auto& c = zone.corners;
      const auto& t = room.surfaces.triangles[zone.triangle];
      if (t.part != 1 || std::ranges::any_of(c, [](Vec p) { return std::abs(p.z - 2.3) > 1e-9; }))
        return false;
      const auto [least, most] = std::ranges::minmax(std::array{c[0].y, c[1].y, c[2].y});
      return least < 40 - 0.004 && most > 40 + 0.004;
    });
  };
  EXPECT_EQ(straddling(), 0);
  const std::size_t before = room.zones.zones().size();
  room.zones.refine(room.surfaces, room.kernel, std::vector<double>(before, 1), 2 * before);
  EXPECT_GT(room.zones.zones().size(), before);
  EXPECT_EQ(straddling(), 0);
  double area = 0;
  for (const Zones::Zone& zone : room.zones.zones()) area += zone.area_mm2;
  double of_triangles = 0;
  for (const auto& t : room.surfaces.triangles) {
    const Vec p = vec_mm(room.surfaces.points[t.corners[0]]);
    of_triangles += length(cross(vec_mm(room.surfaces.points[t.corners[1]]) - p,
                                 vec_mm(room.surfaces.points[t.corners[2]]) - p)) /
                    2;
  }
  EXPECT_NEAR(area, of_triangles, 1e-6 * of_triangles);
}

// Law: a film's cells tile its patches; a place on one lies in it, and in its patch.
TEST(Room, KnowsTheFilmsCells) {
  Built b = box();
  b.film.columns = 3;
  b.film.rows = 2;
  const Room room(b.surfaces, b.film);
  EXPECT_GE(room.cells(), 16);
  EXPECT_EQ(room.cell_columns % 3, 0);
  EXPECT_EQ(room.cell_rows % 2, 0);
  std::vector<std::size_t> cells(room.patches());
  Random random(3);
  for (std::size_t cell = 0; cell < room.cells(); ++cell) {
    ++cells[room.patch_of(cell)];
    for (int i = 0; i < 20; ++i)
      EXPECT_EQ(room.cell_at(start_on_cell(room, cell, random).at), cell);
  }
  for (std::size_t patch = 0; patch < room.patches(); ++patch) {
    EXPECT_EQ(cells[patch], room.cells() / room.patches());
    for (int i = 0; i < 20; ++i) {
      EXPECT_EQ(room.patch_of(room.cell_at(start_on_film(room, patch, random).at)), patch);
    }
  }
}

}  // namespace
}  // namespace backfit::ray
