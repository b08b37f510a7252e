// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <STEPControl_Reader.hxx>
#include <TopoDS_Shape.hxx>
#include <array>
#include <bit>
#include <cmath>
#include <sstream>

#include "foreign_mesh.hpp"
#include "sample_solid.hpp"
#include "solid/step.hpp"
#include "solid/stl.hpp"
#include "solid/three_mf.hpp"

namespace backfit {
namespace {

using testing::HasSubstr;

const char* const time_stamp = "2001-02-03T04:05:06";

// A foreign reader's idea of a mesh.
struct ReadMesh {
  std::size_t triangles = 0;
  double volume_mm3 = 0;

  template <class Point>
  void add(const Point& a, const Point& b, const Point& c) {
    const auto d = [](auto x) { return static_cast<double>(x); };
    ++triangles;
    volume_mm3 += (d(a[0]) * (d(b[1]) * d(c[2]) - d(b[2]) * d(c[1])) -
                   d(a[1]) * (d(b[0]) * d(c[2]) - d(b[2]) * d(c[0])) +
                   d(a[2]) * (d(b[0]) * d(c[1]) - d(b[1]) * d(c[0]))) /
                  6;
  }
};

// Truth: the kernel's own reader, an implementation of ISO 10303-21 apart from ours.
TEST(StepFile, ReadsBackWithTheSameVolumeInMillimetres) {
  const Solid body = sample_solid();
  std::istringstream file(step_file(body, "sample", time_stamp));
  STEPControl_Reader reader;
  ASSERT_EQ(reader.ReadStream("sample", file), IFSelect_RetDone);
  ASSERT_EQ(reader.TransferRoots(), 1);
  GProp_GProps properties;
  BRepGProp::VolumeProperties(reader.OneShape(), properties);
  const double expected_mm3 = volume_of(body) / mm3;
  EXPECT_NEAR(properties.Mass(), expected_mm3, 1e-9 * expected_mm3);  // 15 decimals in the file
}

TEST(StepFile, SaysWhatItIs) {
  const std::string file =
      step_file(sample_solid(), "Kestrel's plate \xc3\xa9\xf0\x9f\x93\xb7\\", time_stamp);
  const std::string encoded = R"('Kestrel''s plate \X2\00E9\X0\\X4\0001F4F7\X0\\\')";
  EXPECT_THAT(file, HasSubstr("PRODUCT(" + encoded + "," + encoded));
  EXPECT_THAT(file, HasSubstr("FILE_NAME(" + encoded + ",'2001-02-03T04:05:06'"));
  EXPECT_THAT(file, HasSubstr("FILE_SCHEMA(('AUTOMOTIVE_DESIGN"));
  EXPECT_THAT(file, HasSubstr("SI_UNIT(.MILLI.,.METRE.)"));
}

TEST(StepFile, MarksBytesThatAreNotUtf8) {
  EXPECT_THAT(step_file(sample_solid(), "a\xff\xc3", time_stamp),
              HasSubstr(R"(PRODUCT('a\X2\FFFD\X0\\X2\FFFD\X0\')"));
}

TEST(StepFile, IsTheSameWhateverWasExportedBefore) {
  const std::string first = step_file(sample_solid(), "sample", time_stamp);
  step_file(cylinder(3 * mm, 0 * mm, 4 * mm), "other", "1999-01-01T00:00:00");
  mesh_of(sample_solid(), 0.01 * mm);
  EXPECT_EQ(step_file(sample_solid(), "sample", time_stamp), first);
}

TEST(StepFile, PrintsNothing) {
  testing::internal::CaptureStdout();
  step_file(sample_solid(), "sample", time_stamp);
  EXPECT_EQ(testing::internal::GetCapturedStdout(), "");
}

std::uint32_t u32_at(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 4; i-- > 0;) {
    value = value << 8U | static_cast<unsigned char>(bytes[at + i]);
  }
  return value;
}

TEST(StlFile, HoldsTheMesh) {
  const Mesh mesh = mesh_of(sample_solid(), 0.05 * mm);
  const std::string file = stl_file(mesh, "sample");
  EXPECT_THAT(file.substr(0, 80), HasSubstr("sample"));
  EXPECT_NE(file.substr(0, 5), "solid");
  ASSERT_EQ(file.size(), 84 + 50 * mesh.triangles.size());
  ASSERT_EQ(u32_at(file, 80), mesh.triangles.size());
  ReadMesh read;
  for (std::size_t at = 84; at < file.size(); at += 50) {
    std::array<std::array<float, 3>, 4> vectors{};  // normal and corners
    for (std::size_t i = 0; i < 12; ++i) {
      vectors[i / 3][i % 3] = std::bit_cast<float>(u32_at(file, at + 4 * i));
    }
    const auto& [normal, a, b, c] = vectors;
    read.add(a, b, c);
    double along_normal = 0;  // twice the area, when the normal is a unit one and points outward
    double length_squared = 0;
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t j = (i + 1) % 3;
      const std::size_t k = (i + 2) % 3;
      const auto side = [&o = a](const std::array<float, 3>& p, std::size_t axis) {
        return static_cast<double>(p[axis]) - static_cast<double>(o[axis]);
      };
      const double cross = side(b, j) * side(c, k) - side(b, k) * side(c, j);
      along_normal += cross * static_cast<double>(normal[i]);
      length_squared += cross * cross;
    }
    EXPECT_NEAR(along_normal, std::sqrt(length_squared), 1e-6 * along_normal);
  }
  EXPECT_EQ(read.triangles, mesh.triangles.size());
  EXPECT_NEAR(read.volume_mm3, volume_of(mesh) / mm3, 1e-9 * read.volume_mm3);  // same floats
  EXPECT_EQ(file, stl_file(mesh_of(sample_solid(), 0.05 * mm), "sample"));
}

