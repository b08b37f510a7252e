// SPDX-License-Identifier: MIT
// Flat outlines for cutters, as files.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "documents/drawing.hpp"

namespace backfit {

// Closed outlines in millimetres, y up, each without its first point repeated; one inside another
// is a hole.
using FlatOutlines = std::vector<std::vector<paper::PartPoint>>;

// As DXF of the generation of R12 (AC1009), which every cutter's program reads: closed polylines on
// one layer named OUTLINE. DXF of that age has no unit: a comment at its head says millimetres.
std::string dxf_file(const FlatOutlines& outlines, std::string_view title);

// As SVG 1.1, true size in millimetres, cut lines as thin strokes, nothing filled.
std::string svg_outline_file(const FlatOutlines& outlines, std::string_view title);

}  // namespace backfit
