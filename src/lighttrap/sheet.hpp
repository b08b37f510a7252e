// SPDX-License-Identifier: MIT
// Felt, foam or a printed wall as light in space meets it: a sheet that passes some of it.
#pragma once
#include "lighttrap/scene.hpp"
#include "lighttrap/slab.hpp"

namespace backfit {

// A sheet of that slab: it passes transmission(slab, thickness) and scatters back, by Kubelka and
// Munk over nothing, S / (S + K + d coth(d x)) with d = sqrt(K (K + 2 S)); both evenly to all
// sides. It has no thickness in space: what leaves by its narrow faces is left out.
// Requires thickness >= 0.
Stuff sheet_of(const Slab& slab, Length thickness);

}  // namespace backfit
