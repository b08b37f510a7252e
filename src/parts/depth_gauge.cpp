// SPDX-License-Identifier: MIT
#include "parts/depth_gauge.hpp"

#include <fmt/format.h>

#include <cassert>
#include <numbers>

#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

// Soles on z = 0, the caliper's face at z = thickness, along x.
Solid standing(const DepthGauge& g) {
  const Length x = g.length / 2, y = g.width / 2;
  std::vector<Solid> cutters{
      box({-x + g.foot, -y - overshoot, -overshoot}, {x - g.foot, y + overshoot, g.relief})};
  const Solid hole = cylinder(g.hole, -overshoot, g.thickness + overshoot);
  for (const double place : {-1.0, 0.0, 1.0}) {
    cutters.push_back(translated(hole, {place * g.hole_pitch, {}, {}}));
  }
  return difference_of(box({-x, -y, {}}, {x, y, g.thickness}), cutters);
}

}  // namespace

Solid solid_of(const DepthGauge& g) {
  assert(faults(g).empty());
  Solid bridge = standing(g);
  if (g.upright) bridge = quarter_turned_about_z(bridge);
  if (g.from_front) bridge = half_turned_about_x(bridge);
  return translated(bridge, {{}, {}, g.rest});
}

Volume volume_of(const DepthGauge& g) {
  assert(faults(g).empty());
  return g.length * g.width * g.thickness - (g.length - 2 * g.foot) * g.width * g.relief -
         3 * std::numbers::pi / 4 * (g.hole * g.hole) * (g.thickness - g.relief);
}

PieceSet set_of(const DepthGauge& g) {
  PieceSet set;
  set.name = "depth gauge";
  set.purpose = "Carries a caliper over the opening: its depth rod tells how deep a face lies.";
  const Solid bridge = solid_of(g);
  const Solid on_bed = laid(standing(g), BedSide::high_z);
  using Shown = PieceSize::Shown;
  const Length x = g.length / 2, y = g.width / 2, top = g.thickness;
  std::vector<PieceSize> sizes{
      {"soles to the caliper's face", g.thickness, 0.1 * mm,
       Shown{PieceView::front, {x, -y, {}}, {x, -y, top}}},
      {"foot", g.foot, {}, Shown{PieceView::front, {x - g.foot, -y, top}, {x, -y, top}}},
      {"relief between the feet",
       g.relief,
       {},
       Shown{PieceView::front, {-x + g.foot, -y, top - g.relief}, {-x + g.foot, -y, top}}},
      {"hole for the rod, diameter",
       g.hole,
       {},
       Shown{PieceView::above, {-g.hole / 2, {}, top}, {g.hole / 2, {}, top}}},
      {"outer hole from the middle one",
       g.hole_pitch,
       {},
       Shown{PieceView::above, {{}, {}, top}, {g.hole_pitch, {}, top}}}};
  set.pieces.push_back(
      {"bridge", {bridge}, on_bed, on_bed, "caliper's face down", std::move(sizes)});
  set.steps.push_back(
      {"Measure the bridge",
       fmt::format("Both soles must lie on a sheet of glass without rocking: rub them on fine "
                   "abrasive paper on the glass until they do. Measure its thickness over each "
                   "sole; it is drawn {} thick. Write what you find on it: the rod's readings "
                   "count from there.",
                   text(g.thickness)),
       {"Dust mask while sanding."}});
  std::string readings;
  for (const DepthReading& r : g.readings) {
    readings += fmt::format(" {}: {}.", r.face, text(r.reading));
  }
  set.steps.push_back(
      {"Read the depth",
       fmt::format(
           "Soles on {}, the caliper's end square on the bridge, the rod let down through "
           "each of the three holes without pressing. With a bridge as drawn it should "
           "read:{} Readings that differ from hole to hole tell that the face lies slanted.",
           g.from_front ? "the holder's face" : "the seat", readings),
       {"Don't press the rod on glass, blades or film that you want to keep."}});
  set.cut = CutPlane{g.upright ? CutPlane::Axis::x : CutPlane::Axis::y, Length{}};
  return set;
}

}  // namespace backfit
