// SPDX-License-Identifier: MIT
#include "solid/mesh_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstring>

#include "sample_solid.hpp"
#include "solid/stl.hpp"
#include "solid/three_mf.hpp"
#include "solid/zip.hpp"

namespace backfit {
namespace {

using testing::HasSubstr;

std::vector<NamedMesh> parts(const std::string& bytes) {
  ReadMeshes read = meshes_of(bytes);
  if (const auto* fault = std::get_if<MeshFault>(&read)) {
    ADD_FAILURE() << fault->text;
    return {};
  }
  return std::get<std::vector<NamedMesh>>(read);
}

std::string refusal(const std::string& bytes) {
  ReadMeshes read = meshes_of(bytes);
  const auto* fault = std::get_if<MeshFault>(&read);
  return fault == nullptr ? "" : fault->text;
}

// A cube of edge 2, corner by the axes' signs.
Mesh cube() {
  Mesh m;
  for (int i = 0; i < 8; ++i) {
    m.points_mm.push_back({i & 1 ? 1.0F : -1.0F, i & 2 ? 1.0F : -1.0F, i & 4 ? 1.0F : -1.0F});
  }
  for (const auto& [a, b, c, d] : {std::array<std::uint32_t, 4>{0, 2, 3, 1},
                                   {4, 5, 7, 6},
                                   {0, 1, 5, 4},
                                   {2, 6, 7, 3},
                                   {0, 4, 6, 2},
                                   {1, 3, 7, 5}}) {
    m.triangles.push_back({a, b, c});
    m.triangles.push_back({a, c, d});
  }
  return m;
}

std::string fault(const Mesh& mesh) {
  const auto found = fault_of(NamedMesh{"box", mesh});
  return found ? found->text : "";
}

// Law: what this project writes it reads back, corner by corner, as one whole body.
TEST(MeshFile, ReadsBackWhatIsWritten) {
  const Mesh mesh = mesh_of(sample_solid(), 0.05 * mm);
  const double volume = volume_of(mesh) / mm3;
  const auto from_stl = parts(stl_file(mesh, "solid part"));
  ASSERT_EQ(from_stl.size(), 1U);
  EXPECT_EQ(from_stl[0].mesh.triangles.size(), mesh.triangles.size());
  EXPECT_FALSE(fault_of(from_stl[0]));
  EXPECT_NEAR(volume_of(from_stl[0].mesh) / mm3, volume, 1e-9 * volume);
  const auto from_3mf = parts(three_mf_file(mesh, "lid & <catch>", "title"));
  ASSERT_EQ(from_3mf.size(), 1U);
  EXPECT_EQ(from_3mf[0].name, "lid & <catch>");
  EXPECT_FALSE(fault_of(from_3mf[0]));
  // Shifted into the positive octant, in single precision.
  EXPECT_NEAR(volume_of(from_3mf[0].mesh) / mm3, volume, 1e-5 * volume);
}

TEST(MeshFile, ReadsTextStlOfSeveralSolids) {
  std::string text;
  const Mesh m = cube();
  for (const char* name : {"lower half", "lower half"}) {
    text += std::string("solid ") + name + "\n";
    for (const auto& t : m.triangles) {
      text += "FACET NORMAL nan 0 0\n outer loop\r\n";
      for (const auto i : t) {
        const auto& p = m.points_mm[i];
        text += "  vertex " + std::to_string(p[0]) + " " + std::to_string(p[1]) + "e0 +" +
                std::to_string(p[2] + 1) + "\n";
      }
      text += " endloop\nendfacet\n";
    }
    text += "endsolid\n";
  }
  const auto read = parts(text);
  ASSERT_EQ(read.size(), 2U);
  EXPECT_EQ(read[0].name, "lower half");
  EXPECT_EQ(read[1].name, "lower half 2");
  EXPECT_FALSE(fault_of(read[1]));
  EXPECT_NEAR(volume_of(read[1].mesh) / mm3, 8, 1e-6);
  EXPECT_THAT(refusal(text.substr(0, 300)), HasSubstr("line "));
}

std::string package(const std::string& model) {
  return zip_archive(
      {{"_rels/.rels",
        R"(<Relationships><Relationship Type="http://x/3dmodel" Target="/a.model"/></Relationships>)"},
       {"a.model", model}});
}

std::string cube_xml() {
  std::string xml = "<mesh><vertices>";
  const Mesh m = cube();
  for (const auto& p : m.points_mm) {
    xml += "<vertex x='" + std::to_string(p[0]) + "' y=\"" + std::to_string(p[1]) + "\" z=\"" +
           std::to_string(p[2]) + "\" />";
  }
  xml += "</vertices><triangles>";
  for (const auto& t : m.triangles) {
    xml += "<triangle v1=\"" + std::to_string(t[0]) + "\" v2=\"" + std::to_string(t[1]) +
           "\" v3=\"" + std::to_string(t[2]) + "\"/>";
  }
  return xml + "</triangles></mesh>";
}

// Truth: an inch is 25.4 mm; components and items move, scale and mirror what they use.
TEST(MeshFile, HonoursUnitsComponentsAndTransforms) {
  const auto read = parts(package(
      "<?xml version='1.0'?><!-- a > b --><model unit=\"inch\"><resources><object id=\"3\" "
      "name=\"half\">" +
      cube_xml() +
      "</object><object id=\"7\" name=\"caf&#xe9;\"><components><component objectid=\"3\" "
      "transform=\"2 0 0 0 1 0 0 0 1 10 0 0\"/></components></object></resources><build><item "
      "objectid=\"7\" transform=\"-1 0 0 0 1 0 0 0 1 0 5 0\"/><item objectid=\"3\"/></build>"
      "</model>"));
  ASSERT_EQ(read.size(), 2U);
  EXPECT_EQ(read[0].name, "caf\xc3\xa9");
  EXPECT_FALSE(fault_of(read[0]));  // mirrored, yet not inside out
  const double inch3 = 25.4 * 25.4 * 25.4;
  EXPECT_NEAR(volume_of(read[0].mesh) / mm3, 16 * inch3, 1e-3 * inch3);
  float low = 1e9F, high = -1e9F;
  for (const auto& p : read[0].mesh.points_mm) {
    low = std::min(low, p[0]);
    high = std::max(high, p[0]);
  }
  EXPECT_NEAR(low, -12 * 25.4, 1e-3);
  EXPECT_NEAR(high, -8 * 25.4, 1e-3);
}

// Law: damaged files are refused with a word on what is wrong, never read past their end.
TEST(MeshFile, RefusesDamage) {
  const std::string stl = stl_file(cube(), "cube");
  EXPECT_THAT(refusal(""), HasSubstr("ends after 0 bytes"));
  EXPECT_THAT(refusal(stl.substr(0, 60)), HasSubstr("ends after 60 bytes"));
  EXPECT_THAT(refusal(stl.substr(0, stl.size() - 7)), HasSubstr("says 12 triangles"));
  std::string huge = stl;
  huge.replace(80, 4, "\xff\xff\xff\xff");
  EXPECT_THAT(refusal(huge), HasSubstr("says 4294967295 triangles, but the file ends after 12"));
  std::string nowhere = stl;
  const float nan = std::nanf("");
  std::memcpy(nowhere.data() + std::size_t{84 + 50 * 3 + 12 + 12}, &nan, 4);
  EXPECT_THAT(refusal(nowhere), HasSubstr("corner 2 of triangle 4 lies nowhere"));
  const std::string three_mf = three_mf_file(cube(), "cube", "t");
  for (std::size_t length = 2; length < three_mf.size(); length += 13) {
    EXPECT_NE(refusal(three_mf.substr(0, length)), "") << length;
  }
  std::string flipped = three_mf;
  flipped[three_mf.size() / 2] = static_cast<char>(flipped[three_mf.size() / 2] ^ 1);
  meshes_of(flipped);  // may be harmless, must not crash
  EXPECT_THAT(refusal(package("<model unit=\"mile\"></model>")), HasSubstr("'mile' is no unit"));
  EXPECT_THAT(refusal(package("<model requiredextensions=\"b\"></model>")),
              HasSubstr("the extension 'b'"));
  EXPECT_THAT(refusal(package("<model><build/></model>")), HasSubstr("no build item"));
  EXPECT_THAT(refusal(package("<model><object id=\"1\"><components><component objectid=\"1\"/>"
                              "</components></object></model>")),
              HasSubstr("no object 1 before it"));
  EXPECT_THAT(refusal(package("<model><object id=\"1\"><mesh><vertices><vertex x=\"inf\" y=\"0\" "
                              "z=\"0\"/></vertices></mesh></object></model>")),
              HasSubstr("lies nowhere"));
}

// Law: surfaces that light could pass are refused where they are open.
TEST(MeshFault, SaysWhereASurfaceIsBroken) {
  EXPECT_EQ(fault(cube()), "");
  EXPECT_THAT(fault({}), HasSubstr("has no triangles"));
  Mesh open = cube();
  open.triangles.pop_back();
  EXPECT_THAT(fault(open), HasSubstr("3 edges with a triangle on one side only"));
  EXPECT_THAT(fault(open), HasSubstr("from (1, -1, -1)"));
  Mesh flipped = cube();
  std::swap(flipped.triangles[4][0], flipped.triangles[4][1]);
  EXPECT_THAT(fault(flipped), HasSubstr("3 edges between triangles that face opposite ways"));
  Mesh inside_out = cube();
  for (auto& t : inside_out.triangles) std::swap(t[0], t[1]);
  EXPECT_THAT(fault(inside_out), HasSubstr("inside out"));
  Mesh crowded = cube();
  crowded.points_mm.push_back({5, 5, 5});
  crowded.triangles.push_back({0, 1, 8});
  crowded.triangles.push_back({1, 0, 8});
  EXPECT_THAT(fault(crowded), HasSubstr("more than two triangles"));
  Mesh far = cube();
  for (auto& p : far.points_mm) p[0] += 20000;
  EXPECT_THAT(fault(far), HasSubstr("more than 10 m out"));
}

}  // namespace
}  // namespace backfit
