// SPDX-License-Identifier: MIT
#include "parts/glass_frame.hpp"

#include <algorithm>
#include <cassert>
#include <numbers>
#include <utility>

#include "parts/printing.hpp"
#include "parts/screws.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Cutters reach past the faces they open, so that no face of a cutter lies in a face of the part.
constexpr Length overshoot = 1 * mm;

// A rectangle about the axis.
Solid block(Length width, Length height, Length low, Length high) {
  return box({-width / 2, -height / 2, low}, {width / 2, height / 2, high});
}

std::vector<Point3> screw_places(const GlassFrame& g, Length w) {
  std::vector<Point3> places;
  for (const double side : {-1.0, 1.0}) {
    for (const double end : {-1.0, 1.0}) {
      places.push_back({side * g.screw_u(), end * g.clips.v, w});
    }
  }
  return places;
}

Solid frame_of(const GlassFrame& g) {
  const Length rib = g.rib_groove() / 2, half = g.width / 2;
  std::vector<Solid> cutters{
      block(g.window_width, g.window_height, -overshoot, g.thickness()),
      block(g.recess_width(), g.recess_height(), g.depth, g.thickness() + overshoot),
      box({-half - overshoot, g.rib.from_middle - rib, -overshoot},
          {half + overshoot, g.rib.from_middle + rib, g.rib.sunk})};
  const Solid pilot =
      cylinder(g.screw_pilot(), g.thickness() - g.pilot_depth(), g.thickness() + overshoot);
  for (const Point3& at : screw_places(g, {})) cutters.push_back(translated(pilot, at));
  return difference_of(box({-half, -g.bottom, {}}, {half, g.top, g.thickness()}), cutters);
}

// At the right edge's upper place, on the glass.
Solid clip_of(const GlassFrame& g) {
  const Length half = g.clips.width / 2;
  return difference_of(
      box({g.clip_from(), -half, {}}, {g.clip_to(), half, g.clips.thickness}),
      {translated(cylinder(g.screw_hole(), -overshoot, g.clips.thickness + overshoot),
                  {g.screw_u(), {}, {}})});
}

Solid rib_of(const GlassFrame& g) {
  return box({-g.width / 2, g.rib.from_middle - g.rib.width / 2, -g.rib.height},
             {g.width / 2, g.rib.from_middle + g.rib.width / 2, g.rib.sunk});
}

Area circle(Length diameter) { return std::numbers::pi / 4 * (diameter * diameter); }

}  // namespace

Volume frame_volume(const GlassFrame& g) {
  assert(faults(g).empty());
  return g.width * (g.top + g.bottom) * g.thickness() - g.window_width * g.window_height * g.depth -
         g.recess_width() * g.recess_height() * (g.thickness() - g.depth) -
         g.width * g.rib_groove() * g.rib.sunk - 4 * circle(g.screw_pilot()) * g.pilot_depth();
}

Volume clip_volume(const GlassFrame& g) {
  assert(faults(g).empty());
  return ((g.clip_to() - g.clip_from()) * g.clips.width - circle(g.screw_hole())) *
         g.clips.thickness;
}

