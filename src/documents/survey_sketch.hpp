// SPDX-License-Identifier: MIT
// Two sketches, not to scale, that show where the caliper goes on a camera.
#pragma once
#include "documents/sheet.hpp"

namespace backfit::paper {

inline constexpr Length survey_sketch_height = 79 * mm;

// A camera in section on the left and its seat from behind on the right, in a box content_width
// wide with its upper left corner at `corner`.
void draw_survey_sketch(Sheet& sheet, PagePoint corner);

}  // namespace backfit::paper
