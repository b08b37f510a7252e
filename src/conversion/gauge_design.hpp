// SPDX-License-Identifier: MIT
// The numbers of the gauges that a plan asks for, from survey, studies and printer.
#pragma once
#include <optional>

#include "conversion/report.hpp"
#include "parts/depth_gauge.hpp"
#include "parts/focus_gauge.hpp"

namespace backfit {

// Empty unless the plan asks for one. On the rails glass or tape lies itself where the film will;
// elsewhere the ledge lies in whole layers from the rest, and packing makes up for the layers.
// Requires a plan that check_extras() finds no fault with.
std::optional<FocusGauge> focus_gauge(const Report& report);

// How far its matt face may lie off the film's plane by print and glass, standard uncertainty; 0
// where the glass lies on the rails itself.
Length plane_doubt(const Report& report, const FocusGauge& gauge);

// Empty unless the plan asks for one, and where the holder's width is not known. Requires likewise.
std::optional<DepthGauge> depth_gauge(const Report& report);

}  // namespace backfit
