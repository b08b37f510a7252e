// SPDX-License-Identifier: MIT
// The adapter of an instant back, and how the back stands on the camera: from the seat, the back's
// mounting and the printer.
#pragma once
#include <string>
#include <vector>

#include "conversion/report.hpp"

namespace backfit {

// Fills in `adapter` and `plate_thickness` of an assembly by an instant back whose mounting, with
// seat, printer and window, is there. The thickness is the plan's, or else the least that leaves a
// smallest wall under every recess, in whole layers.
void design_adapter(Assembly& assembly);

// Something beside the seat that the back runs into.
struct BackMeets {
  const Neighbour* neighbour;
  bool by_picture = false;  // it is the leaving picture that runs into it, not the back
  // How far it must go out of the way, all measurements at their worst; in the way of the picture,
  // how much farther back it reaches than the picture leaves room for.
  Length by;
  CameraWall towards;  // the shortest way; says nothing in the way of the picture
};

// How the instant back stands, seen from behind the camera.
struct MountingStudy {
  Length film_behind_seat;
  CameraWall picture_leaves;  // side of the camera
  // The wide border leads through the rollers, as the paste in it must be spread over the picture.
  // Where it lies on the finished picture, the subject upright.
  CameraWall border;
  std::vector<BackMeets> meets;
};

// Requires an assembly with an adapter.
MountingStudy study_mounting(const Report& report);

}  // namespace backfit
