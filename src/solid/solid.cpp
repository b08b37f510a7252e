// SPDX-License-Identifier: MIT
#include "solid/solid.hpp"

#include <BRepAlgoAPI_Common.hxx>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBndLib.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRepGProp.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCone.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRep_Builder.hxx>
#include <Bnd_Box.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <GProp_GProps.hxx>
#include <Geom_TrimmedCurve.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Shape.hxx>
#include <TopoDS_Wire.hxx>
#include <cassert>
#include <cmath>
#include <gp_Ax2.hxx>
#include <gp_Circ.hxx>
#include <gp_Trsf.hxx>
#include <numbers>

#include "solid/kernel_call.hpp"

namespace backfit {
namespace {

bool makeable(Length size) { return size >= smallest_detail && size <= largest_size; }
bool within_reach(Length coordinate) { return abs(coordinate) <= largest_size; }
bool within_reach(Point3 p) { return within_reach(p.x) && within_reach(p.y) && within_reach(p.z); }

gp_Ax2 z_axis_at(Length z) { return {gp_Pnt(0, 0, z / mm), gp_Dir(0, 0, 1)}; }

// The outline of a rectangle with rounded corners in the plane z, counterclockwise from the lower
// end of its right side.
TopoDS_Wire rounded_rectangle(double width_mm, double height_mm, double radius_mm, double z_mm) {
  const double x = width_mm / 2;
  const double y = height_mm / 2;
  const double r = radius_mm;
  struct Side {
    gp_Pnt from, to, next_corner_centre;
  };
  const Side sides[] = {{{x, -y + r, z_mm}, {x, y - r, z_mm}, {x - r, y - r, z_mm}},
                        {{x - r, y, z_mm}, {-x + r, y, z_mm}, {-x + r, y - r, z_mm}},
                        {{-x, y - r, z_mm}, {-x, -y + r, z_mm}, {-x + r, -y + r, z_mm}},
                        {{-x + r, -y, z_mm}, {x - r, -y, z_mm}, {x - r, -y + r, z_mm}}};
  BRepBuilderAPI_MakeWire wire;
  double start_angle_rad = 0;
  for (const Side& side : sides) {
    wire.Add(BRepBuilderAPI_MakeEdge(side.from, side.to));
    if (r > 0) {
      const gp_Circ corner(gp_Ax2(side.next_corner_centre, gp_Dir(0, 0, 1)), r);
      wire.Add(
          BRepBuilderAPI_MakeEdge(corner, start_angle_rad, start_angle_rad + std::numbers::pi / 2));
    }
    start_angle_rad += std::numbers::pi / 2;
  }
  return wire.Wire();
}

// Where an outline turns: its arc's ends and middle; all the same point at a sharp corner.
struct Bend {
  gp_Pnt begin, middle, end;
  bool round = false;
};

Bend bend_at(const OutlineCorner& before, const OutlineCorner& corner, const OutlineCorner& after,
             double z_mm) {
  const double x = corner.x / mm, y = corner.y / mm, r = corner.radius / mm;
  const gp_Pnt at(x, y, z_mm);
  if (corner.radius == Length{}) return {at, at, at};
  const gp_Vec to_before = gp_Vec(at, gp_Pnt(before.x / mm, before.y / mm, z_mm)).Normalized();
  const gp_Vec to_after = gp_Vec(at, gp_Pnt(after.x / mm, after.y / mm, z_mm)).Normalized();
  const double half = to_before.Angle(to_after) / 2;
  const double cut_back = r / std::tan(half);
  const gp_Vec inwards = (to_before + to_after).Normalized();
  return {at.Translated(cut_back * to_before), at.Translated((r / std::sin(half) - r) * inwards),
          at.Translated(cut_back * to_after), true};
}

TopoDS_Wire outline_through(const std::vector<OutlineCorner>& corners, double z_mm) {
  const std::size_t n = corners.size();
  std::vector<Bend> bends;
  for (std::size_t i = 0; i < n; ++i) {
    bends.push_back(bend_at(corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n], z_mm));
  }
  BRepBuilderAPI_MakeWire wire;
  for (std::size_t i = 0; i < n; ++i) {
    const Bend& bend = bends[i];
    if (bend.round) {
      const Handle(Geom_TrimmedCurve) arc =
          GC_MakeArcOfCircle(bend.begin, bend.middle, bend.end).Value();
      wire.Add(BRepBuilderAPI_MakeEdge(arc));
    }
    wire.Add(BRepBuilderAPI_MakeEdge(bend.end, bends[(i + 1) % n].begin));
  }
  return wire.Wire();
}

bool has_outline(Length width, Length height, Length corner_radius) {
  return makeable(width) && makeable(height) &&
         (corner_radius == Length{} || makeable(corner_radius)) &&
         makeable(width - 2 * corner_radius) && makeable(height - 2 * corner_radius);
}

// The body between `face`, which lies in the plane z = low, and the plane z = high.
Solid raised(const TopoDS_Face& face, Length low, Length high) {
  assert(makeable(high - low) && within_reach(low) && within_reach(high));
  return Solid(BRepPrimAPI_MakePrism(face, gp_Vec(0, 0, (high - low) / mm)).Shape());
}

// A boolean's result; as the body itself, not a group of one, where it is one body.
Solid result_of(BRepAlgoAPI_BooleanOperation& operation, const TopTools_ListOfShape& arguments,
                const TopTools_ListOfShape& tools) {
  operation.SetArguments(arguments);
  operation.SetTools(tools);
  operation.SetNonDestructive(Standard_True);  // other Solids share the arguments
  operation.SetRunParallel(Standard_False);
  operation.SetFuzzyValue(0);
  const Handle(Message_ProgressIndicator) progress = kernel_progress();
  operation.Build(Message_ProgressIndicator::Start(progress));
  stop_if_told();
  if (operation.HasErrors()) {
    throw SolidFailure("combining bodies: the geometry kernel reports an error");
  }
  const TopoDS_Shape& shape = operation.Shape();
  TopExp_Explorer bodies(shape, TopAbs_SOLID);
  if (!bodies.More()) {
    throw SolidFailure("combining bodies: nothing is left");
  }
  const TopoDS_Shape first = bodies.Current();
  bodies.Next();
  return Solid(bodies.More() ? shape : first);
}

Solid transformed(const Solid& body, const gp_Trsf& motion) {
  return kernel_call("moving a body", [&] {
    return Solid(
        BRepBuilderAPI_Transform(body.kernel_shape(), motion, /*theCopyGeom=*/Standard_True)
            .Shape());
  });
}

}  // namespace

