// SPDX-License-Identifier: MIT
#include "parts/blank_cover.hpp"

#include <cassert>
#include <numbers>

#include "parts/printing.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

Area rounded_area(Length width, Length height, Length radius) {
  return width * height - (4 - std::numbers::pi) * (radius * radius);
}

}  // namespace

Solid solid_of(const BlankCover& c) {
  assert(faults(c).empty());
  const BackPlate::Tongue& t = c.tongue;
  std::vector<Solid> cutters;
  for (const PlatePoint& p : c.screws) {
    cutters.push_back(
        translated(cylinder(c.screw_hole, -overshoot, c.thickness + overshoot), {p.x, p.y, {}}));
  }
  // The tongue's root ends inside the plate, not in its face.
  const Solid body =
      union_of({rounded_prism(c.width, c.height, c.corner_radius, Length{}, c.thickness),
                rounded_ring(t.inner_width, t.inner_height, t.inner_corner_radius, t.wall, -t.depth,
                             c.thickness / 2)});
  return translated(difference_of(body, cutters), {{}, {}, c.rest});
}

Volume volume_of(const BlankCover& c) {
  assert(faults(c).empty());
  const BackPlate::Tongue& t = c.tongue;
  const Area ring = rounded_area(t.inner_width + 2 * t.wall, t.inner_height + 2 * t.wall,
                                 t.inner_corner_radius + t.wall) -
                    rounded_area(t.inner_width, t.inner_height, t.inner_corner_radius);
  return rounded_area(c.width, c.height, c.corner_radius) * c.thickness + ring * t.depth -
         static_cast<double>(c.screws.size()) * std::numbers::pi / 4 *
             (c.screw_hole * c.screw_hole) * c.thickness;
}

PieceSet set_of(const BlankCover& c) {
  PieceSet set;
  set.name = "blank cover";
  set.purpose =
      "Closes the seat without a back: for a test of bellows and shutter for leaks, and for the "
      "shelf.";
  const Solid cover = solid_of(c);
  const Solid on_bed = laid(cover, BedSide::high_z);
  using Shown = PieceSize::Shown;
  const BackPlate::Tongue& t = c.tongue;
  const Length x = t.inner_width / 2 + t.wall, top = c.thickness + t.depth;
  std::vector<PieceSize> sizes{
      {"tongue, width outside", 2 * x, 0.2 * mm,
       Shown{PieceView::front, {-x, {}, top}, {x, {}, top}}},
      {"tongue, wall", t.wall, {}, Shown{PieceView::front, {x - t.wall, {}, top}, {x, {}, top}}},
      {"tongue, depth", t.depth, {}, Shown{PieceView::front, {x, {}, c.thickness}, {x, {}, top}}}};
  if (!c.screws.empty()) sizes.push_back({"screw holes, diameter", c.screw_hole});
  set.pieces.push_back({"cover", {cover}, on_bed, on_bed, "outside down", std::move(sizes)});
  set.steps.push_back({"Blacken the inside",
                       "Matt black inside the tongue. Black yarn in the bottom of the groove.",
                       {"Paint and glue: fresh air, no flame, and the safety data sheet of the one "
                        "you use."}});
  set.steps.push_back(
      {"Screw it on",
       "All screws in: a hole without one leaks. The cover must lie on the seat all round.",
       {}});
  set.steps.push_back(
      {"Test for leaks",
       "In the dark a sheet of photographic paper on the cover's inside, sensitive side to the "
       "lens, held by tape at two corners; cover on, shutter closed. Half an hour in bright "
       "daylight, a quarter of it on each side, the bellows drawn out. Develop the paper: where it "
       "is grey, light came in.",
       {"Never leave a lens pointing at the sun: it burns what stands behind it. Chemistry as its "
        "safety data sheets say; gloves."}});
  for (const PlatePoint& p : c.screws) {
    set.screws.push_back(
        {"screw of the cover", {p.x, p.y, c.rest + c.thickness}, 2 * c.screw_hole, true, true});
  }
  set.cut = CutPlane{CutPlane::Axis::x, Length{}};
  return set;
}

}  // namespace backfit
