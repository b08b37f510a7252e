// SPDX-License-Identifier: MIT
// The files of every kind of part, read back by programs apart from ours: meshes by lib3mf, STEP by
// the geometry kernel's reader.
#include <gtest/gtest.h>

#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <STEPControl_Reader.hxx>
#include <TopoDS_Shape.hxx>
#include <cmath>
#include <filesystem>
#include <set>
#include <sstream>

#include "../solid/foreign_mesh.hpp"
#include "conversion/read_conversion.hpp"
#include "documents/made_sets.hpp"
#include "parts/printing.hpp"
#include "sample_extras.hpp"
#include "solid/mesh.hpp"
#include "solid/step.hpp"
#include "solid/stl.hpp"
#include "solid/three_mf.hpp"

namespace backfit {
namespace {

constexpr Length chord = 0.01 * mm;  // as the files that are made

const std::filesystem::path root = BACKFIT_SOURCE_DIR;

Assembly assembly_of(const std::string& file, const Catalogue& catalogue) {
  Diagnostics diagnostics;
  return *assemble(root / "examples" / file, catalogue, diagnostics);
}

double area_mm2(const Mesh& mesh) {
  double twice = 0;
  for (const auto& [a, b, c] : mesh.triangles) {
    const auto side = [&](std::uint32_t to, std::size_t k) {
      return static_cast<double>(mesh.points_mm[to][k]) - static_cast<double>(mesh.points_mm[a][k]);
    };
    twice += std::hypot(side(b, 1) * side(c, 2) - side(b, 2) * side(c, 1),
                        side(b, 2) * side(c, 0) - side(b, 0) * side(c, 2),
                        side(b, 0) * side(c, 1) - side(b, 1) * side(c, 0));
  }
  return twice / 2;
}

// Truths: an independent mesh library's reading, and for STEP the kernel's own reader. Single
// precision rounds each point to 6e-8 of its size; the mesh lies within the chord of the body.
void expect_files_read_back(const std::string& name, const Solid& in_place, const Solid& on_bed) {
  SCOPED_TRACE(name);
  const Mesh mesh = mesh_of(on_bed, chord);
  const double ours = volume_of(mesh) / mm3, exact = volume_of(on_bed) / mm3;

  const ForeignMesh stl = foreign_mesh(stl_file(mesh, name), "stl");
  EXPECT_EQ(stl.objects, 1U);
  EXPECT_TRUE(stl.manifold);
  EXPECT_EQ(stl.triangles, mesh.triangles.size());
  EXPECT_NEAR(stl.volume_mm3 / ours, 1, 1e-6);
  EXPECT_NEAR(stl.volume_mm3, exact, area_mm2(mesh) * (chord / mm) + 1e-6 * exact);

  const ForeignMesh package = foreign_mesh(three_mf_file(mesh, name, "Kestrel to film"), "3mf");
  EXPECT_EQ(package.warnings, 0U);
  EXPECT_EQ(package.unit, static_cast<DWORD>(NMR::MODELUNIT_MILLIMETER));
  EXPECT_EQ(package.name, name);
  EXPECT_EQ(package.title, "Kestrel to film");
  EXPECT_EQ(package.objects, 1U);
  EXPECT_TRUE(package.manifold);
  EXPECT_EQ(package.points, mesh.points_mm.size());
  EXPECT_NEAR(package.volume_mm3 / ours, 1, 1e-9);
  const Bounds b = bounds_of(on_bed);
  const Length low[] = {b.low.x, b.low.y, b.low.z};
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_NEAR(static_cast<double>(package.shift[k]), -low[k] / mm, chord / mm + 1e-4);
  }

  std::istringstream file(step_file(in_place, name, "2001-02-03T04:05:06"));
  STEPControl_Reader reader;
  ASSERT_EQ(reader.ReadStream("part", file), IFSelect_RetDone);
  ASSERT_EQ(reader.TransferRoots(), 1);
  GProp_GProps properties;
  BRepGProp::VolumeProperties(reader.OneShape(), properties);
  EXPECT_NEAR(properties.Mass() / (volume_of(in_place) / mm3), 1, 1e-6);
}

TEST(PartFiles, OfEveryKindReadBackElsewhere) {
  Diagnostics diagnostics;
  const Catalogue catalogue = *read_catalogue(root / "data", diagnostics);
  std::vector<Report> reports;
  Assembly all_small = assembly_of("kestrel/kestrel-4x5.conversion.toml", catalogue);
  ask_for_extras(all_small);
  reports.push_back(report_on(std::move(all_small)));
  for (const char* file :
       {"kestrel/kestrel-4x5-printed.conversion.toml", "kestrel/kestrel-79x79.conversion.toml",
        "kestrel/kestrel-paper.conversion.toml", "kestrel/kestrel-6x6.conversion.toml"}) {
    reports.push_back(report_on(assembly_of(file, catalogue)));
    if (reports.back().assembly.method() == Method::insert) add_insert(reports.back(), catalogue);
  }
  std::set<std::string> kinds;
  std::set<std::string> seen;
  for (const Report& r : reports) {
    const MadeParts parts = made_parts(r);
    if (parts.plate && seen.insert("back plate").second) {
      expect_files_read_back("back plate", *parts.plate, laid_on_rear_face(*parts.plate));
    }
    for (const PieceSet& set : parts.sets) {
      kinds.insert(set.name);
      for (const Piece& p : set.pieces) {
        if (!p.printed() || !seen.insert(set.name + ", " + p.name).second) continue;
        expect_files_read_back(set.name + ", " + p.name, p.in_place.front(), p.on_bed);
      }
    }
  }
  EXPECT_EQ(kinds, (std::set<std::string>{"blank cover", "clearance gauge", "depth gauge",
                                          "focus gauge", "gate mask", "glass frame", "insert",
                                          "instant back adapter", "lens spacer", "pack holder",
                                          "ring for close-up lens", "ring for tele attachment",
                                          "sheet holder", "timer", "window cover"}));
}

}  // namespace
}  // namespace backfit
