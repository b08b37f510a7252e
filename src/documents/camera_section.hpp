// SPDX-License-Identifier: MIT
// The converted camera cut through the axis, light from left to right.
#pragma once
#include <string>
#include <vector>

#include "conversion/report.hpp"
#include "documents/drawing.hpp"

namespace backfit::paper {

// Something square to the axis that has a place along it, with what is written beside it.
struct Plane {
  std::string name;
  Length z;
  std::string opening;  // "73.0 × 95.0", "⌀12.9", empty for a mere plane
  Length edge;          // how far from the axis it is drawn
};

// What lies where, from the original film plane, z along the light. Cut from top to bottom; or from
// side to side when openings trim the picture's width and leave its height alone. All edges are
// distances from the axis along the cut.
struct CameraSection {
  // Requires report.assembly.plate.
  explicit CameraSection(const Report& report);

  Along along;  // the axis of the camera that points up on the paper

  Length gate, seat, face, emulsion, septum, holder_back;
  ExitPupil pupil;
  Length old_pupil, nearest_pupil;  // before the conversion at infinity; at full travel forward
  std::vector<Plane> planes;        // nearest the lens first
  Length gate_edge, groove_inner, groove_outer, seat_edge, window_edge, sheet_edge;
  Length body;  // of seat or plate, whichever is larger
  // The opening that trims the picture most along the cut, and where the film sees all, half and
  // none of the pupil through it, never farther out than the holder's window.
  Length narrowest_z, narrowest_edge;
  Length whole, half, none;

  // Half of an opening along the cut.
  Length edge_of(Length width, Length height) const {
    return (along == Along::x ? width : height) / 2;
  }
  // From where to where a screen's parts reach along the cut, on the side that is `up`, 1 or -1.
  std::pair<Length, Length> stretch_of(const Screen& screen, double up) const;
};

// All that is cut and all light, with z to the right. Whatever the survey doesn't give
// (body in front of the seat, outside of holder and lens) is drawn open or as a neighbour.
// Requires report.assembly.plate.
void draw_camera(Sheet& sheet, const View& view, const Report& report,
                 const CameraSection& section);

}  // namespace backfit::paper
