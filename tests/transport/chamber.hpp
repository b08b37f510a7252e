// SPDX-License-Identifier: MIT
// A chamber with 120 film in it, for tests and benchmarks: the film `frame` long.
#pragma once
#include "transport/layout.hpp"

namespace backfit {

inline LayoutProblem chamber(Length width, Length behind, Length in_front, Length frame) {
  LayoutProblem p;
  p.room = {{-width / 2, -in_front}, {width / 2, behind}, {}};
  p.spool = {12.55 * mm, 5.9 * mm, 10.9 * mm};
  p.gate = {frame, 2 * mm, 3.2 * mm, 12.5 * mm, 100 * mm, 1.6 * mm};
  p.clear = {0.4 * mm, 0.5 * mm, 0.6 * mm};
  p.strip = {0.23 * mm, 50 * newton * mm2, 0.15};
  p.rules = {5 * mm, 8 * mm, 1.5 * mm, 0.2, 0.3, 2};
  p.brake = 8 * newton_mm;
  p.gate_drag = 1 * newton;
  return p;
}

// The same with a printed body round it: of a 0.4 mm nozzle and a clearance of 0.25 mm.
inline LayoutProblem printed_chamber(Length width, Length behind, Length in_front, Length frame) {
  LayoutProblem p = chamber(width, behind, in_front, frame);
  p.printed = PrintedBody{.rim = 2.5 * mm,
                          .rim_height = 4.45 * mm,
                          .rails = 47.15 * mm,
                          .bore = 7.4 * mm,
                          .rod = 1.75 * mm,
                          .wall = 1.2 * mm,
                          .front = -0.2 * mm,
                          .groove = 3.25 * mm,
                          .hub = 2.95 * mm,
                          .ear = 5 * mm,
                          .screw = 2.7 * mm};
  return p;
}

}  // namespace backfit
