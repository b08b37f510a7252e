// SPDX-License-Identifier: MIT
// What a flat sheet of glass between lens and image does to the focus. Glass in air, square to the
// axis. Derivations: docs/derivations/plane-glass.md.
#pragma once
#include "quantity/quantity.hpp"

namespace backfit {

struct PlaneGlass {
  Length thickness;
  double index = 1;  // refractive, 1 or more
};

// How far behind its old place the image comes to lie, for rays near the axis: t (1 - 1/n),
// about a third of the thickness.
Length focus_shift(const PlaneGlass& glass);

// The same for the rays from the edge of the aperture, exact:
// t (1 - cos U / sqrt(n^2 - sin^2 U)) with sin U = 1 / 2N. More than focus_shift(); the difference
// is spherical aberration. Requires aperture.value > 0.5.
Length marginal_focus_shift(const PlaneGlass& glass, FNumber aperture);

// How far behind the film's plane an image lies in truth that looks sharp on a ground glass put in
// with its matt side to the eye instead of to the lens, its front face in the film's plane: the
// matt side is t behind it, the glass itself moves the image back t (1 - 1/n), and t / n is left.
Length turned_ground_glass_error(const PlaneGlass& glass);

}  // namespace backfit
