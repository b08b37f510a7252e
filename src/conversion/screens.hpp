// SPDX-License-Identifier: MIT
// The outlines of a survey as screens that clip the light.
#pragma once
#include <optional>
#include <string>

#include "files/diagnostic.hpp"
#include "optics/coverage.hpp"
#include "optics/light.hpp"
#include "survey/camera.hpp"

namespace backfit {

struct NamedScreen {
  std::string name;
  Screen screen;
  Place place;
  std::optional<RectangularOpening> rectangle;  // of an opening that is one, centred on the axis
  bool is_old_gate = false;
  // Half the width and height that it leaves open around the axis; what it covers, of an obstacle.
  FrameSize reach() const;
};

// A rectangle centred on the axis.
NamedScreen rectangular_screen(std::string name, const RectangularOpening& opening,
                               const Place& place);

// Requires an outline that check_outlines() finds no fault with.
NamedScreen screen_of(const Outline& outline, bool obstacle);

// Adds an error for each opening and obstacle unless it has exactly one shape: width and height, a
// diameter, or three or more corners, as many x as y, whose sides don't cross; and unless an
// obstacle stands beside the axis and an opening around it.
void check_outlines(const Camera& camera, Diagnostics& diagnostics);

}  // namespace backfit
