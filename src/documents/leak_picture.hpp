// SPDX-License-Identifier: MIT
// The film from behind with the light on it and the first ways there, numbered.
#pragma once
#include "conversion/leak_study.hpp"
#include "documents/sheet.hpp"

namespace backfit::paper {

// What stands in the patches: how long the sun takes until it shows, or by how many stops the light
// is less than outside.
enum class PatchWords { time, stops };

// How high the map comes out when it is content_width wide at most and `room_high` high.
Length light_map_height(Length room_high, const LeakStudy& study);
void draw_light_map(Sheet& sheet, PagePoint corner, Length room_high, PatchWords words,
                    const LeakStudy& study);

}  // namespace backfit::paper
