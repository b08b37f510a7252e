// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cassert>
#include <iterator>
#include <utility>

#include "parts/back_plate.hpp"
#include "parts/footprint.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Lengths that differ by less count as equal, so that 10.8 - 10.0 makes a wall of 0.8.
constexpr Length rounding = 0.001 * mm;

std::string in_mm(Length length) { return fixed(length / mm, 3) + " mm"; }

std::string in_mm(const PlatePoint& place) {
  return "(" + fixed(place.x / mm, 2) + ", " + fixed(place.y / mm, 2) + ") mm";
}

// A feature that is cut into the plate, as a fault names it.
struct Feature {
  std::string name;
  Footprint footprint;
};

class FaultFinder {
 public:
  FaultFinder(const BackPlate& plate, Length smallest_wall)
      : plate_(plate), smallest_wall_(smallest_wall) {}

  std::vector<std::string> faults() && {
    find_sizes();
    if (faults_.empty()) {  // distances mean something only between things that have a size
      find_corner_radii();
    }
    if (faults_.empty()) {
      find_thin_walls();
      find_near_features();
      if (plate_.lugs) find_lugs(*plate_.lugs);
    }
    return std::move(faults_);
  }

 private:
  void find_sizes() {
    need_size("the plate's width", plate_.width);
    need_size("the plate's height", plate_.height);
    need_size("the plate's thickness", plate_.thickness);
    need_size("the window's width", plate_.window_width);
    need_size("the window's height", plate_.window_height);
    need_size("the tongue's inner width", plate_.tongue.inner_width);
    need_size("the tongue's inner height", plate_.tongue.inner_height);
    need_size("the tongue's wall", plate_.tongue.wall);
    need_size("the tongue's depth", plate_.tongue.depth);
    need_size("the rib groove's size along x", plate_.rib_groove.size_x);
    need_size("the rib groove's size along y", plate_.rib_groove.size_y);
    need_size("the rib groove's depth", plate_.rib_groove.depth);
    need_place("the rib groove", plate_.rib_groove.centre);
    need_hole_sizes("screw", plate_.screws);
    need_hole_sizes("fence", plate_.fence);
  }

  void need_hole_sizes(const std::string& kind, const BackPlate::CountersunkHoles& holes) {
    if (holes.places.empty()) {
      return;
    }
    need_size("the " + kind + " holes' diameter", holes.hole_diameter);
    need_size("the " + kind + " heads' diameter", holes.head_diameter);
    for (const PlatePoint& place : holes.places) {
      need_place("a " + kind + " hole", place);
    }
  }

  void find_corner_radii() {
    need_corner_radius("the plate's", plate_.corner_radius, plate_.width, plate_.height);
    need_corner_radius("the tongue's inner", plate_.tongue.inner_corner_radius,
                       plate_.tongue.inner_width, plate_.tongue.inner_height);
  }

  void find_thin_walls() {
    need_wall("the plate", plate_.thickness);
    need_wall("the tongue's wall", plate_.tongue.wall);
    if (short_of_wall(plate_.thickness)) {
      return;  // then no hole is shallow enough either
    }
    need_floor("the rib groove is ", plate_.rib_groove.depth);
    need_heads("screw", plate_.screws);
    need_heads("fence", plate_.fence);
  }

  void need_heads(const std::string& kind, const BackPlate::CountersunkHoles& holes) {
    if (holes.places.empty()) {
      return;
    }
    const Length step = holes.head_diameter - holes.hole_diameter;
    if (step < 2 * smallest_detail) {
      add("the " + kind + " heads are " + in_mm(holes.head_diameter) + " wide; over holes of " +
          in_mm(holes.hole_diameter) + " they have to be at least " +
          in_mm(holes.hole_diameter + 2 * smallest_detail));
    } else {
      need_floor("the " + kind + " heads sink ", step / 2);
    }
  }

  void find_near_features() {
    const BackPlate::Tongue& tongue = plate_.tongue;
    const Footprint outline =
        Footprint::rectangle({}, {}, plate_.width, plate_.height, plate_.corner_radius);
    const Feature window = {
        "the window", Footprint::rectangle({}, {}, plate_.window_width, plate_.window_height, {})};
    const Footprint tongue_inside = Footprint::rectangle(
        {}, {}, tongue.inner_width, tongue.inner_height, tongue.inner_corner_radius);
    Footprint tongue_outside = tongue_inside;
    tongue_outside.radius += tongue.wall;

    need_gap(window.name, "the tongue", room_inside(window.footprint, tongue_inside));
    need_room("the tongue", room_inside(tongue_outside, outline));

    std::vector<Feature> features = {window};
    for (const PlatePoint& place : plate_.screws.places) {
      const std::string at = " at " + in_mm(place);
      features.push_back({"the screw head" + at,
                          Footprint::circle(place.x, place.y, plate_.screws.head_diameter)});
      need_clear_of_tongue("the screw hole" + at, place, plate_.screws.hole_diameter, tongue_inside,
                           tongue_outside);
    }
    const BackPlate::RibGroove& groove = plate_.rib_groove;
    features.push_back({"the rib groove", Footprint::rectangle(groove.centre.x, groove.centre.y,
                                                               groove.size_x, groove.size_y, {})});
    for (const PlatePoint& place : plate_.fence.places) {
      const std::string name = "the fence head at " + in_mm(place);
      features.push_back({name, Footprint::circle(place.x, place.y, plate_.fence.head_diameter)});
      need_clear_of_tongue(name, place, plate_.fence.head_diameter, tongue_inside, tongue_outside);
    }
    for (auto feature = features.begin(); feature != features.end(); ++feature) {
      need_room(feature->name, room_inside(feature->footprint, outline));
      for (auto other = std::next(feature); other != features.end(); ++other) {
        need_gap(feature->name, other->name, gap_between(feature->footprint, other->footprint));
      }
    }
  }

