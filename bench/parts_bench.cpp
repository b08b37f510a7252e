// SPDX-License-Identifier: MIT
// Four parts built, meshed and written, each beside the same kernel calls written by hand. Run with
//   --benchmark_repetitions=15 --benchmark_enable_random_interleaving=true
//   --benchmark_report_aggregates_only=true
// and divide the medians: ours may take 1.1 times the other.
#include <benchmark/benchmark.h>

#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <cmath>
#include <cstdlib>

#include "../tests/parts/sample_adapter.hpp"
#include "../tests/parts/sample_holder.hpp"
#include "../tests/parts/sample_insert.hpp"
#include "../tests/parts/sample_plate.hpp"
#include "by_hand.hpp"
#include "parts/insert_shapes.hpp"
#include "parts/sheet_holder_shapes.hpp"
#include "solid/mesh.hpp"
#include "solid/step.hpp"
#include "solid/stl.hpp"

namespace {

using namespace backfit;
using by_hand::Shape;
using by_hand::Shapes;

constexpr double past = 1;  // of a cutter beyond a face, in mm

void add_holes(Shapes& cutters, const BackPlate::CountersunkHoles& holes, double thickness,
               bool rear) {
  const double face = rear ? thickness : 0;
  const Shape hole = by_hand::countersunk(holes.hole_diameter / mm, holes.head_diameter / mm, -past,
                                          thickness + past, face, rear ? 1 : -1);
  for (const PlatePoint& p : holes.places) {
    cutters.push_back(by_hand::moved(hole, p.x / mm, p.y / mm, 0));
  }
}

Shape back_plate_by_hand() {
  const BackPlate p = sample_plate();
  const double t = p.thickness / mm;
  const auto& g = p.rib_groove;
  const double x = g.centre.x / mm, y = g.centre.y / mm;
  Shapes cutters{by_hand::prism(p.window_width / mm, p.window_height / mm, 0, -past, t + past),
                 by_hand::box(x - g.size_x / mm / 2, y - g.size_y / mm / 2, t - g.depth / mm,
                              x + g.size_x / mm / 2, y + g.size_y / mm / 2, t + past)};
  add_holes(cutters, p.screws, t, true);
  add_holes(cutters, p.fence, t, false);
  const Shape body =
      by_hand::fused({by_hand::prism(p.width / mm, p.height / mm, p.corner_radius / mm, 0, t),
                      by_hand::ring(p.tongue.inner_width / mm, p.tongue.inner_height / mm,
                                    p.tongue.inner_corner_radius / mm, p.tongue.wall / mm,
                                    -p.tongue.depth / mm, t / 2)});
  return by_hand::cut(body, cutters);
}

Shape adapter_by_hand() {
  const AdapterPlate a = sample_adapter();
  const double t = a.thickness / mm;
  const AdapterPlate::Groove& g = *a.groove;
  Shapes cutters{by_hand::prism(a.window_width / mm, a.window_height / mm, 0, -past, t + past)};
  add_holes(cutters, a.seat_screws, t, true);
  add_holes(cutters, a.back_screws, t, false);
  cutters.push_back(by_hand::moved(
      by_hand::ring(g.inner_width / mm, g.inner_height / mm, g.inner_corner_radius / mm,
                    g.width / mm, t - g.depth / mm, t + past),
      a.back_middle.x / mm, a.back_middle.y / mm, 0));
  const Shape body =
      by_hand::fused({by_hand::prism(a.width / mm, a.height / mm, a.corner_radius / mm, 0, t),
                      by_hand::ring(a.tongue.inner_width / mm, a.tongue.inner_height / mm,
                                    a.tongue.inner_corner_radius / mm, a.tongue.wall / mm,
                                    -a.tongue.depth / mm, a.smallest_wall / mm / 2)});
  return by_hand::moved(by_hand::cut(body, cutters), 0, 0, a.rest / mm);
}

Shape frame_by_hand() {
  const SheetHolder h = sample_holder();
  const double frame = h.frame() / mm, front = h.front / mm, top = h.top / mm + past;
  const double picture = h.picture_width / mm / 2, high = h.picture_height / mm / 2;
  const double bay = h.bay() / mm / 2, end = (h.seam() + h.gap) / mm, out = -h.bottom / mm - past;
  const double groove = h.groove() / mm / 2, mouth = h.mouth() / mm / 2;
  const double low = h.seam() / mm - past, stops = h.slide.stops / mm;
  Shapes cutters{by_hand::prism({{-bay, out, -past},
                                 {bay, out, -past},
                                 {bay, end, -past},
                                 {picture, end, -past},
                                 {picture, high, -past},
                                 {-picture, high, -past},
                                 {-picture, end, -past},
                                 {-bay, end, -past}},
                                gp_Vec(0, 0, frame + 2 * past)),
                 by_hand::prism({{-groove, low, front},
                                 {groove, low, front},
                                 {groove, stops, front},
                                 {mouth, stops, front},
                                 {mouth, top, front},
                                 {-mouth, top, front},
                                 {-mouth, stops, front},
                                 {-groove, stops, front}},
                                gp_Vec(0, 0, frame + past - front))};
  for (const Length v : h.felt.at) {
    cutters.push_back(by_hand::box(-h.felt_length() / mm / 2, v / mm,
                                   (h.front - h.felt.pocket) / mm, h.felt_length() / mm / 2,
                                   (v + h.felt.width) / mm, frame));
  }
  const double rib = h.rib_groove() / mm / 2, middle = h.rib.from_middle / mm;
  const double half = h.width / mm / 2;
  cutters.push_back(
      by_hand::box(-half - past, middle - rib, -past, half + past, middle + rib, h.rib.sunk / mm));
  const double axis = (h.seam() - h.pin_radius()) / mm, notch = h.pin_notch() / mm;
  for (const double side : {-1.0, 1.0}) {
    cutters.push_back(by_hand::box(side * (bay - past), axis - notch / 2, frame - notch,
                                   side * (bay + h.flap.pin_in_arm / mm), axis + notch / 2,
                                   frame + past));
  }
  const Shape screw =
      by_hand::countersunk(h.screw_hole() / mm, h.screw_head() / mm, -past, frame + past, 0, -1);
  const double u = h.screw_u() / mm;
  for (const Length v : h.screws.left) cutters.push_back(by_hand::moved(screw, -u, v / mm, 0));
  for (const Length v : h.screws.right) cutters.push_back(by_hand::moved(screw, u, v / mm, 0));
  return by_hand::cut(by_hand::box(-half, -h.bottom / mm, 0, half, h.top / mm, frame), cutters);
}

// One end wall of the insert; its outline in x and z runs with the clock at one end and against it
// at the other.
Shape end_wall_by_hand(const RollInsert& i, double end) {
  const double outside = i.half_length() / mm, inside = i.body.half_length / mm;
  const double rim = std::min(inside, outside - i.rim() / mm);
  const double front = i.body.front / mm, back = i.body.back / mm;
  const double under = back - (i.trap.depth + i.gap + i.smallest_wall) / mm;
  const double y = end * (i.body.half_width / mm + past);
  return by_hand::prism({{end * outside, y, front},
                         {end * outside, y, back},
                         {end * rim, y, back},
                         {end * rim, y, under},
                         {end * inside, y, under - (inside - rim)},
                         {end * inside, y, front}},
                        gp_Vec(0, -2 * y, 0));
}

// The rails, both upper corners rounded.
Shape rails_by_hand(const RollInsert& i) {
  const RollInsert::Gate& g = i.gate;
  const double y = g.spigot_half_width / mm, front = g.front / mm;
  const double low = g.rails_low / mm, high = g.rails_high / mm;
  const double r = g.radius_low / mm, s = g.radius_high / mm;
  const auto edge = [](const gp_Pnt& a, const gp_Pnt& b) { return BRepBuilderAPI_MakeEdge(a, b); };
  const gp_Dir towards(0, -1, 0);
  const gp_Circ at_low(gp_Ax2({low + r, y, -r}, towards), r);
  const gp_Circ at_high(gp_Ax2({high - s, y, -s}, towards), s);
  BRepBuilderAPI_MakeWire wire;
  wire.Add(BRepBuilderAPI_MakeEdge(at_low, gp_Pnt(low + r, y, 0), gp_Pnt(low, y, -r)));
  wire.Add(edge({low, y, -r}, {low, y, front}));
  wire.Add(edge({low, y, front}, {high, y, front}));
  wire.Add(edge({high, y, front}, {high, y, -s}));
  wire.Add(BRepBuilderAPI_MakeEdge(at_high, gp_Pnt(high, y, -s), gp_Pnt(high - s, y, 0)));
  wire.Add(edge({high - s, y, 0}, {low + r, y, 0}));
  return by_hand::raised(BRepBuilderAPI_MakeFace(wire.Wire()).Face(), gp_Vec(0, -2 * y, 0));
}

Shape insert_by_hand() {
  const RollInsert i = sample_insert();
  const RollInsert::Body& b = i.body;
  const RollInsert::Gate& g = i.gate;
  const RollInsert::Spools& s = i.spools;
  const double long_half = i.half_length() / mm, wide_half = i.half_width() / mm;
  const double inner = b.half_width / mm, front = b.front / mm, back = b.back / mm;
  const double boss = i.boss() / mm, x = i.screws.x / mm, drop = i.ear_drop() / mm;
  Shapes bodies;
  for (const double side : {-1.0, 1.0}) {
    bodies.push_back(
        by_hand::box(-long_half, side * inner, front, long_half, side * wide_half, back));
    bodies.push_back(end_wall_by_hand(i, side));
    bodies.push_back(by_hand::box(x - boss / 2, side * (wide_half - past), front, x + boss / 2,
                                  side * (wide_half + boss), back - drop));
  }
  const double along = g.spigot_half_length / mm, across = g.spigot_half_width / mm;
  bodies.push_back(by_hand::box(-along, -across, g.front / mm, along, across, g.floor / mm));
  bodies.push_back(rails_by_hand(i));
  for (const double side : {-1.0, 1.0}) {
    bodies.push_back(by_hand::box(-along, side * inner, g.front / mm, along, side * across,
                                  std::max(front, g.floor / mm) + past));
    const double plate = i.plate.half_length / mm;
    bodies.push_back(by_hand::box(-plate, side * (inner - i.smallest_wall / mm), g.front / mm / 2,
                                  plate, side * (inner + past), g.seat / mm));
  }
  const double wall = (i.trap.lip + 2 * i.gap) / mm, inset = i.smallest_wall / mm;
  Shapes cutters{
      by_hand::box(-g.frame_length / mm / 2, -g.frame_width / mm / 2, g.front / mm - past,
                   g.frame_length / mm / 2, g.frame_width / mm / 2, past),
      by_hand::ring(2 * (long_half - inset - wall), 2 * (wide_half - inset - wall), 0, wall,
                    back - (i.trap.depth + i.gap) / mm, back + past)};
  const double in = s.play / mm - past, out = (s.play + b.cheek) / mm, end = s.length / mm / 2;
  for (const SectionPoint at : {s.supply, s.take_up}) {
    for (const double side : {-1.0, 1.0}) {
      const double ax = at.x / mm, az = at.z / mm;
      const gp_Dir outwards(0, side, 0);
      cutters.push_back(by_hand::fused(
          {by_hand::cylinder({ax, side * (end + in), az}, outwards, (s.journal / 2 + i.gap) / mm,
                             out + past - in),
           by_hand::cylinder({ax, side * (end + out - s.collar_depth / mm), az}, outwards,
                             (s.collar / 2 + i.gap) / mm, s.collar_depth / mm + past)}));
    }
  }
  const double deep = wide_half - i.smallest_wall / mm, knob = i.knob.side;
  for (const RollInsert::Roller& r : i.rollers) {
    cutters.push_back(by_hand::cylinder({r.centre.x / mm, -knob * deep, r.centre.z / mm},
                                        {0, knob, 0}, (i.rod / 2 + i.gap) / mm,
                                        deep + wide_half + past));
  }
  cutters.push_back(
      by_hand::cylinder({s.pad_at.x / mm, -knob * (inner - past / 2), s.pad_at.z / mm},
                        {0, -knob, 0}, s.pad / mm / 2, s.pad_depth / mm + past / 2));
  for (const Length ear : i.plate.ears) {
    for (const double side : {-1.0, 1.0}) {
      const double half = i.plate.ear_width / mm / 2;
      cutters.push_back(by_hand::box(ear / mm - half, side * (inner - 0.2), (g.seat - i.gap) / mm,
                                     ear / mm + half, side * (inner + i.ear_groove() / mm),
                                     back + past));
    }
  }
  for (const double side : {-1.0, 1.0}) {
    cutters.push_back(
        by_hand::cylinder({x, side * (wide_half + boss / 2), back - drop - i.screws.length / mm},
                          {0, 0, 1}, i.pilot() / mm / 2, i.screws.length / mm + past));
  }
  for (const RollInsert::Notch& n : i.notches) {
    cutters.push_back(by_hand::box(n.low.x / mm, n.low.y / mm, n.low.z / mm, n.high.x / mm,
                                   n.high.y / mm, n.high.z / mm));
  }
  return by_hand::cut(by_hand::fused(bodies), cutters);
}

// The same volume, or the two columns compare different things.
void demand_like(const Solid& ours, const Shape& other) {
  GProp_GProps properties;
  BRepGProp::VolumeProperties(other, properties);
  if (std::abs(properties.Mass() * mm3 / volume_of(ours) - 1) > 1e-9) std::abort();
}

struct BackPlateCase {
  static Solid ours() { return solid_of(sample_plate()); }
  static Shape other() { return back_plate_by_hand(); }
};
struct AdapterCase {
  static Solid ours() { return solid_of(sample_adapter()); }
  static Shape other() { return adapter_by_hand(); }
};
struct FrameCase {
  static Solid ours() { return frame_of(sample_holder()); }
  static Shape other() { return frame_by_hand(); }
};

struct InsertCase {
  static Solid ours() { return insert_body(sample_insert()); }
  static Shape other() { return insert_by_hand(); }
};

template <class Case>
void build(benchmark::State& state) {
  demand_like(Case::ours(), Case::other());
  for (auto _ : state) benchmark::DoNotOptimize(Case::ours());
}
template <class Case>
void build_by_hand(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(Case::other());
}

constexpr double chord_mm = 0.01;

template <class Case>
void mesh_and_stl(benchmark::State& state) {
  const Solid body = Case::ours();
  for (auto _ : state) benchmark::DoNotOptimize(stl_file(mesh_of(body, chord_mm * mm), "part"));
}
template <class Case>
void mesh_and_stl_by_hand(benchmark::State& state) {
  const Shape body = Case::other();
  for (auto _ : state) benchmark::DoNotOptimize(by_hand::stl(body, chord_mm));
}

template <class Case>
void step(benchmark::State& state) {
  const Solid body = Case::ours();
  for (auto _ : state) benchmark::DoNotOptimize(step_file(body, "part", "2001-02-03T04:05:06"));
}
template <class Case>
void step_by_hand(benchmark::State& state) {
  step_file(Case::ours(), "part", "2001-02-03T04:05:06");  // quiets the kernel's own printing
  const Shape body = Case::other();
  for (auto _ : state) benchmark::DoNotOptimize(by_hand::step(body));
}

#define BACKFIT_CASE(CASE)                                                       \
  BENCHMARK_TEMPLATE(build, CASE)->Unit(benchmark::kMillisecond);                \
  BENCHMARK_TEMPLATE(build_by_hand, CASE)->Unit(benchmark::kMillisecond);        \
  BENCHMARK_TEMPLATE(mesh_and_stl, CASE)->Unit(benchmark::kMillisecond);         \
  BENCHMARK_TEMPLATE(mesh_and_stl_by_hand, CASE)->Unit(benchmark::kMillisecond); \
  BENCHMARK_TEMPLATE(step, CASE)->Unit(benchmark::kMillisecond);                 \
  BENCHMARK_TEMPLATE(step_by_hand, CASE)->Unit(benchmark::kMillisecond)

BACKFIT_CASE(BackPlateCase);
BACKFIT_CASE(AdapterCase);
BACKFIT_CASE(FrameCase);
BACKFIT_CASE(InsertCase);

}  // namespace
