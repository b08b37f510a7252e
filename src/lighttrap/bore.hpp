// SPDX-License-Identifier: MIT
// Exchange of light in a round hole, between its two mouths and rings of its wall.
#pragma once
#include <cstddef>

#include "lighttrap/exchange.hpp"
#include "lighttrap/profile.hpp"

namespace backfit {

// Part of the light from a disc that a coaxial, parallel one receives, when it leaves evenly to all
// sides: 2 (s/r)^2 / (x + sqrt(x^2 - 4 (s/r)^2)) with x = 1 + (distance^2 + s^2) / r^2, r the
// sending and s the receiving radius. Requires both radii > 0; distance >= 0.
double view_between_discs(Length sending_radius, Length receiving_radius, Length distance);

// In units of the hole's radius, so that the mouth is pi. Exact for each pair of rings: what two
// cross-sections exchange changes from ring to ring. Requires some diameter and length; fineness
// >= 1, twice of which halves each ring.
Exchange exchange_of(const Bore& bore, std::size_t fineness);

}  // namespace backfit
