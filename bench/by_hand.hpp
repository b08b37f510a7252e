// SPDX-License-Identifier: MIT
// The geometry kernel called as directly as can be, all lengths in mm: what the program's own room
// for it is measured against.
#pragma once
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCone.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRepTools.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <STEPControl_Writer.hxx>
#include <StepData_Protocol.hxx>
#include <StepData_StepModel.hxx>
#include <StepData_StepWriter.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS.hxx>
#include <cmath>
#include <cstring>
#include <gp_Ax2.hxx>
#include <gp_Circ.hxx>
#include <gp_Trsf.hxx>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

namespace by_hand {

using Shape = TopoDS_Shape;
using Shapes = std::vector<Shape>;

inline Shape box(double x0, double y0, double z0, double x1, double y1, double z1) {
  return BRepPrimAPI_MakeBox(gp_Pnt(std::min(x0, x1), std::min(y0, y1), std::min(z0, z1)),
                             gp_Pnt(std::max(x0, x1), std::max(y0, y1), std::max(z0, z1)))
      .Shape();
}

inline Shape cylinder(const gp_Pnt& from, const gp_Dir& along, double radius, double length) {
  return BRepPrimAPI_MakeCylinder(gp_Ax2(from, along), radius, length).Shape();
}

inline Shape cone(double x, double y, double z, double low, double high, double length) {
  return BRepPrimAPI_MakeCone(gp_Ax2(gp_Pnt(x, y, z), gp_Dir(0, 0, 1)), low, high, length).Shape();
}

inline TopoDS_Wire rectangle(double width, double height, double r, double z) {
  const double x = width / 2, y = height / 2;
  BRepBuilderAPI_MakeWire wire;
  const auto corner = [&](double cx, double cy, double from) {
    if (!(r > 0)) return;
    const gp_Circ circle(gp_Ax2(gp_Pnt(cx, cy, z), gp_Dir(0, 0, 1)), r);
    wire.Add(BRepBuilderAPI_MakeEdge(circle, from, from + std::numbers::pi / 2));
  };
  const double quarter = std::numbers::pi / 2;
  wire.Add(BRepBuilderAPI_MakeEdge(gp_Pnt(x, -y + r, z), gp_Pnt(x, y - r, z)));
  corner(x - r, y - r, 0);
  wire.Add(BRepBuilderAPI_MakeEdge(gp_Pnt(x - r, y, z), gp_Pnt(-x + r, y, z)));
  corner(-x + r, y - r, quarter);
  wire.Add(BRepBuilderAPI_MakeEdge(gp_Pnt(-x, y - r, z), gp_Pnt(-x, -y + r, z)));
  corner(-x + r, -y + r, 2 * quarter);
  wire.Add(BRepBuilderAPI_MakeEdge(gp_Pnt(-x + r, -y, z), gp_Pnt(x - r, -y, z)));
  corner(x - r, -y + r, 3 * quarter);
  return wire.Wire();
}

inline Shape raised(const TopoDS_Face& face, const gp_Vec& by) {
  return BRepPrimAPI_MakePrism(face, by).Shape();
}

inline Shape prism(double width, double height, double r, double low, double high) {
  return raised(BRepBuilderAPI_MakeFace(rectangle(width, height, r, low)).Face(),
                gp_Vec(0, 0, high - low));
}

inline Shape ring(double width, double height, double r, double wall, double low, double high) {
  BRepBuilderAPI_MakeFace face(rectangle(width + 2 * wall, height + 2 * wall, r + wall, low));
  face.Add(TopoDS::Wire(rectangle(width, height, r, low).Reversed()));
  return raised(face.Face(), gp_Vec(0, 0, high - low));
}

// The straight outline through `corners`, counterclockwise against `by`, raised along it.
inline Shape prism(const std::vector<gp_Pnt>& corners, const gp_Vec& by) {
  BRepBuilderAPI_MakePolygon outline;
  for (const gp_Pnt& corner : corners) outline.Add(corner);
  outline.Close();
  return raised(BRepBuilderAPI_MakeFace(outline.Wire()).Face(), by);
}

inline Shape moved(const Shape& shape, double x, double y, double z) {
  gp_Trsf motion;
  motion.SetTranslation(gp_Vec(x, y, z));
  return BRepBuilderAPI_Transform(shape, motion, Standard_True).Shape();
}

template <class Operation>
Shape combined(const Shapes& arguments, const Shapes& tools) {
  TopTools_ListOfShape first, second;
  for (const Shape& s : arguments) first.Append(s);
  for (const Shape& s : tools) second.Append(s);
  Operation operation;
  operation.SetArguments(first);
  operation.SetTools(second);
  operation.SetNonDestructive(Standard_True);
  operation.Build();
  return operation.Shape();
}
inline Shape fused(const Shapes& bodies) {
  return combined<BRepAlgoAPI_Fuse>({bodies.front()}, {bodies.begin() + 1, bodies.end()});
}
inline Shape cut(const Shape& body, const Shapes& cutters) {
  return combined<BRepAlgoAPI_Cut>({body}, cutters);
}

// A hole with a countersunk head, its wide end in the plane `face`, opening towards +z for `way` 1.
inline Shape countersunk(double hole, double head, double low, double high, double face,
                         double way) {
  constexpr double past = 0.004;
  const double tip = hole / 2, depth = (head - tip) / 2, wide = head + 2 * past;
  const Shape cone_of_head = way > 0 ? cone(0, 0, face - depth, tip / 2, wide / 2, depth + past)
                                     : cone(0, 0, face - past, wide / 2, tip / 2, depth + past);
  return fused({cylinder({0, 0, low}, {0, 0, 1}, hole / 2, high - low), cone_of_head});
}

// Binary STL of the shape's faces, each triangle with its normal.
inline std::string stl(const Shape& shape, double chord) {
  BRepTools::Clean(shape);
  const BRepMesh_IncrementalMesh mesher(shape, chord, Standard_False, 0.5, Standard_False);
  std::string bytes(84, ' ');
  std::uint32_t count = 0;
  for (TopExp_Explorer at(shape, TopAbs_FACE); at.More(); at.Next()) {
    TopLoc_Location place;
    const auto triangles = BRep_Tool::Triangulation(TopoDS::Face(at.Current()), place);
    const bool reversed = at.Current().Orientation() == TopAbs_REVERSED;
    for (int t = 1; t <= triangles->NbTriangles(); ++t) {
      int i[3];
      triangles->Triangle(t).Get(i[0], i[1], i[2]);
      if (reversed) std::swap(i[1], i[2]);
      gp_Pnt p[3];
      for (int k = 0; k < 3; ++k) p[k] = triangles->Node(i[k]).Transformed(place.Transformation());
      gp_Vec normal = gp_Vec(p[0], p[1]).Crossed(gp_Vec(p[0], p[2]));
      if (normal.Magnitude() > 0) normal.Normalize();
      float values[12] = {static_cast<float>(normal.X()), static_cast<float>(normal.Y()),
                          static_cast<float>(normal.Z())};
      for (int k = 0; k < 3; ++k) {
        values[3 * k + 3] = static_cast<float>(p[k].X());
        values[3 * k + 4] = static_cast<float>(p[k].Y());
        values[3 * k + 5] = static_cast<float>(p[k].Z());
      }
      char record[50] = {};
      std::memcpy(record, values, sizeof values);
      bytes.append(record, sizeof record);
      ++count;
    }
  }
  std::memcpy(bytes.data() + 80, &count, sizeof count);
  return bytes;
}

inline std::string step(const Shape& shape) {
  STEPControl_Writer writer;
  writer.Transfer(shape, STEPControl_AsIs);
  const Handle(StepData_StepModel) model = writer.Model();
  StepData_StepWriter text(model);
  text.SendModel(Handle(StepData_Protocol)::DownCast(model->Protocol()));
  std::ostringstream stream;
  text.Print(stream);
  return stream.str();
}

}  // namespace by_hand
