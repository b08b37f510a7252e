// SPDX-License-Identifier: MIT
#include <BRepCheck_Analyzer.hxx>
#include <BRep_Tool.hxx>
#include <NCollection_IndexedDataMap.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_ShapeMapHasher.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>

#include "solid/kernel_call.hpp"
#include "solid/mesh.hpp"
#include "solid/solid.hpp"

namespace backfit {
namespace {

int count_of(const TopoDS_Shape& shape, TopAbs_ShapeEnum kind) {
  int count = 0;
  for (TopExp_Explorer part(shape, kind); part.More(); part.Next()) {
    ++count;
  }
  return count;
}

// Edges that the faces don't use exactly once forward and once reversed. The seam of a cylinder
// counts both uses in its one face; the point of a cone isn't an edge.
int bad_edge_count(const TopoDS_Shape& shape) {
  struct Uses {
    int forward = 0, reversed = 0;
  };
  NCollection_IndexedDataMap<TopoDS_Shape, Uses, TopTools_ShapeMapHasher> edges;
  for (TopExp_Explorer face(shape, TopAbs_FACE); face.More(); face.Next()) {
    for (TopExp_Explorer edge(face.Current(), TopAbs_EDGE); edge.More(); edge.Next()) {
      if (BRep_Tool::Degenerated(TopoDS::Edge(edge.Current()))) {
        continue;
      }
      Uses& uses = edges(edges.Add(edge.Current(), Uses{}));
      ++(edge.Current().Orientation() == TopAbs_FORWARD ? uses.forward : uses.reversed);
    }
  }
  int bad = 0;
  for (int i = 1; i <= edges.Extent(); ++i) {
    bad += edges(i).forward != 1 || edges(i).reversed != 1 ? 1 : 0;
  }
  return bad;
}

}  // namespace

Soundness soundness_of(const Solid& body) {
  return kernel_call("checking a body", [&] {
    const TopoDS_Shape& shape = body.kernel_shape();
    Soundness report;
    report.valid = BRepCheck_Analyzer(shape).IsValid();
    report.bodies = count_of(shape, TopAbs_SOLID);
    report.cavities = count_of(shape, TopAbs_SHELL) - report.bodies;
    report.bad_edges = bad_edge_count(shape);
    report.watertight = watertight(mesh_of(body, 0.1 * mm));
    report.volume = volume_of(body);
    return report;
  });
}

}  // namespace backfit
