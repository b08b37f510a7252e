// SPDX-License-Identifier: MIT
// The timer's box at true size: its panel with the dial, and a cut through panel and tray.
#pragma once
#include "documents/sheet.hpp"
#include "parts/timer_box.hpp"

namespace backfit::paper {

// `corner` is the drawing's upper left one, its width at most content_width. Requires a box without
// faults.
Length box_drawing_height(const TimerBox& box);
void draw_timer_box(Sheet& sheet, PagePoint corner, const TimerBox& box);

}  // namespace backfit::paper
