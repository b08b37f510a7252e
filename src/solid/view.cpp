// SPDX-License-Identifier: MIT
#include "solid/view.hpp"

#include <BRepAdaptor_Curve.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepLib.hxx>
#include <GCPnts_TangentialDeflection.hxx>
#include <HLRAlgo_Projector.hxx>
#include <HLRBRep_Algo.hxx>
#include <HLRBRep_HLRToShape.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <cassert>
#include <gp_Ax2.hxx>

#include "solid/kernel_call.hpp"

namespace backfit {
namespace {

// The paper's plane: its normal towards the eye, its x axis to the right.
gp_Ax2 paper_of(View view) {
  const gp_Pnt origin(0, 0, 0);
  switch (view) {
    case View::front:
      return {origin, gp_Dir(0, 0, -1), gp_Dir(-1, 0, 0)};
    case View::rear:
      return {origin, gp_Dir(0, 0, 1), gp_Dir(1, 0, 0)};
    case View::right:
      return {origin, gp_Dir(1, 0, 0), gp_Dir(0, 0, -1)};
    case View::top:
      return {origin, gp_Dir(0, 1, 0), gp_Dir(1, 0, 0)};
    case View::oblique_front:
      return {origin, gp_Dir(-1, 1, -1), gp_Dir(-1, 0, 1)};
    case View::oblique_rear:
      return {origin, gp_Dir(1, 1, 1), gp_Dir(1, 0, -1)};
  }
  assert(false);
  return {};
}

void add_lines(std::vector<ViewLine>& lines, const TopoDS_Shape& flat, bool visible, bool sharp,
               Length chord) {
  if (flat.IsNull()) {
    return;  // no line of this kind
  }
  BRepLib::BuildCurves3d(flat);
  const double widest_angle_rad = 0.5;
  for (TopExp_Explorer edge(flat, TopAbs_EDGE); edge.More(); edge.Next()) {
    const BRepAdaptor_Curve curve(TopoDS::Edge(edge.Current()));
    const GCPnts_TangentialDeflection pieces(curve, widest_angle_rad, chord / mm);
    ViewLine line{{}, visible, sharp};
    for (int i = 1; i <= pieces.NbPoints(); ++i) {
      const gp_Pnt p = pieces.Value(i);
      line.points.push_back({p.X() * mm, p.Y() * mm});
    }
    lines.push_back(std::move(line));
  }
}

}  // namespace

std::vector<ViewLine> lines_of(const Solid& body, View view, Length chord) {
  assert(chord >= 1e-4 * mm && chord <= largest_size);
  return kernel_call("drawing a body", [&] {
    // Smooth edges are marked inside the shape; the shared body must not change.
    const TopoDS_Shape copy =
        BRepBuilderAPI_Copy(body.kernel_shape(), /*copyGeom=*/Standard_False).Shape();
    BRepLib::EncodeRegularity(copy);
    const Handle(HLRBRep_Algo) hidden_lines = new HLRBRep_Algo;
    hidden_lines->Add(copy);
    hidden_lines->Projector(HLRAlgo_Projector(paper_of(view)));
    hidden_lines->Update();
    hidden_lines->Hide();
    HLRBRep_HLRToShape found(hidden_lines);
    std::vector<ViewLine> lines;
    add_lines(lines, found.VCompound(), true, true, chord);
    add_lines(lines, found.OutLineVCompound(), true, true, chord);
    add_lines(lines, found.Rg1LineVCompound(), true, false, chord);
    add_lines(lines, found.HCompound(), false, true, chord);
    add_lines(lines, found.OutLineHCompound(), false, true, chord);
    add_lines(lines, found.Rg1LineHCompound(), false, false, chord);
    return lines;
  });
}

}  // namespace backfit
