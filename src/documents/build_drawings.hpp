// SPDX-License-Identifier: MIT
// The drawings of a build sheet. Each is drawn with its upper left corner at `corner`.
#pragma once
#include "conversion/report.hpp"
#include "documents/document.hpp"
#include "documents/drawing.hpp"
#include "solid/solid.hpp"

namespace backfit::paper {

// Light from left to right through pupil, openings and plate to the film, at 1:2, and beside it the
// upper edge of the planes at 2:1.
inline constexpr Length section_height = 110 * mm;
void draw_section(Sheet& sheet, PagePoint corner, const Report& report);

// Sheet, window, old and new picture and image circle at true size, seen from behind.
Length frame_picture_height(const Report& report);
void draw_frame_picture(Sheet& sheet, PagePoint corner, const Report& report);

// One bar for each line of an uncertainty budget, as long as its share of the variance.
Length budget_height(const std::vector<Contribution>& budget);
void draw_budget(Sheet& sheet, PagePoint corner, const std::vector<Contribution>& budget);

// The plate from behind and from the front at 1:2, dimensioned, from the body's own projections.
// Requires report.assembly.plate.
Length plate_drawing_height(const BackPlate& plate);
void draw_plate(Sheet& sheet, PagePoint corner, const BackPlate& plate, const Solid& body);

// The plate at true size with two check rulers. Requires template_fits(plate).
bool template_fits(const BackPlate& plate);
void draw_template(Sheet& sheet, PagePoint corner, const BackPlate& plate);

}  // namespace backfit::paper
