// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "parts/adapter_plate.hpp"
#include "parts/fault_list.hpp"
#include "parts/footprint.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Something in the plate, as a fault names it.
struct Feature {
  std::string name;
  Footprint footprint;
};

// A rectangular ring in plan.
struct Ring {
  std::string name;
  Footprint inside, outside;
};

class FaultFinder {
 public:
  explicit FaultFinder(const AdapterPlate& a) : a_(a) {}

  std::vector<PartFault> all() && {
    find_sizes();
    if (list_.clean()) find_corners();  // distances mean something between what has a size
    if (list_.clean()) find_walls();
    if (list_.clean()) find_meetings();
    return std::move(list_).take();
  }

 private:
  void find_sizes() {
    size("the adapter's width", a_.width);
    size("the adapter's height", a_.height);
    size("the adapter's thickness", a_.thickness);
    size("the window's width", a_.window_width);
    size("the window's height", a_.window_height);
    size("the tongue's inner width", a_.tongue.inner_width);
    size("the tongue's inner height", a_.tongue.inner_height);
    size("the tongue's wall", a_.tongue.wall);
    size("the tongue's depth", a_.tongue.depth);
    size("the instant back's width", a_.back_width);
    size("the instant back's height", a_.back_height);
    size("the smallest wall", a_.smallest_wall);
    place("the instant back's middle", a_.back_middle);
    holes("the seat's screw", a_.seat_screws);
    holes("the back's screw", a_.back_screws);
    if (!a_.groove) return;
    size("the groove's inner width", a_.groove->inner_width);
    size("the groove's inner height", a_.groove->inner_height);
    size("the groove's width", a_.groove->width);
    size("the groove's depth", a_.groove->depth);
    if (!a_.loose_tongue) return;
    size("the loose tongue's gap", a_.loose_tongue->gap);
    size("the loose tongue's height", a_.loose_tongue->height);
  }

  void find_corners() {
    corner("the adapter's", a_.corner_radius, a_.width, a_.height);
    corner("the tongue's inner", a_.tongue.inner_corner_radius, a_.tongue.inner_width,
           a_.tongue.inner_height);
    if (a_.groove) {
      corner("the groove's inner", a_.groove->inner_corner_radius, a_.groove->inner_width,
             a_.groove->inner_height);
    }
  }

  void find_walls() {
    const Length wall = a_.smallest_wall;
    list_.need("the adapter's thickness", a_.thickness, wall, "a thicker adapter");
    list_.need("the tongue's wall", a_.tongue.wall, wall,
               "a finer nozzle, or a tighter gap by the gauge");
    heads("the seat's screws", a_.seat_screws);
    heads("the back's screws", a_.back_screws);
    if (!a_.groove) return;
    list_.need("what stays under the groove", a_.thickness - a_.groove->depth, wall,
               "a thicker adapter");
    if (!a_.loose_tongue) return;
    list_.need("the loose tongue's wall", a_.groove->width - 2 * a_.loose_tongue->gap, wall,
               "a finer nozzle, or a tighter gap by the gauge");
    list_.need("what stands out of the loose tongue", a_.loose_tongue->height - a_.groove->depth,
               smallest_detail, "a deeper groove in the back");
  }

