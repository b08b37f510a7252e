// SPDX-License-Identifier: MIT
// How far film bows out of its plane in the gate: its curl against its own stiffness, the pull
// along it and what it lies between. Derivation: docs/derivations/film-flatness.md.
#pragma once
#include "quantity/quantity.hpp"

namespace backfit {

using Curvature = Dioptre;  // 1 over a radius

// Film over an opening, on whose rim it lies all round, free to turn there.
struct GateFilm {
  Length along, across;        // the opening
  BendingStiffness stiffness;  // of the strip, over its whole width as the pull is
  double cross_strain = 0;     // Poisson's ratio
  Force pull;
};

// What the film would be bent to if nothing held it; towards its emulsion counts as positive.
struct Curl {
  Curvature along, across;
};

// How far the film's middle lies behind the plane of its rim, away from the lens, with nothing
// behind it; negative towards the lens. Small deflections of a thin plate under pull in one
// direction, simply supported, its curl a moment at each edge (Navier's double series, see the
// derivation; to 1 % where no side is eight times the other or longer). Linear in `curl`. Requires
// lengths and stiffness > 0, pull >= 0 and 0 <= cross_strain < 1.
Length free_bow(const GateFilm& film, const Curl& curl);

// Likewise with a pressure plate `play` behind the film: no more than that away from the lens.
// Towards the lens nothing stops it. Requires play >= 0.
Length bow_before_plate(const GateFilm& film, const Curl& curl, Length play);

}  // namespace backfit
