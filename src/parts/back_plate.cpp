// SPDX-License-Identifier: MIT
#include "parts/back_plate.hpp"

#include <cassert>
#include <numbers>

namespace backfit {
namespace {

// Cutters reach past the faces they open, so that no face of a cutter lies in a face of the plate.
constexpr Length overshoot = 1 * mm;
// A countersink widens as it goes on; this is too little to meet a neighbour.
constexpr Length countersink_overshoot = 0.4 * smallest_detail;

bool buildable(const BackPlate& plate) { return faults(plate, smallest_detail).empty(); }

Solid tongue_ring(const BackPlate& plate) {
  const BackPlate::Tongue& tongue = plate.tongue;
  const Length root = plate.thickness / 2;  // ends inside the plate, not in its face
  return rounded_ring(tongue.inner_width, tongue.inner_height, tongue.inner_corner_radius,
                      tongue.wall, -tongue.depth, root);
}

// The outline with its lugs, counterclockwise from the upper right corner.
Solid slab_of(const BackPlate& plate) {
  if (!plate.lugs) {
    return rounded_prism(plate.width, plate.height, plate.corner_radius, Length{}, plate.thickness);
  }
  const StrapLugs& lugs = *plate.lugs;
  const Length x = plate.width / 2, y = plate.height / 2, r = plate.corner_radius;
  // On the right and lower edges, walked the other way, the places change their signs.
  StrapLugs other = lugs;
  for (Length& at : other.at) at = -at;
  const Length edge = lugs.at_sides ? x : y;
  const std::vector<OutlineCorner> ears = outline_of(lugs, edge);
  const std::vector<OutlineCorner> other_ears = outline_of(other, edge);
  using C = OutlineCorner;
  std::vector<C> outline{{x, y, r}};
  if (!lugs.at_sides) outline.insert(outline.end(), ears.begin(), ears.end());
  outline.push_back({-x, y, r});
  if (lugs.at_sides) {
    for (const C& c : ears) outline.push_back({-c.y, c.x, c.radius});
  }
  outline.push_back({-x, -y, r});
  if (!lugs.at_sides) {
    for (const C& c : other_ears) outline.push_back({-c.x, -c.y, c.radius});
  }
  outline.push_back({x, -y, r});
  if (lugs.at_sides) {
    for (const C& c : other_ears) outline.push_back({c.y, -c.x, c.radius});
  }
  return prism(outline, Length{}, plate.thickness);
}

enum class HeadsIn { rear_face, front_face };

void add_hole_cutters(std::vector<Solid>& cutters, const BackPlate::CountersunkHoles& holes,
                      Length thickness, HeadsIn face) {
  if (holes.places.empty()) {
    return;
  }
  const Solid hole = cylinder(holes.hole_diameter, -overshoot, thickness + overshoot);
  const Length tip_diameter = holes.hole_diameter / 2;  // within the hole
  const Length tip_depth = (holes.head_diameter - tip_diameter) / 2;
  const Length wide = holes.head_diameter + 2 * countersink_overshoot;
  const Solid head =
      face == HeadsIn::rear_face
          ? frustum(tip_diameter, thickness - tip_depth, wide, thickness + countersink_overshoot)
          : frustum(wide, -countersink_overshoot, tip_diameter, tip_depth);
  const Solid cutter = union_of({hole, head});
  for (const PlatePoint& place : holes.places) {
    cutters.push_back(translated(cutter, {place.x, place.y, {}}));
  }
}

Solid rib_groove_cutter(const BackPlate& plate) {
  const BackPlate::RibGroove& groove = plate.rib_groove;
  const Length x = groove.size_x / 2;
  const Length y = groove.size_y / 2;
  return box({groove.centre.x - x, groove.centre.y - y, plate.thickness - groove.depth},
             {groove.centre.x + x, groove.centre.y + y, plate.thickness + overshoot});
}

Area rounded_rectangle_area(Length width, Length height, Length corner_radius) {
  return width * height - (4 - std::numbers::pi) * (corner_radius * corner_radius);
}

Area circle_area(Length diameter) { return std::numbers::pi / 4 * (diameter * diameter); }

// Straight holes through `thickness`, each with a 45 degree cone frustum that opens to the head's
// diameter.
Volume holes_volume(const BackPlate::CountersunkHoles& holes, Length thickness) {
  const Length hole = holes.hole_diameter;
  const Length head = holes.head_diameter;
  const Length cone = (head - hole) / 2;
  return static_cast<double>(holes.places.size()) *
         (circle_area(hole) * (thickness - cone) +
          std::numbers::pi / 12 * (head * head + head * hole + hole * hole) * cone);
}

}  // namespace

Solid solid_of(const BackPlate& plate) {
  assert(buildable(plate));
  const Solid slab = slab_of(plate);
  std::vector<Solid> cutters = {rounded_prism(plate.window_width, plate.window_height, Length{},
                                              -overshoot, plate.thickness + overshoot),
                                rib_groove_cutter(plate)};
  add_hole_cutters(cutters, plate.screws, plate.thickness, HeadsIn::rear_face);
  add_hole_cutters(cutters, plate.fence, plate.thickness, HeadsIn::front_face);
  if (plate.lugs) {
    const Length edge = (plate.lugs->at_sides ? plate.width : plate.height) / 2;
    const std::vector<Solid> recesses = recess_cutters(*plate.lugs, edge);
    cutters.insert(cutters.end(), recesses.begin(), recesses.end());
  }
  return difference_of(union_of({slab, tongue_ring(plate)}), cutters);
}

Volume volume_of(const BackPlate& plate) {
  assert(buildable(plate));
  const BackPlate::Tongue& tongue = plate.tongue;
  const Area tongue_area =
      rounded_rectangle_area(tongue.inner_width + 2 * tongue.wall,
                             tongue.inner_height + 2 * tongue.wall,
                             tongue.inner_corner_radius + tongue.wall) -
      rounded_rectangle_area(tongue.inner_width, tongue.inner_height, tongue.inner_corner_radius);
  const Area slab_area = rounded_rectangle_area(plate.width, plate.height, plate.corner_radius) -
                         plate.window_width * plate.window_height;
  const BackPlate::RibGroove& groove = plate.rib_groove;
  const Volume lugs = plate.lugs ? volume_of(*plate.lugs, plate.thickness) : Volume{};
  return slab_area * plate.thickness + lugs + tongue_area * tongue.depth -
         holes_volume(plate.screws, plate.thickness) - holes_volume(plate.fence, plate.thickness) -
         groove.size_x * groove.size_y * groove.depth;
}

}  // namespace backfit