  void find_meetings() {
    const Footprint outline = Footprint::rectangle({}, {}, a_.width, a_.height, a_.corner_radius);
    const Footprint back =
        Footprint::rectangle(a_.back_middle.x, a_.back_middle.y, a_.back_width, a_.back_height, {});
    const Footprint window = Footprint::rectangle({}, {}, a_.window_width, a_.window_height, {});
    const BackPlate::Tongue& t = a_.tongue;
    std::vector<Ring> rings{
        ring("the tongue", {}, t.inner_width, t.inner_height, t.inner_corner_radius, t.wall)};
    if (a_.groove) {
      const AdapterPlate::Groove& g = *a_.groove;
      rings.push_back(ring("the groove", a_.back_middle, g.inner_width, g.inner_height,
                           g.inner_corner_radius, g.width));
    }
    for (const Ring& r : rings) {
      list_.need("what stays between the window and " + r.name, room_inside(window, r.inside),
                 a_.smallest_wall, "measure both again");
      list_.need("what stays outside " + r.name, room_inside(r.outside, outline), a_.smallest_wall,
                 "a back that is smaller, or stands nearer the middle of the seat");
    }
    std::vector<Feature> features{{"the window", window}};
    for (const PlatePoint& p : a_.seat_screws.places) {
      Feature head = feature("the seat's screw", p, a_.seat_screws.head_diameter);
      list_.need("what stays between the instant back and " + head.name,
                 gap_between(head.footprint, back), a_.smallest_wall,
                 "no screwdriver gets there: turn the back, or hold the adapter by other screws");
      // Its hole passes the tongue's root, its head sinks beside the groove.
      clear_of(rings[0], feature("the seat's screw", p, a_.seat_screws.hole_diameter));
      if (rings.size() > 1) clear_of(rings[1], head);
      features.push_back(std::move(head));
    }
    for (const PlatePoint& p : a_.back_screws.places) {
      Feature head = feature("the back's screw", p, a_.back_screws.head_diameter);
      clear_of(rings[0], head);
      if (rings.size() > 1)
        clear_of(rings[1], feature("the back's screw", p, a_.back_screws.hole_diameter));
      const Footprint hole = Footprint::circle(p.x, p.y, a_.back_screws.hole_diameter);
      list_.need("what stays of the instant back outside " + head.name, room_inside(hole, back),
                 Length{}, "measure its place from the middle of the back's outline");
      features.push_back(std::move(head));
    }
    for (auto one = features.begin(); one != features.end(); ++one) {
      list_.need("what stays outside " + one->name, room_inside(one->footprint, outline),
                 a_.smallest_wall, "a back that is smaller, or stands nearer the seat's middle");
      for (auto other = std::next(one); other != features.end(); ++other) {
        list_.need("what stays between " + one->name + " and " + other->name,
                   gap_between(one->footprint, other->footprint), a_.smallest_wall,
                   "measure their places");
      }
    }
  }

  static Ring ring(std::string name, PlatePoint middle, Length width, Length height, Length radius,
                   Length wall) {
    Ring r{std::move(name), Footprint::rectangle(middle.x, middle.y, width, height, radius), {}};
    r.outside = r.inside;
    r.outside.radius += wall;
    return r;
  }

  static Feature feature(const std::string& kind, const PlatePoint& p, Length diameter) {
    return {fmt::format("{} at ({}, {}) mm", kind, fixed(p.x / mm, 1), fixed(p.y / mm, 1)),
            Footprint::circle(p.x, p.y, diameter)};
  }

  void clear_of(const Ring& r, const Feature& f) {
    list_.need("what stays between " + r.name + " and " + f.name,
               std::max(gap_between(f.footprint, r.outside), room_inside(f.footprint, r.inside)),
               a_.smallest_wall, "measure both again");
  }

  void size(std::string_view what, Length length) { list_.need_size(what, length); }

  void place(std::string_view what, const PlatePoint& p) {
    // A NaN is a fault.
    list_.need_room(fmt::format("{}, right of the axis,", what), abs(p.x), largest_size,
                    "measure again");
    list_.need_room(fmt::format("{}, above the axis,", what), abs(p.y), largest_size,
                    "measure again");
  }

  void holes(const std::string& kind, const BackPlate::CountersunkHoles& h) {
    if (h.places.empty()) return;
    size(kind + " holes", h.hole_diameter);
    size(kind + " heads", h.head_diameter);
    for (const PlatePoint& p : h.places) place(kind, p);
  }

  void heads(const std::string& kind, const BackPlate::CountersunkHoles& h) {
    if (h.places.empty()) return;
    const Length step = h.head_diameter - h.hole_diameter;
    list_.need("what the heads of " + kind + " are wider than their holes", step,
               2 * smallest_detail, "countersunk screws");
    list_.need("what stays under the heads of " + kind, a_.thickness - step / 2, a_.smallest_wall,
               "a thicker adapter");
  }

  void corner(std::string_view whose, Length radius, Length width, Length height) {
    if (radius == Length{}) return;
    list_.need(fmt::format("{} corner radius", whose), radius, smallest_detail, "square corners");
    list_.need(fmt::format("the straight between {} corners", whose),
               std::min(width, height) / 2 - radius, smallest_detail, "smaller corners");
  }

  const AdapterPlate& a_;
  FaultList list_{"adapter-impossible"};
};

}  // namespace

std::vector<PartFault> faults(const AdapterPlate& adapter) { return FaultFinder(adapter).all(); }

}  // namespace backfit