TEST(StlFile, CutsALongNameToTheHeader) {
  const Mesh mesh = mesh_of(cylinder(3 * mm, 0 * mm, 4 * mm), 0.1 * mm);
  EXPECT_EQ(stl_file(mesh, std::string(200, 'x')).size(), 84 + 50 * mesh.triangles.size());
}

// Truth: lib3mf 1.8.1 in strict mode, a reader of the 3MF core specification apart from ours.
TEST(ThreeMfFile, ReadsBackStrictlyWithUnitNamesAndMesh) {
  const Mesh mesh = mesh_of(sample_solid(), 0.05 * mm);
  std::string file =
      three_mf_file(mesh, "Kestrel's \"back\" & <é> plate", "Kestrel: holder on the seat");

  const ForeignMesh read = foreign_mesh(std::move(file), "3mf");
  EXPECT_EQ(read.warnings, 0U);
  EXPECT_EQ(read.unit, static_cast<DWORD>(NMR::MODELUNIT_MILLIMETER));
  EXPECT_EQ(read.title, "Kestrel: holder on the seat");
  EXPECT_EQ(read.objects, 1U);
  EXPECT_EQ(read.name, "Kestrel's \"back\" & <é> plate");
  EXPECT_TRUE(read.manifold);
  EXPECT_EQ(read.points, mesh.points_mm.size());
  EXPECT_EQ(read.triangles, mesh.triangles.size());
  EXPECT_NEAR(read.volume_mm3, volume_of(mesh) / mm3, 1e-9 * read.volume_mm3);  // same floats
  EXPECT_FLOAT_EQ(read.shift[0], 20);  // the sample starts at (-20, -15, 0) mm
  EXPECT_FLOAT_EQ(read.shift[1], 15);
  EXPECT_FLOAT_EQ(read.shift[2], 0);
}

TEST(ThreeMfFile, IsTheSameEachTime) {
  const std::string first = three_mf_file(mesh_of(sample_solid(), 0.05 * mm), "sample", "title");
  three_mf_file(mesh_of(cylinder(3 * mm, 0 * mm, 4 * mm), 0.1 * mm), "other", "other");
  EXPECT_EQ(three_mf_file(mesh_of(sample_solid(), 0.05 * mm), "sample", "title"), first);
}

}  // namespace
}  // namespace backfit
