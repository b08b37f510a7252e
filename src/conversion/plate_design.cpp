// SPDX-License-Identifier: MIT
#include "conversion/plate_design.hpp"

#include <algorithm>
#include <cmath>

#include "conversion/strap_design.hpp"

namespace backfit {
namespace {

// Screws of the fence: M3, countersunk from the front, a nut behind; heads as wide as two
// diameters. From memory of the metric screw tables: the owner's own screws decide.
constexpr Length fence_screw = 3 * mm;
constexpr double head_over_thread = 2;
constexpr Length fence_nut_radius = 3.2 * mm;  // corner to corner 6.4 mm
// What the window is larger than the picture, a side, so that it never trims it.
constexpr Length window_margin = 1 * mm;

// The user's own measurement first, the catalogue's next; what is in neither is missing.
std::optional<Length> known(const std::optional<Stated<Measured<Length>>>& own,
                            const std::optional<Cited<Measured<Length>>>& shipped, Assembly& a,
                            std::string_view key, std::string_view how) {
  if (own) return own->value.value;
  if (shipped) {
    if (shipped->doubtful()) a.from_memory.push_back(std::string(how));
    return shipped->value->value;
  }
  a.missing.push_back({"back." + std::string(key), std::string(how)});
  return {};
}

Length in_whole_layers(Length thickness, Length layer) {
  return std::ceil(thickness / layer - 1e-9) * layer;
}

}  // namespace

Length smallest_wall(const Printer& printer) { return 3 * *printer.nozzle; }

bool fits_bed(const FrameSize& part, const Printer& printer) {
  const Length width = *printer.bed_width, depth = *printer.bed_depth;
  return (part.width <= width && part.height <= depth) ||
         (part.width <= depth && part.height <= width);
}

BackPlate::Tongue tongue_in(const SeatGroove& groove, Length gap) {
  return {groove.inner_width->value + 2 * gap, groove.inner_height->value + 2 * gap,
          groove.width->value - 2 * gap,
          groove.inner_corner_radius ? groove.inner_corner_radius->value.value + gap : 0 * mm,
          groove.depth->value - gap};
}

void design_plate(Assembly& a) {
  const BackPlan& back = *a.plan.back;
  const Printer& printer = *a.plan.printer;
  const Holder& holder = *a.holder;
  const Length gap = printer.clearance->value;
  const Length wall = smallest_wall(printer);
  const auto holder_width = known(back.holder_width, holder.outer_width, a, "holder_width",
                                  "outside width of the holder");
  const auto rib_from_centre =
      known(back.rib_from_centre, holder.rib_from_centre, a, "rib_from_centre",
            "centre of the picture to the centre of the holder's locking rib");
  const auto rib_width =
      known(back.rib_width, holder.rib_width, a, "rib_width", "width of the holder's locking rib");
  const auto rib_height = known(back.rib_height, holder.rib_height, a, "rib_height",
                                "height of the holder's locking rib over its face");

  const Seat& seat = *a.camera.seat;
  const Length screw = seat.screw_diameter->value;
  BackPlate p;
  p.screws.hole_diameter = screw + 2 * gap;
  p.screws.head_diameter = head_over_thread * screw + 2 * gap;
  p.fence.hole_diameter = fence_screw + 2 * gap;
  p.fence.head_diameter = head_over_thread * fence_screw + 2 * gap;
  p.rib_groove.depth = rib_height.value_or(0 * mm) + gap;
  const auto sunk = [](Length head, Length hole) { return (head - hole) / 2; };  // 90 degree heads
  const Length strap = back.straps ? strap_recess(*back.straps, gap) : Length{};
  const Length deepest =
      std::max({strap, p.rib_groove.depth, sunk(p.screws.head_diameter, p.screws.hole_diameter),
                sunk(p.fence.head_diameter, p.fence.hole_diameter)});
  a.plate_thickness = back.plate_thickness ? back.plate_thickness->value
                                           : in_whole_layers(deepest + wall, *printer.layer_height);
  if (!holder_width || !rib_from_centre || !rib_width || !rib_height) return;

  // Sure to lie within what the seat allows.
  p.width = seat.width->value - seat.width->half_width;
  p.height = seat.height->value - seat.height->half_width;
  p.corner_radius = seat.corner_radius->value;
  p.thickness = a.plate_thickness;
  p.window_width = a.window.width + 2 * window_margin;
  p.window_height = a.window.height + 2 * window_margin;
  p.tongue = tongue_in(seat.groove, gap);
  for (const ScrewPlace& s : seat.screws) p.screws.places.push_back({s.x->value, s.y->value});

  // Upright the rib lies above the picture, across; lengthways to the right of it, upright.
  const bool upright = *back.way_up == WayUp::upright;
  const Length along = *holder_width + 2 * gap;
  const Length across = *rib_width + 2 * gap;
  p.rib_groove.centre =
      upright ? PlatePoint{0 * mm, *rib_from_centre} : PlatePoint{*rib_from_centre, 0 * mm};
  p.rib_groove.size_x = upright ? along : across;
  p.rib_groove.size_y = upright ? across : along;
  // Two screws a side, a third of the picture's length from its middle, guide the holder's edges.
  const Length beside = *holder_width / 2 + gap + fence_nut_radius;
  const Length third = (upright ? a.window.height : a.window.width) / 3;
  for (const double side : {-1.0, 1.0}) {
    for (const double end : {-1.0, 1.0}) {
      p.fence.places.push_back(upright ? PlatePoint{side * beside, end * third}
                                       : PlatePoint{end * third, side * beside});
    }
  }
  if (back.straps) p.lugs = strap_lugs(*back.straps, upright, third, gap, wall);
  a.plate = p;
}

}  // namespace backfit