Solid::Solid(const TopoDS_Shape& kernel_shape)
    : shape_(std::make_shared<const TopoDS_Shape>(kernel_shape)) {}

Solid box(Point3 low, Point3 high) {
  assert(within_reach(low) && within_reach(high));
  assert(makeable(high.x - low.x) && makeable(high.y - low.y) && makeable(high.z - low.z));
  return kernel_call("making a box", [&] {
    return Solid(BRepPrimAPI_MakeBox(gp_Pnt(low.x / mm, low.y / mm, low.z / mm),
                                     gp_Pnt(high.x / mm, high.y / mm, high.z / mm))
                     .Shape());
  });
}

Solid rounded_prism(Length width, Length height, Length corner_radius, Length low, Length high) {
  assert(has_outline(width, height, corner_radius));
  return kernel_call("making a prism", [&] {
    const TopoDS_Wire outline =
        rounded_rectangle(width / mm, height / mm, corner_radius / mm, low / mm);
    return raised(BRepBuilderAPI_MakeFace(outline).Face(), low, high);
  });
}

Solid rounded_ring(Length inner_width, Length inner_height, Length inner_corner_radius, Length wall,
                   Length low, Length high) {
  assert(has_outline(inner_width, inner_height, inner_corner_radius));
  assert(makeable(wall) && makeable(inner_width + 2 * wall) && makeable(inner_height + 2 * wall));
  return kernel_call("making a ring", [&] {
    BRepBuilderAPI_MakeFace face(rounded_rectangle((inner_width + 2 * wall) / mm,
                                                   (inner_height + 2 * wall) / mm,
                                                   (inner_corner_radius + wall) / mm, low / mm));
    const TopoDS_Wire opening =
        rounded_rectangle(inner_width / mm, inner_height / mm, inner_corner_radius / mm, low / mm);
    face.Add(TopoDS::Wire(opening.Reversed()));
    return raised(face.Face(), low, high);
  });
}

