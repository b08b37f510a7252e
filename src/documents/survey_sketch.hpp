// SPDX-License-Identifier: MIT
// Two sketches, not to scale, that show where the caliper goes on a camera.
#pragma once
#include <filesystem>
#include <string>
#include <string_view>

#include "documents/sheet.hpp"

namespace backfit::paper {

inline constexpr Length survey_sketch_height = 79 * mm;

// A camera in section on the left and its seat from behind on the right, in a box content_width
// wide with its upper left corner at `corner`. What a letter of `marked` measures is made to stand
// out.
void draw_survey_sketch(Sheet& sheet, PagePoint corner, std::string_view marked = {});

// The same alone, as SVG. Throws as Document does.
std::string survey_sketch_svg(std::string_view marked, const std::filesystem::path& font_folder);

}  // namespace backfit::paper
