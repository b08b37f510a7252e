// SPDX-License-Identifier: MIT
// What seams and printed walls about the axis have in common: their sides, where they open, and
// what their faces are like.
#pragma once
#include <array>
#include <string>

#include "conversion/seam_scene.hpp"
#include "optics/light.hpp"
#include "parts/back_plate.hpp"
#include "survey/plan.hpp"

namespace backfit {

// Faces as light meets them. Common practice: matt black paint scatters 3 to 5 %, a smooth black
// print 4 to 6 % and mirrors as plastics do, felt about 1 %, ground bare brass seven tenths.
inline constexpr Wall bare_print{0.05, 1.5}, blackened{0.04, 1}, painted_metal{0.05, 1},
    felt_face{0.01, 1}, bare_metal{0.7, 1};

inline constexpr Length body_wall = 2 * mm;      // of a camera's front, where none was measured
inline constexpr Length felt_width = 5 * mm;     // of a strip along an edge
inline constexpr Length behind_film = 0.2 * mm;  // so that what lies behind isn't in its plane

// Seen from behind.
enum class SeamSide { right, left, above, below };
inline constexpr std::array<SeamSide, 4> seam_sides{SeamSide::right, SeamSide::left,
                                                    SeamSide::above, SeamSide::below};

inline bool is_upright(SeamSide side) { return side == SeamSide::right || side == SeamSide::left; }
inline double sign_of(SeamSide side) {
  return side == SeamSide::right || side == SeamSide::above ? 1 : -1;
}
std::string name_of(SeamSide side);
// Of a size what lies across a seam on that side, and what along it.
inline Length across(SeamSide side, const FrameSize& size) {
  return is_upright(side) ? size.width : size.height;
}
inline Length along(SeamSide side, const FrameSize& size) {
  return is_upright(side) ? size.height : size.width;
}

// As wide as the wider and as high as the higher.
FrameSize larger(const FrameSize& a, const FrameSize& b);

// How far something reaches from the axis to each side.
struct SideReach {
  Length right, left, above, below;
  Length to(SeamSide side) const;
  FrameSize size() const { return {right + left, above + below}; }
};
SideReach reach_of(const FrameSize& size, const PlatePoint& middle = {});
SideReach nearer(const SideReach& a, const SideReach& b);

// Between flat faces that touch somewhere: as far as a printed one may be off.
Length flat_gap(const Printer& printer);

// A seam that opens on that side of a room about the axis, its section's left behind; profile,
// walls and length are left to fill in.
LeakSeam seam_at(SeamSide side, std::string name, const FrameSize& room, Length front, Length rear);

// The way along flat faces, round a tongue in its groove, and along flat faces again.
struct TongueWay {
  Length face;                  // gap of the flat faces
  Length before, after;         // along them
  Length beside, within;        // gaps beside the tongue, outside and inside
  Length wall, tip, depth;      // of the tongue: its thickness, its length; of the groove
  bool groove_on_right = true;  // seen along the way in
};
// Requires a tongue longer than the gap and a groove deeper than it reaches.
GapProfile round_tongue(const TongueWay& way);

// Felt pressed into the first or last arm, which must be longer than nothing: a strip of
// felt_width, or as much of it as the arm takes.
void press_felt(LeakSeam& seam, Length& arm, const Slab& felt);

// A printed wall whose light comes out all along that side of an opening about the axis.
PrintedWall edge_wall(SeamSide side, std::string name, Length thickness, const FrameSize& opening,
                      Length front, Length rear);

}  // namespace backfit