Solid prism(const std::vector<OutlineCorner>& corners, Length low, Length high) {
  assert(corners.size() >= 3);
  for (const OutlineCorner& c : corners) {
    assert(within_reach(c.x) && within_reach(c.y));
    assert(c.radius == Length{} || makeable(c.radius));
  }
  return kernel_call("making a prism", [&] {
    const TopoDS_Wire outline = outline_through(corners, low / mm);
    Solid body = raised(BRepBuilderAPI_MakeFace(outline).Face(), low, high);
    // Clockwise corners give the same body turned inside out.
    if (volume_of(body) > Volume{}) return body;
    return Solid(body.kernel_shape().Reversed());
  });
}

Solid cylinder(Length diameter, Length low, Length high) {
  assert(makeable(diameter) && makeable(high - low));
  assert(within_reach(low) && within_reach(high));
  return kernel_call("making a cylinder", [&] {
    return Solid(
        BRepPrimAPI_MakeCylinder(z_axis_at(low), diameter / mm / 2, (high - low) / mm).Shape());
  });
}

Solid frustum(Length diameter_low, Length low, Length diameter_high, Length high) {
  assert(makeable(diameter_low) && makeable(diameter_high) && makeable(high - low));
  assert(makeable(abs(diameter_high - diameter_low)));
  assert(within_reach(low) && within_reach(high));
  return kernel_call("making a cone", [&] {
    return Solid(BRepPrimAPI_MakeCone(z_axis_at(low), diameter_low / mm / 2, diameter_high / mm / 2,
                                      (high - low) / mm)
                     .Shape());
  });
}

Solid union_of(const std::vector<Solid>& bodies) {
  assert(!bodies.empty());
  if (bodies.size() == 1) {
    return bodies.front();
  }
  return kernel_call("joining bodies", [&] {
    TopTools_ListOfShape first;
    TopTools_ListOfShape others;
    for (const Solid& body : bodies) {
      (first.IsEmpty() ? first : others).Append(body.kernel_shape());
    }
    BRepAlgoAPI_Fuse fuse;
    return result_of(fuse, first, others);
  });
}

Solid difference_of(const Solid& body, const std::vector<Solid>& cutters) {
  if (cutters.empty()) {
    return body;
  }
  return kernel_call("cutting a body", [&] {
    TopTools_ListOfShape bodies;
    bodies.Append(body.kernel_shape());
    TopTools_ListOfShape tools;
    for (const Solid& cutter : cutters) {
      tools.Append(cutter.kernel_shape());
    }
    BRepAlgoAPI_Cut cut;
    return result_of(cut, bodies, tools);
  });
}

Solid own_copy(const Solid& body) {
  return kernel_call("copying a body",
                     [&] { return Solid(BRepBuilderAPI_Copy(body.kernel_shape()).Shape()); });
}

Solid translated(const Solid& body, Point3 by) {
  assert(within_reach(by));
  gp_Trsf motion;
  motion.SetTranslation(gp_Vec(by.x / mm, by.y / mm, by.z / mm));
  return transformed(body, motion);
}

