// SPDX-License-Identifier: MIT
#include "parts/timer_box.hpp"

#include <algorithm>
#include <cassert>
#include <numbers>

#include "parts/printing.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

Length inner_radius(const TimerBox& b) { return std::max(b.corner_radius - b.wall, Length{}); }

// Of the rectangle with its corners rounded.
Area area_of(Length width, Length height, Length radius) {
  return width * height - (4 - std::numbers::pi) * (radius * radius);
}

Area circle(Length diameter) { return std::numbers::pi / 4 * (diameter * diameter); }

std::vector<Solid> four(const TimerBox& b, Length diameter, Length low, Length high) {
  std::vector<Solid> holes;
  for (const double x : {-1.0, 1.0}) {
    for (const double y : {-1.0, 1.0}) {
      holes.push_back(
          translated(cylinder(diameter, low, high), {x * b.screw_x(), y * b.screw_y(), {}}));
    }
  }
  return holes;
}

// The lip is a bar along each side, between the posts.
struct Bars {
  Length thickness, along_x, along_y;  // lengths
};

Bars bars_of(const TimerBox& b) {
  const Length ends = 2 * (b.wall + b.post + b.gap);
  return {b.wall, b.width - ends, b.height - ends};
}

}  // namespace

std::vector<std::vector<OutlineCorner>> outlines_of(const Dial& d) {
  std::vector<std::vector<OutlineCorner>> list;
  for (std::size_t k = 0; k < d.marks.size(); ++k) {
    const double s = sin(d.angle(k)), c = cos(d.angle(k));
    const auto at = [&](Length out, Length right) {
      return OutlineCorner{out * s + right * c, out * c - right * s};
    };
    const Length half = d.lettering.stroke / 2;
    list.push_back({at(d.ticks_from, -half), at(d.ticks_from, half), at(d.ticks_to, half),
                    at(d.ticks_to, -half)});
    const DialWord word = word_of(d, k);
    for (std::vector<OutlineCorner>& stroke : strokes_of(d.marks[k], d.lettering)) {
      for (OutlineCorner& corner : stroke) corner = {word.left + corner.x, word.low + corner.y};
      list.push_back(std::move(stroke));
    }
  }
  return list;
}

Solid tray_of(const TimerBox& b) {
  const Length top = b.wall + b.depth;
  std::vector<Solid> solids{
      difference_of(rounded_prism(b.width, b.height, b.corner_radius, Length{}, top),
                    {rounded_prism(b.width - 2 * b.wall, b.height - 2 * b.wall, inner_radius(b),
                                   b.wall, top + overshoot)})};
  // Posts grow into walls and floor by half.
  const Length half = b.wall / 2;
  for (const double x : {-1.0, 1.0}) {
    for (const double y : {-1.0, 1.0}) {
      const Length near_x = x * (b.screw_x() - b.post / 2), far_x = x * (b.width / 2 - half);
      const Length near_y = y * (b.screw_y() - b.post / 2), far_y = y * (b.height / 2 - half);
      solids.push_back(box({std::min(near_x, far_x), std::min(near_y, far_y), half},
                           {std::max(near_x, far_x), std::max(near_y, far_y), top}));
    }
  }
  std::vector<Solid> cutters = four(b, b.pilot, b.wall, top + overshoot);
  cutters.push_back(box({-b.lead / 2, -b.height / 2 - overshoot, top - b.lip - b.lead},
                        {b.lead / 2, -b.height / 2 + b.wall + overshoot, top + overshoot}));
  return difference_of(union_of(solids), cutters);
}

