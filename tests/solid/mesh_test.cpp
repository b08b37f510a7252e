// SPDX-License-Identifier: MIT
#include "solid/mesh.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "sample_solid.hpp"

namespace backfit {
namespace {

using std::numbers::pi;

TEST(Mesh, OfABoxIsTwelveTrianglesOnEightPoints) {
  const Mesh mesh = mesh_of(box({0 * mm, 0 * mm, 0 * mm}, {2 * mm, 3 * mm, 5 * mm}), 0.1 * mm);
  EXPECT_EQ(mesh.points_mm.size(), 8U);
  EXPECT_EQ(mesh.triangles.size(), 12U);
  EXPECT_TRUE(watertight(mesh));
  EXPECT_DOUBLE_EQ(volume_of(mesh) / mm3, 30);  // positive: the triangles face outward
}

// Law: the points lie on the surface, so the mesh of a cylinder is inside it by no more than the
// chord; its volume falls short by less than chord * lateral area.
TEST(Mesh, KeepsWithinTheChordOfACylinder) {
  const double radius_mm = 9, height_mm = 4;
  const Solid body = cylinder(2 * radius_mm * mm, 0 * mm, height_mm * mm);
  double last_shortfall_mm3 = 1e9;
  for (const double chord_mm : {0.2, 0.02, 0.002}) {
    const Mesh mesh = mesh_of(body, chord_mm * mm);
    ASSERT_TRUE(watertight(mesh));
    for (const auto& [x, y, z] : mesh.points_mm) {
      EXPECT_NEAR(std::hypot(x, y), radius_mm, 2e-6);  // single precision
    }
    const double shortfall_mm3 = pi * radius_mm * radius_mm * height_mm - volume_of(mesh) / mm3;
    EXPECT_GT(shortfall_mm3, 0);
    EXPECT_LT(shortfall_mm3, chord_mm * 2 * pi * radius_mm * height_mm);
    EXPECT_LT(shortfall_mm3, last_shortfall_mm3);
    last_shortfall_mm3 = shortfall_mm3;
  }
}

// Law: Euler characteristic V - E + F = 2 - 2 * holes; a closed triangle mesh has E = 3 F / 2.
TEST(Mesh, OfABodyWithOneThroughHoleIsARing) {
  const Mesh mesh = mesh_of(sample_solid(), 0.05 * mm);
  ASSERT_TRUE(watertight(mesh));
  const auto points = static_cast<long>(mesh.points_mm.size());
  const auto triangles = static_cast<long>(mesh.triangles.size());
  EXPECT_EQ(points - triangles / 2, 0);
}

TEST(Mesh, DependsOnBodyAndChordAlone) {
  const Solid body = sample_solid();
  const Mesh first = mesh_of(body, 0.05 * mm);
  mesh_of(body, 0.001 * mm);  // a finer one must not stay behind in the body
  const Mesh second = mesh_of(body, 0.05 * mm);
  EXPECT_EQ(first.points_mm, second.points_mm);
  EXPECT_EQ(first.triangles, second.triangles);
}

TEST(Watertight, SeesAMissingATurnedAndADoubledTriangle) {
  Mesh mesh = mesh_of(sample_solid(), 0.1 * mm);
  const auto triangle = mesh.triangles.back();
  mesh.triangles.pop_back();
  EXPECT_FALSE(watertight(mesh));
  mesh.triangles.push_back({triangle[1], triangle[0], triangle[2]});
  EXPECT_FALSE(watertight(mesh));
  mesh.triangles.back() = triangle;
  EXPECT_TRUE(watertight(mesh));
  mesh.triangles.push_back(triangle);
  EXPECT_FALSE(watertight(mesh));
  EXPECT_FALSE(watertight(Mesh{}));
}

}  // namespace
}  // namespace backfit
