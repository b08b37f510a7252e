// SPDX-License-Identifier: MIT
// Walls that mirror at their face, the more the flatter light meets them, and scatter the rest.
// Derivation: docs/derivations/light-trap.md.
#pragma once
#include <cstddef>
#include <functional>

#include "lighttrap/exchange.hpp"
#include "lighttrap/graded.hpp"
#include "lighttrap/profile.hpp"

namespace backfit {

// Part of unpolarised light that a smooth face of refractive index `index` mirrors when it comes
// at the angle whose cosine is `cosine` from the normal (Fresnel). 1 at grazing.
// Requires index >= 1 and 0 <= cosine <= 1.
double mirrored(double cosine, double index);

// As exchange_of() of matt walls, with what the mirroring faces send on counted as seen: light that
// has entered a wall through its face is scattered inside and leaves by the face as it came, so
// that the exchange is the same both ways. By rays, `rays` from each piece, spread evenly over
// place and direction; `shift` from 0 to 1 moves them all. `length`: of the seam, by whose ends
// some of what runs nearly along it is lost, the ends black. Requires rays >= 1; length > 0.
Exchange glossy_exchange(const GapProfile& profile, double index, std::size_t fineness,
                         std::size_t rays, double shift, Length length = endless);
// The same between walls that differ, cut as `cut` says. What matt walls send
// each other straight is exact; of the rays, every second grazes, with cosines of all sizes alike:
// in long narrow arms light that flies far counts. Worthless once may_go_on said no.
Exchange glossy_exchange(const GapProfile& profile, const SeamWalls& walls, std::size_t fineness,
                         std::size_t rays, double shift, Length length, gap::Cut cut,
                         const std::function<bool()>& may_go_on);
Exchange glossy_exchange(const Bore& bore, double index, std::size_t fineness, std::size_t rays,
                         double shift);

}  // namespace backfit
