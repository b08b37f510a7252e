// SPDX-License-Identifier: MIT
// An instant back as its owner measured it, and how it shall stand on the camera.
#pragma once
#include <optional>
#include <vector>

#include "files/fields.hpp"
#include "survey/camera_wall.hpp"

namespace backfit {

// Lengths of a back are measured as it stands upright, the picture as the plan's way_up says, seen
// from behind: x right, y up, from the middle of its outline.
enum class BackStands { upright, inverted };
// Which of the two has the tongue that keeps the light out.
enum class TrapKind { tongue, groove };

// Where a screw holds the instant back.
struct MountingScrew {
  Place place;
  Stated<Measured<Length>> x, y;
};

// The ring around the back's opening that keeps the light out, centred on its outline.
struct MountingTrap {
  Place place;
  Stated<TrapKind> back_has;
  Stated<Measured<Length>> inner_width, inner_height;  // inside its inner edge
  std::optional<Stated<Measured<Length>>> inner_corner_radius;
  Stated<Measured<Length>> width;
  Stated<Measured<Length>> depth;  // of the groove, or how far the tongue stands out
};

struct MountingPlan {
  Place place;
  Stated<BackStands> stands;
  Stated<CameraWall> picture_leaves;                       // side of the back as it stands upright
  Stated<Measured<Length>> width, height;                  // outline of the whole back
  Stated<Measured<Length>> picture_x, picture_y;           // middle of its picture
  Stated<Measured<Length>> opening_width, opening_height;  // in its face, around the picture
  std::optional<MountingTrap> trap;                        // left out: felt between flat faces
  Stated<Measured<Length>> screw_diameter;
  std::vector<MountingScrew> screws;
};

void describe(Fields& fields, MountingScrew& screw);
void describe(Fields& fields, MountingTrap& trap);
void describe(Fields& fields, MountingPlan& mounting);

template <>
std::span<const std::pair<std::string_view, BackStands>> choices_of<BackStands>();
template <>
std::span<const std::pair<std::string_view, TrapKind>> choices_of<TrapKind>();

}  // namespace backfit
