// SPDX-License-Identifier: MIT
#include "solid/section.hpp"

#include <BRepAdaptor_Curve.hxx>
#include <BRepAlgoAPI_Section.hxx>
#include <BRepTools_WireExplorer.hxx>
#include <GCPnts_TangentialDeflection.hxx>
#include <ShapeAnalysis_FreeBounds.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_HSequenceOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Wire.hxx>
#include <algorithm>
#include <cassert>
#include <gp_Pln.hxx>

#include "solid/kernel_call.hpp"

namespace backfit {
namespace {

constexpr double joined_mm = 1e-4;  // ends nearer than this are one

std::vector<PaperPoint> points_along(const TopoDS_Wire& wire, Length chord) {
  std::vector<PaperPoint> points;
  for (BRepTools_WireExplorer step(wire); step.More(); step.Next()) {
    const TopoDS_Edge& edge = step.Current();
    const double widest_angle_rad = 0.5;
    const GCPnts_TangentialDeflection pieces(BRepAdaptor_Curve(edge), widest_angle_rad, chord / mm);
    std::vector<PaperPoint> part;
    for (int i = 1; i <= pieces.NbPoints(); ++i) {
      const gp_Pnt p = pieces.Value(i);
      part.push_back({p.X() * mm, p.Y() * mm});
    }
    if (edge.Orientation() == TopAbs_REVERSED) std::ranges::reverse(part);
    part.pop_back();  // the next edge begins there
    points.insert(points.end(), part.begin(), part.end());
  }
  return points;
}

}  // namespace

std::vector<std::vector<PaperPoint>> cut_of(const Solid& body, Length at, Length chord) {
  assert(chord >= 1e-4 * mm && chord <= largest_size);
  return kernel_call("cutting a body", [&] {
    BRepAlgoAPI_Section section(body.kernel_shape(), gp_Pln(0, 0, 1, -at / mm), Standard_False);
    const Handle(Message_ProgressIndicator) progress = kernel_progress();
    section.Build(Message_ProgressIndicator::Start(progress));
    stop_if_told();
    if (section.HasErrors()) {
      throw SolidFailure("cutting a body: the geometry kernel reports an error");
    }
    Handle(TopTools_HSequenceOfShape) edges = new TopTools_HSequenceOfShape;
    for (TopExp_Explorer edge(section.Shape(), TopAbs_EDGE); edge.More(); edge.Next()) {
      edges->Append(edge.Current());
    }
    Handle(TopTools_HSequenceOfShape) wires = new TopTools_HSequenceOfShape;
    ShapeAnalysis_FreeBounds::ConnectEdgesToWires(edges, joined_mm, Standard_False, wires);
    std::vector<std::vector<PaperPoint>> outlines;
    for (int i = 1; i <= wires->Length(); ++i) {
      std::vector<PaperPoint> points = points_along(TopoDS::Wire(wires->Value(i)), chord);
      if (points.size() >= 3) outlines.push_back(std::move(points));
    }
    return outlines;
  });
}

}  // namespace backfit