PieceSet set_of(const GlassFrame& g, const HolderPose& pose) {
  assert(faults(g).empty());
  const auto placed = [&](const Solid& body, Length w) {
    Solid turned = body;
    for (int quarter = 0; pose.lengthways && quarter < 3; ++quarter) {
      turned = quarter_turned_about_z(turned);
    }
    return translated(turned, {{}, {}, pose.face + w});
  };
  using Shown = PieceSize::Shown;
  const Length error = 0.1 * mm;  // common practice: what is worth measuring with a caliper
  const auto at = [&](Length u, Length v, Length w) {
    return Point3{u, v - (g.top - g.bottom) / 2, w};
  };
  PieceSet set{"glass frame",
               "Ground glass in the place of a holder, its face nearer the lens " + text(g.depth) +
                   " behind the face that lies on the plate.",
               {}};
  const Solid frame = frame_of(g);
  const Solid frame_lying = laid(frame, BedSide::low_z);
  set.pieces.push_back({"frame",
                        {placed(frame, {})},
                        frame_lying,
                        frame_lying,
                        "face down",
                        {{"face to the glass", g.depth, error,
                          Shown{PieceView::front, at(g.window_width / 2, {}, {}),
                                at(g.window_width / 2, {}, g.depth)}},
                         {"recess for the glass, across", g.recess_width(), error,
                          Shown{PieceView::above, at(-g.recess_width() / 2, {}, {}),
                                at(g.recess_width() / 2, {}, {})}},
                         {"middle of the picture to the rib's groove", g.rib.from_middle, error,
                          Shown{PieceView::above, at(g.width / 2, {}, {}),
                                at(g.width / 2, g.rib.from_middle, {})}}}});
  const Solid clip = clip_of(g);
  const Solid clip_lying = laid(clip, BedSide::low_z);
  std::vector<Solid> clips;
  const Solid other = quarter_turned_about_z(quarter_turned_about_z(clip));  // at the left edge
  for (const double end : {-1.0, 1.0}) {
    for (const Solid* one : {&clip, &other}) {
      clips.push_back(placed(translated(*one, {{}, end * g.clips.v, {}}), g.thickness() + g.press));
    }
  }
  const Length clip_middle = (g.clip_from() + g.clip_to()) / 2;
  set.pieces.push_back({"clip",
                        std::move(clips),
                        clip_lying,
                        clip_lying,
                        "either face down",
                        {{"its end on the glass to the screw", g.screw_u() - g.clip_from(), error,
                          Shown{PieceView::above,
                                {g.clip_from() - clip_middle, {}, {}},
                                {g.screw_u() - clip_middle, {}, {}}}}},
                        true});
  const Solid rib = rib_of(g);
  const Solid rib_lying = laid(rib, BedSide::low_y);
  set.pieces.push_back({"rib", {placed(rib, {})}, rib_lying, rib_lying, "on its side", {}, true});

  set.steps = {
      {"Print and check",
       "The ledge that the glass lies on decides: depth rod from the face, at four corners, " +
           text(g.depth) + ". Cut away what stands above it; a straightedge must not rock on it.",
       {"Printing gives off fumes and fine particles: ventilate, and don't print where somebody "
        "sleeps. The filament's safety data sheet decides."}},
      {"Lay in the glass",
       "Its edges taped, its ground side as the plan has it. It lies on the ledge all round "
       "without force and stands out behind by " +
           text(g.press, 1) + ".",
       {"Glass cuts: tape or stone its edges first, and wear eye protection."}},
      {"Clips and rib",
       "The clips on the glass's edge, their screws just tight: a glass under force cracks. The "
       "rib in its groove, upright to the face.",
       {}},
      {"Measure",
       "Depth rod from the face to the glass at four corners. Write what you find as depth under "
       "[focus.ground_glass] and make this sheet anew: the focus check then counts on it.",
       {}}};
  // Into the frame by all of the pilot but a rest, through clip and press.
  const Length most = g.pilot_depth() + g.press + g.clips.thickness - 0.5 * mm;
  set.bought = {{"ground glass, " + fixed(g.glass_width / mm, 1) + " × " +
                     fixed(g.glass_height / mm, 1) + " × " + text(g.glass_thickness, 1),
                 1},
                {"pan-head screw " + screw_name(g.clips.thread, *screw_on_sale(most)), 4}};
  for (const Solid& clip_in_place : set.pieces[1].in_place) {
    // The clip's hole lies in the middle of its width, the screw's head on its rear face.
    const Bounds b = bounds_of(clip_in_place);
    const Length from_end = g.clip_to() - g.screw_u();
    Point3 head{(b.low.x + b.high.x) / 2, (b.low.y + b.high.y) / 2, b.high.z};
    Length& along = pose.lengthways ? head.y : head.x;
    const Length end = pose.lengthways ? (along > Length{} ? b.high.y : b.low.y)
                                       : (along > Length{} ? b.high.x : b.low.x);
    along = end - (along > Length{} ? from_end : -from_end);
    set.screws.push_back({"clip's screw", head, 2 * g.clips.thread});
  }
  set.cut = CutPlane{pose.lengthways ? CutPlane::Axis::y : CutPlane::Axis::x, {}};
  set.apart = {{}, {{}, {}, 4 * g.thickness()}, {{}, {}, -3 * g.thickness()}};
  return set;
}

}  // namespace backfit