Solid half_turned_about_x(const Solid& body) {
  gp_Trsf motion;
  motion.SetMirror(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 0, 0)));  // axial symmetry: exact, no sines
  return transformed(body, motion);
}

Solid quarter_turned_about_x(const Solid& body) {
  gp_Trsf motion;
  motion.SetValues(1, 0, 0, 0,   //
                   0, 0, -1, 0,  //
                   0, 1, 0, 0);
  return transformed(body, motion);
}

Solid assembled(const std::vector<Solid>& bodies) {
  assert(!bodies.empty());
  return kernel_call("laying bodies together", [&] {
    TopoDS_Compound all;
    const BRep_Builder builder;
    builder.MakeCompound(all);
    for (const Solid& body : bodies) builder.Add(all, body.kernel_shape());
    return Solid(all);
  });
}

Solid quarter_turned_about_y(const Solid& body) {
  gp_Trsf motion;
  motion.SetValues(0, 0, 1, 0,  //
                   0, 1, 0, 0,  //
                   -1, 0, 0, 0);
  return transformed(body, motion);
}

Solid quarter_turned_about_z(const Solid& body) {
  gp_Trsf motion;
  motion.SetValues(0, -1, 0, 0,  //
                   1, 0, 0, 0,   //
                   0, 0, 1, 0);
  return transformed(body, motion);
}

Length distance_between(const Solid& a, const Solid& b) {
  return kernel_call("measuring between bodies", [&] {
    const Handle(Message_ProgressIndicator) progress = kernel_progress();
    const BRepExtrema_DistShapeShape nearest(a.kernel_shape(), b.kernel_shape(),
                                             Extrema_ExtFlag_MINMAX, Extrema_ExtAlgo_Grad,
                                             Message_ProgressIndicator::Start(progress));
    stop_if_told();
    if (!nearest.IsDone()) {
      throw SolidFailure("measuring between bodies: the geometry kernel finds no distance");
    }
    return nearest.InnerSolution() ? Length{} : nearest.Value() * mm;
  });
}

Volume common_volume(const Solid& a, const Solid& b) {
  return kernel_call("comparing bodies", [&] {
    BRepAlgoAPI_Common common;
    TopTools_ListOfShape arguments;
    arguments.Append(a.kernel_shape());
    TopTools_ListOfShape tools;
    tools.Append(b.kernel_shape());
    common.SetArguments(arguments);
    common.SetTools(tools);
    common.SetNonDestructive(Standard_True);
    common.SetRunParallel(Standard_False);
    common.SetFuzzyValue(0);
    const Handle(Message_ProgressIndicator) progress = kernel_progress();
    common.Build(Message_ProgressIndicator::Start(progress));
    stop_if_told();
    if (common.HasErrors()) {
      throw SolidFailure("comparing bodies: the geometry kernel reports an error");
    }
    GProp_GProps properties;
    BRepGProp::VolumeProperties(common.Shape(), properties);
    return properties.Mass() * mm3;
  });
}

Volume volume_of(const Solid& body) {
  return kernel_call("measuring a volume", [&] {
    GProp_GProps properties;
    BRepGProp::VolumeProperties(body.kernel_shape(), properties);
    return properties.Mass() * mm3;
  });
}

Bounds bounds_of(const Solid& body) {
  return kernel_call("measuring a size", [&] {
    Bnd_Box around;
    BRepBndLib::AddOptimal(body.kernel_shape(), around, /*useTriangulation=*/Standard_False,
                           /*useShapeTolerance=*/Standard_False);
    around.SetGap(0);
    const gp_Pnt low = around.CornerMin();
    const gp_Pnt high = around.CornerMax();
    return Bounds{{low.X() * mm, low.Y() * mm, low.Z() * mm},
                  {high.X() * mm, high.Y() * mm, high.Z() * mm}};
  });
}

}  // namespace backfit
