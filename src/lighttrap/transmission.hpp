// SPDX-License-Identifier: MIT
// How much of the light at a gap's mouth comes out inside, and how sure the solution is.
#pragma once
#include <array>

#include "lighttrap/profile.hpp"
#include "quantity/light.hpp"

namespace backfit {

// Part of the light that falls evenly from all sides on the outer mouth and leaves by the inner
// one. `mesh_error`: how far off it may be by the cutting of the walls: for matt walls, whose
// pieces are halved twice, the change at the last of two steps of extrapolation; for glossy ones a
// third of the change from mesh to mesh with twice the standard error of four sets of rays.
struct Transmission {
  double through = 0, mesh_error = 0;
};

// From three meshes, the pieces of each half as long as those before: half as long makes a quarter
// of the error, so Richardson's extrapolation.
Transmission refined(const std::array<double, 3>& through);

// Of `seam` see glossy_exchange(). Requires no fault_of(profile), or some diameter and length up to
// 1000 diameters; 0 <= reflectance <= 1 and gloss_index >= 1; seam > 0.
Transmission transmission(const GapProfile& profile, const Wall& wall, Length seam = endless);
Transmission transmission(const Bore& bore, const Wall& wall);

// The light that a transmission takes, positive. Infinite for none.
inline Stops attenuation(double through) { return -stops_of(through); }

// Whether a straight line leads from outside to inside: then the sun may look through whole, and
// black walls hardly help.
bool sees_through(const GapProfile& profile);

}  // namespace backfit
