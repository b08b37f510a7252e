// SPDX-License-Identifier: MIT
// Ears on a plate's edges: a strap hooked over two of them presses a holder on the plate.
#pragma once
#include <string>
#include <vector>

#include "solid/solid.hpp"

namespace backfit {

// All numbers of the ears, which lie in the plane of their plate and print with it. Each is a neck
// that the strap lies round and, behind it, a wider head. In its front face the neck has a recess,
// so that the strap stays behind the plane of the seat.
struct StrapLugs {
  bool at_sides = true;  // on the left and right edges; else on the upper and lower ones
  std::vector<Length>
      at;  // of each one's middle along the edge, from the axis; on both edges alike
  Length neck_width, neck_length;  // along the edge, and out from it
  Length head_width, head_length;
  Length corner_radius;  // of the head's four corners
  Length recess;         // depth

  // At both ends of the recess the neck keeps its whole thickness for this long.
  static constexpr Length step = 0.5 * mm;

  Length out() const { return neck_length + head_length; }
};

// What keeps ears from being made on edges that are straight for `straight` each way from the
// middle, of a plate so thick: one clear sentence each with both numbers. Empty when they can be.
std::vector<std::string> faults(const StrapLugs& lugs, Length straight, Length thickness,
                                Length smallest_wall);

// Corners of the ears on the edge that lies `edge` above the origin, from right to left as they
// follow each other in a counterclockwise outline: x along the edge, y out.
std::vector<OutlineCorner> outline_of(const StrapLugs& lugs, Length edge);

// Recesses of the ears on all edges of a plate with its front face in z = 0; `edge` is half of its
// size across the edges that bear them.
std::vector<Solid> recess_cutters(const StrapLugs& lugs, Length edge);

// Of all ears on both edges, beyond the edges of the plate. By the numbers alone.
Volume volume_of(const StrapLugs& lugs, Length thickness);

}  // namespace backfit
