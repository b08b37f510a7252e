// SPDX-License-Identifier: MIT
// The timer's circuit and its switch from the soldering side.
#pragma once
#include "conversion/timer_study.hpp"
#include "documents/sheet.hpp"

namespace backfit::paper {

// The circuit with the symbols of IEC 60617 (FROM MEMORY of the standard): in the camera battery,
// capacitor and threshold stage, in the box switch and resistors. `corner` is its upper left one,
// the width content_width. Requires study.fit.
Length circuit_height(const TimerStudy& study);
void draw_circuit(Sheet& sheet, PagePoint corner, const TimerStudy& study);

// The rotary switch seen from its lugs: what is soldered between which. Requires study.fit.
inline constexpr Length lugs_above = 48 * mm, lugs_height = 98 * mm;
void draw_lugs(Sheet& sheet, PagePoint corner, const TimerStudy& study);

}  // namespace backfit::paper
