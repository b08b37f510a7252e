// SPDX-License-Identifier: MIT
// Where a lens puts the image, how far it must move to put that image on the film, and how far
// off it may be. Gaussian optics, lens in air; distances to the subject count from the front
// principal point. Derivations: docs/derivations/conjugates.md.
#pragma once
#include <optional>

#include "quantity/quantity.hpp"

namespace backfit {

// Travel of the lens away from the film, from its infinity setting, that focuses a subject
// `subject` away: focal^2 / (subject - focal). Empty when subject <= focal, which has no real
// image. Requires focal > 0.
std::optional<Length> extension_for(Length focal, Length subject);

// Subject distance in focus at `extension` from the infinity setting: focal + focal^2 / extension.
// Empty when extension <= 0: at 0 the subject is at infinity, below 0 nothing is in focus.
// Requires focal > 0.
std::optional<Length> subject_for(Length focal, Length extension);

// Size of the image over size of the subject at `extension`: extension / focal.
double magnification(Length focal, Length extension);

// How far the film may lie before or behind the sharp image until a point is blurred to
// `circle`: N c (1 + m / P), one-sided, with P exit pupil over entrance pupil.
// Requires circle > 0, magnification >= 0, pupil_magnification > 0.
Length depth_of_focus(FNumber aperture, Length circle, double magnification,
                      double pupil_magnification);

// Subject distance in focus at the mark engraved `engraved` once the lens stands `farther` more
// from the film than when the scale was made; empty when that is past infinity.
// Requires engraved > focal > 0.
std::optional<Length> subject_at_mark(Length focal, Length engraved, Length farther);

}  // namespace backfit