namespace {

Solid plain_panel(const TimerBox& b) {
  const Bars bars = bars_of(b);
  const Length out_x = b.width / 2 - b.wall - b.gap, out_y = b.height / 2 - b.wall - b.gap;
  const Length low = b.panel / 2, high = b.panel + b.lip;
  std::vector<Solid> solids{rounded_prism(b.width, b.height, b.corner_radius, Length{}, b.panel)};
  for (const double side : {-1.0, 1.0}) {
    const Length y = side * (out_y - bars.thickness / 2), x = side * (out_x - bars.thickness / 2);
    solids.push_back(box({-bars.along_x / 2, y - bars.thickness / 2, low},
                         {bars.along_x / 2, y + bars.thickness / 2, high}));
    solids.push_back(box({x - bars.thickness / 2, -bars.along_y / 2, low},
                         {x + bars.thickness / 2, bars.along_y / 2, high}));
  }
  std::vector<Solid> cutters = four(b, b.through, -overshoot, b.panel + overshoot);
  cutters.push_back(cylinder(b.bush, -overshoot, b.panel + overshoot));
  return difference_of(union_of(solids), cutters);
}

}  // namespace

Solid panel_of(const TimerBox& b) {
  // One who looks at the face sees x go to the left.
  std::vector<std::vector<OutlineCorner>> dial = outlines_of(b.dial);
  for (std::vector<OutlineCorner>& outline : dial) {
    for (OutlineCorner& corner : outline) corner.x = -corner.x;
  }
  return engraved(plain_panel(b), dial, -overshoot, b.dial.engraving);
}

PieceSet set_of(const TimerBox& b, Point3 place) {
  PieceSet set;
  set.name = "timer";
  set.purpose = "The box for the timer's switch and resistors, its dial in the panel.";
  const Solid tray = tray_of(b), plain = plain_panel(b);
  const Length top = b.wall + b.depth;
  using Shown = PieceSize::Shown;
  const Length x = b.width / 2, inside = x - b.wall;
  set.pieces.push_back(
      {"tray",
       {translated(tray, place)},
       tray,
       laid(tray, BedSide::low_z),
       "floor down",
       {{"depth inside", b.depth, {}, Shown{PieceView::front, {x, {}, b.wall}, {x, {}, top}}},
        {"width inside",
         2 * inside,
         {},
         Shown{PieceView::above, {-inside, {}, top}, {inside, {}, top}}},
        {"holes in the posts, diameter", b.pilot}}});
  set.pieces.push_back(
      {"panel",
       {translated(half_turned_about_x(plain), {place.x, place.y, place.z + top + b.panel})},
       plain,
       laid(panel_of(b), BedSide::low_z),
       "dial down",
       {{"hole for the switch's bush", b.bush, 0.1 * mm,
         Shown{PieceView::above, {-b.bush / 2, {}, b.panel}, {b.bush / 2, {}, b.panel}}},
        {"panel without its lip",
         b.panel,
         {},
         Shown{PieceView::front, {x, {}, {}}, {x, {}, b.panel}}},
        {"holes for the screws, diameter", b.through}}});
  for (const double side_x : {-1.0, 1.0}) {
    for (const double side_y : {-1.0, 1.0}) {
      set.screws.push_back({"screw of the timer's panel",
                            {place.x + side_x * b.screw_x(), place.y + side_y * b.screw_y(),
                             place.z + top + b.panel},
                            2 * b.through});
    }
  }
  set.cut = CutPlane{CutPlane::Axis::x, place.x};
  set.apart = {{}, {{}, {}, top}};
  return set;
}

Volume tray_volume(const TimerBox& b) {
  const Length top = b.wall + b.depth;
  const Area inside = area_of(b.width - 2 * b.wall, b.height - 2 * b.wall, inner_radius(b));
  // What a post adds to the rounded corner that it fills.
  const Area post = b.post * b.post -
                    (1 - std::numbers::pi / 4) * (inner_radius(b) * inner_radius(b)) -
                    circle(b.pilot);
  return area_of(b.width, b.height, b.corner_radius) * top - inside * b.depth + 4 * post * b.depth -
         b.lead * b.wall * (b.lip + b.lead);
}

Volume panel_volume(const TimerBox& b) {
  const Bars bars = bars_of(b);
  return (area_of(b.width, b.height, b.corner_radius) - circle(b.bush) - 4 * circle(b.through)) *
             b.panel +
         2 * bars.thickness * (bars.along_x + bars.along_y) * b.lip;
}

}  // namespace backfit
