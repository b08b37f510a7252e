// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <Model/COM/NMR_DLLInterfaces.h>
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <STEPControl_Reader.hxx>
#include <TopoDS_Shape.hxx>
#include <array>
#include <bit>
#include <cmath>
#include <cstring>
#include <sstream>

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

// Owns what the 3MF library hands out.
template <class T>
class Held {
 public:
  Held() = default;
  Held(const Held&) = delete;
  Held& operator=(const Held&) = delete;
  ~Held() {
    if (held_ != nullptr) {
      NMR::lib3mf_release(held_);
    }
  }
  T** out() { return &held_; }
  T* operator*() const { return held_; }

 private:
  T* held_ = nullptr;
};

template <class Read>
std::string text_from(const Read& read) {
  char text[200] = {};
  ULONG needed = 0;
  EXPECT_EQ(read(text, ULONG{sizeof text}, &needed), LIB3MF_OK);
  return text;
}

// Truth: lib3mf 1.8.1 in strict mode, a reader of the 3MF core specification apart from ours.
TEST(ThreeMfFile, ReadsBackStrictlyWithUnitNamesAndMesh) {
  const Mesh mesh = mesh_of(sample_solid(), 0.05 * mm);
  std::string file =
      three_mf_file(mesh, "Kestrel's \"back\" & <é> plate", "Kestrel: holder on the seat");

  Held<NMR::PLib3MFModel> model;
  ASSERT_EQ(NMR::lib3mf_createmodel(model.out()), LIB3MF_OK);
  Held<NMR::PLib3MFModelReader> reader;
  ASSERT_EQ(NMR::lib3mf_model_queryreader(*model, "3mf", reader.out()), LIB3MF_OK);
  ASSERT_EQ(NMR::lib3mf_reader_setstrictmodeactive(*reader, true), LIB3MF_OK);
  ASSERT_EQ(
      NMR::lib3mf_reader_readfrombuffer(*reader, reinterpret_cast<BYTE*>(file.data()), file.size()),
      LIB3MF_OK);
  DWORD warnings = 1;
  NMR::lib3mf_reader_getwarningcount(*reader, &warnings);
  EXPECT_EQ(warnings, 0U);
  DWORD unit = 0;
  NMR::lib3mf_model_getunit(*model, &unit);
  EXPECT_EQ(unit, static_cast<DWORD>(NMR::MODELUNIT_MILLIMETER));
  EXPECT_EQ(text_from([&](auto... args) {
              return NMR::lib3mf_model_getmetadatavalueutf8(*model, 0, args...);
            }),
            "Kestrel: holder on the seat");

  Held<NMR::PLib3MFModelResourceIterator> objects;
  ASSERT_EQ(NMR::lib3mf_model_getmeshobjects(*model, objects.out()), LIB3MF_OK);
  BOOL more = 0;
  NMR::lib3mf_resourceiterator_movenext(*objects, &more);
  ASSERT_TRUE(more);
  Held<NMR::PLib3MFModelResource> object;
  ASSERT_EQ(NMR::lib3mf_resourceiterator_getcurrent(*objects, object.out()), LIB3MF_OK);
  EXPECT_EQ(
      text_from([&](auto... args) { return NMR::lib3mf_object_getnameutf8(*object, args...); }),
      "Kestrel's \"back\" & <é> plate");
  BOOL manifold = 0;
  NMR::lib3mf_meshobject_ismanifoldandoriented(*object, &manifold);
  EXPECT_TRUE(manifold);
  DWORD points = 0;
  NMR::lib3mf_meshobject_getvertexcount(*object, &points);
  EXPECT_EQ(points, mesh.points_mm.size());
  DWORD triangles = 0;
  NMR::lib3mf_meshobject_gettrianglecount(*object, &triangles);
  EXPECT_EQ(triangles, mesh.triangles.size());
  ReadMesh read;
  for (DWORD i = 0; i < triangles; ++i) {
    NMR::MODELMESHTRIANGLE triangle;
    NMR::lib3mf_meshobject_gettriangle(*object, i, &triangle);
    std::array<std::array<float, 3>, 3> corners{};
    for (std::size_t j = 0; j < 3; ++j) {
      NMR::MODELMESHVERTEX vertex;
      NMR::lib3mf_meshobject_getvertex(*object, triangle.m_nIndices[j], &vertex);
      std::memcpy(corners[j].data(), vertex.m_fPosition, sizeof vertex.m_fPosition);
    }
    read.add(corners[0], corners[1], corners[2]);
  }
  EXPECT_NEAR(read.volume_mm3, volume_of(mesh) / mm3, 1e-9 * read.volume_mm3);  // same floats

  Held<NMR::PLib3MFModelBuildItemIterator> items;
  ASSERT_EQ(NMR::lib3mf_model_getbuilditems(*model, items.out()), LIB3MF_OK);
  NMR::lib3mf_builditemiterator_movenext(*items, &more);
  ASSERT_TRUE(more);
  Held<NMR::PLib3MFModelBuildItem> item;
  ASSERT_EQ(NMR::lib3mf_builditemiterator_getcurrent(*items, item.out()), LIB3MF_OK);
  NMR::MODELTRANSFORM shift;
  NMR::lib3mf_builditem_getobjecttransform(*item, &shift);
  EXPECT_FLOAT_EQ(shift.m_fFields[0][3], 20);  // the sample starts at (-20, -15, 0) mm
  EXPECT_FLOAT_EQ(shift.m_fFields[1][3], 15);
  EXPECT_FLOAT_EQ(shift.m_fFields[2][3], 0);
}

TEST(ThreeMfFile, IsTheSameEachTime) {
  const std::string first = three_mf_file(mesh_of(sample_solid(), 0.05 * mm), "sample", "title");
  three_mf_file(mesh_of(cylinder(3 * mm, 0 * mm, 4 * mm), 0.1 * mm), "other", "other");
  EXPECT_EQ(three_mf_file(mesh_of(sample_solid(), 0.05 * mm), "sample", "title"), first);
}

}  // namespace
}  // namespace backfit
