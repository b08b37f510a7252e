// SPDX-License-Identifier: MIT
// A model of one opening that is near enough to a recording for the fit to start from.
#pragma once
#include <optional>
#include <span>

#include "evidence/shot_model.hpp"
#include "evidence/shot_search.hpp"

namespace backfit {

// Narrowest edge that is looked for, in samples.
inline constexpr double least_width = 0.25;
// An edge shorter than this many samples shows nothing but its place.
inline constexpr double short_edge = 2;
// Between an even area (1) and an even radius (2): of edges whose samples don't tell.
inline constexpr double usual_power = 1.5;

// From the samples of a window, `sign` times them so that light goes up: the droop is taken out by
// the corner that makes dark dark on both sides, level and edges are read off what is left. `place`
// counts from the window's start. Empty when no light is there.
std::optional<ShotModel> guessed_shot(std::span<const float> samples, const ShotPlace& place,
                                      double sign, double sensor_lag);

}  // namespace backfit
