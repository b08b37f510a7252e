// SPDX-License-Identifier: MIT
// Exchange of light in a bent gap, infinitely long across its section. Exact for every pair of wall
// pieces, hidden by corners or not: half the difference of crossed and uncrossed strings, pulled
// taut inside the gap (Hottel's rule). Derivation: docs/derivations/light-trap.md.
#pragma once
#include <cstddef>

#include "lighttrap/exchange.hpp"
#include "lighttrap/graded.hpp"
#include "lighttrap/profile.hpp"

namespace backfit {

// In units of the gap, so that the outer mouth is 1; pieces from the mouth in, right walls first.
// The walls are cut finer towards their ends; twice the fineness halves each piece. Requires no
// fault_of(profile); fineness >= 1.
Exchange exchange_of(const GapProfile& profile, std::size_t fineness,
                     gap::Cut cut = gap::Cut::fine);

}  // namespace backfit