  void find_lugs(const StrapLugs& lugs) {
    const Length along = (lugs.at_sides ? plate_.height : plate_.width) / 2;
    for (std::string& fault :
         backfit::faults(lugs, along - plate_.corner_radius, plate_.thickness, smallest_wall_)) {
      add(std::move(fault));
    }
    // A strap goes straight across the plate from lug to lug: no fence screw may stand in its way.
    for (const Length at : lugs.at) {
      for (const PlatePoint& place : plate_.fence.places) {
        const Length apart = abs((lugs.at_sides ? place.y : place.x) - at);
        const Length needed = (lugs.head_width + plate_.fence.head_diameter) / 2;
        if (apart >= needed - rounding) continue;
        add("the strap over the lug " + in_mm(at) + " from the middle is " + in_mm(apart) +
            " from the fence screw at " + in_mm(place) + "; it needs " + in_mm(needed));
      }
    }
  }

  void need_clear_of_tongue(const std::string& name, const PlatePoint& place, Length diameter,
                            const Footprint& inside, const Footprint& outside) {
    const Footprint round = Footprint::circle(place.x, place.y, diameter);
    need_gap(name, "the tongue", std::max(gap_between(round, outside), room_inside(round, inside)));
  }

  // The comparisons below are written so that a NaN is a fault.

  void need_size(const std::string& name, Length size) {
    if (!(size >= smallest_detail && size <= largest_size)) {
      add(name + " is " + in_mm(size) + "; it has to lie between " + in_mm(smallest_detail) +
          " and " + in_mm(largest_size));
    }
  }

  void need_place(const std::string& name, const PlatePoint& place) {
    if (!(abs(place.x) <= largest_size && abs(place.y) <= largest_size)) {
      add(name + " is at " + in_mm(place) + "; it has to lie within " + in_mm(largest_size) +
          " of the axis");
    }
  }

  void need_corner_radius(const std::string& whose, Length radius, Length width, Length height) {
    const Length largest = std::min(width, height) / 2 - smallest_detail;
    if (!(radius == Length{} || (radius >= smallest_detail && radius <= largest))) {
      add(whose + " corner radius is " + in_mm(radius) + "; sides of " + in_mm(width) + " and " +
          in_mm(height) + " need 0 or a radius between " + in_mm(smallest_detail) + " and " +
          in_mm(largest));
    }
  }

  void need_wall(const std::string& name, Length wall) {
    if (short_of_wall(wall)) {
      add(name + " is " + in_mm(wall) + " thick; " + wall_needed());
    }
  }

  void need_floor(const std::string& start, Length depth) {
    if (short_of_wall(plate_.thickness - depth)) {
      add(start + in_mm(depth) + " deep in a plate " + in_mm(plate_.thickness) + " thick; " +
          wall_needed());
    }
  }

  void need_gap(const std::string& one, const std::string& other, Length gap) {
    if (!short_of_wall(gap)) {
      return;
    }
    if (gap > rounding) {
      add("only " + in_mm(gap) + " is left between " + one + " and " + other + "; " +
          wall_needed());
    } else if (gap >= -rounding) {
      add(one + " and " + other + " touch, 0.000 mm apart; " + wall_needed());
    } else {
      add(one + " and " + other + " overlap by " + in_mm(-gap) + "; " + wall_needed());
    }
  }

  void need_room(const std::string& name, Length room) {
    if (room < -rounding) {
      add(name + " reaches " + in_mm(-room) + " past the plate's edge; " + wall_needed());
    } else {
      need_gap(name, "the plate's edge", room);
    }
  }

  bool short_of_wall(Length wall) const { return !(wall >= smallest_wall_ - rounding); }
  std::string wall_needed() const { return "the smallest wall is " + in_mm(smallest_wall_); }
  void add(std::string fault) { faults_.push_back(std::move(fault)); }

  const BackPlate& plate_;
  Length smallest_wall_;
  std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> faults(const BackPlate& plate, Length smallest_wall) {
  assert(smallest_wall >= smallest_detail);
  return FaultFinder(plate, smallest_wall).faults();
}

}  // namespace backfit
