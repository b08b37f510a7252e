// SPDX-License-Identifier: MIT
// How far a blurred picture can be enlarged, and which stop blurs it least.
#pragma once
#include "quantity/quantity.hpp"

namespace backfit {

// Blur on a print that eyes at `viewing` from it just don't see: 0.2 mm at 250 mm, in proportion
// farther off. Source: large-format-selecting-stop in data/sources.toml.
Length unseen_blur(Length viewing);

// The enlargement at which a blur of `circle` on the film is just not seen on the print: the unseen
// blur over it. Requires circle > 0.
double enlargement_of(Length circle, Length viewing);

// Diameter of the blur that light's waves make: N / 750 mm. A rule of the trade, for about the
// resolving power 1500 / N line pairs per mm. Source as above.
Length diffraction_blur(FNumber aperture);

// Diameter of the blur on film that lies `off` from the image: off / N by geometry, with that of
// diffraction as the root of the sum of squares. Source as above.
Length blur_of(Length off, FNumber aperture);

// The stop at which blur_of() is smallest: sqrt(750 off / mm). Requires off > 0. Source as above,
// which takes the whole spread D = 2 off: sqrt(375 D).
FNumber sharpest_stop(Length off);

}  // namespace backfit
