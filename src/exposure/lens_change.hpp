// SPDX-License-Identifier: MIT
// What extension, attachments and close-up lenses do to the light on film. Magnifications,
// extensions and diameters come in as numbers; how a camera gets them is not asked here.
#pragma once
#include <optional>
#include <span>

#include "quantity/light.hpp"
#include "quantity/measured.hpp"

namespace backfit {

// Exposure factor at magnification m: (1 + m / p)^2, p the pupil magnification (diameter of the
// exit pupil over that of the entrance pupil; 1 for a lens alike from both sides). Thin-lens
// focusing, no close-up lens. Requires m >= 0 and p > 0. Source: closeup-factor in
// data/sources.toml (READ) for p = 1.
double close_up_factor(double magnification, double pupil_magnification = 1);

// The same of a lens `extension` forward of its infinity setting: (1 + e / (p f))^2. It holds with
// a close-up lens at the front as well: the lens behind it is still e farther from the film than
// for infinity, and such a lens at the infinity setting costs no light. Requires e > -p f.
double extension_factor(Length extension, Length focal, double pupil_magnification = 1);

// The extension factor in stops to add, and its standard uncertainty by first-order propagation.
struct StopsEstimate {
  Stops value;
  Stops standard_uncertainty;
};
StopsEstimate extension_stops(Measured<Length> extension, Measured<Length> focal,
                              Measured<double> pupil_magnification);

// The f-number behind a tele attachment of `factor` in front of the lens. It magnifies the
// entrance pupil as it does the focal length, so N stays, unless its front glass is smaller than
// the pupil it would need: then factor f / clear front. Empty front: large enough. Requires all
// > 0.
FNumber with_front_attachment(FNumber aperture, double factor, Length focal,
                              std::optional<Length> clear_front);

// The f-number with an extender of `factor` behind the lens: N factor. Requires factor > 0.
FNumber with_rear_extender(FNumber aperture, double factor);

// One stop of the lens, and what it does on the new frame.
struct StopChoice {
  FNumber aperture;
  Stops corner_loss;  // light that the frame's corner lacks
  Time time;          // exposure that it asks for
};
// The widest of `stops`, ordered from wide to small, whose corner loses no more than `allowed`
// and whose time is no longer than `longest`. Empty when none keeps both.
std::optional<StopChoice> widest_that_keeps_both(std::span<const StopChoice> stops, Stops allowed,
                                                 Time longest);

// More light that shares a corner loss between the middle, then too light, and the corner, then
// too dark: half of it. A compromise for negatives, which bear the one better than the other.
Stops corner_compromise(Stops corner_loss);

}  // namespace backfit
