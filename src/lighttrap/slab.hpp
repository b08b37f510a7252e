// SPDX-License-Identifier: MIT
// Light through felt, foam or a printed wall: a slab that scatters and absorbs.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <variant>

#include "quantity/light.hpp"

namespace backfit {

// By Kubelka and Munk, per mm: even light through it loses `absorption` on the way and sends
// `scattering` of it back. A printed wall is no plain absorber: one exponential won't do.
struct Slab {
  double scattering_per_mm = 0, absorption_per_mm = 0;
};

// Part of even light that a slab as thick passes, its faces left out: with a = (S + K) / S and
// b = sqrt(a^2 - 1), b / (a sinh(b S x) + b cosh(b S x)). Requires thickness >= 0.
double transmission(const Slab& slab, Length thickness);

// What a light meter said: so many stops less behind a piece as thick; with their standard
// uncertainties.
struct SlabReading {
  Length thickness;
  Stops less;
  Length thickness_u = {};
  Stops less_u = {};
};

// The slab that explains both readings, or why none does: two thicknesses, both with some loss, the
// thicker one's between what scattering alone makes of the thinner one's and what absorption alone
// does, or beyond that within the readings' 95 %: then it is absorption alone.
std::variant<Slab, std::string> slab_by(std::array<SlabReading, 2> readings);

// Part of even light that a slab of those readings passes, and the standard uncertainty of its
// stops: that of the readings by the law of propagation, slopes by differences. Requires a slab
// that explains them; thickness >= 0.
struct SlabPass {
  double through = 1;
  Stops u;
};
SlabPass pass_by(const std::array<SlabReading, 2>& readings, Length thickness);

}  // namespace backfit
