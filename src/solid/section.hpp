// SPDX-License-Identifier: MIT
// A body cut by a plane.
#pragma once
#include <vector>

#include "solid/solid.hpp"
#include "solid/view.hpp"

namespace backfit {

// The closed outlines of the material that the plane z = `at` cuts of `body`, x to the right and y
// up, in no order; one inside another is a hole. Curves as chords no farther than `chord` from
// them; the first point is not repeated. Empty where the plane misses the body, and where it runs
// along a face of it the outlines may belong to either side. Requires chord in [1e-4 mm,
// largest_size]. Throws SolidFailure.
std::vector<std::vector<PaperPoint>> cut_of(const Solid& body, Length at, Length chord);

}  // namespace backfit
