// SPDX-License-Identifier: MIT
// A body drawn as lines on paper, with what is hidden told apart.
#pragma once
#include <vector>

#include "solid/solid.hpp"

namespace backfit {

// Where the eye stands, at infinity; in brackets what points right and up on the paper.
// The camera's axes: x right and y up seen from behind, z from the lens out of the back.
enum class View {
  front,          // at -z, where the lens is (-x, y)
  rear,           // at +z, behind the camera (x, y)
  right,          // at +x (-z, y)
  top,            // at +y (x, -z)
  oblique_front,  // in front, to the right as drawn and above, along (1, -1, 1); y seen upright
  oblique_rear    // behind, to the right and above, along (-1, -1, -1); y seen upright
};

// A place on the paper, y up, the body's origin at (0, 0).
struct PaperPoint {
  Length x, y;
};

// A piece of one edge or silhouette. `sharp` is false where two faces run into each other without
// a kink, as a flat side into its rounded corner; many drawings leave those out.
struct ViewLine {
  std::vector<PaperPoint> points;  // two or more
  bool visible = false;
  bool sharp = false;
};

// The edges and silhouettes of `body` in parallel projection at true size, curves as chords no
// farther than `chord` from them. Hidden pieces may lie under visible ones: draw them first.
// Requires chord in [1e-4 mm, largest_size]. Throws SolidFailure.
std::vector<ViewLine> lines_of(const Solid& body, View view, Length chord);

}  // namespace backfit
