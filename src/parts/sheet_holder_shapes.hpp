// SPDX-License-Identifier: MIT
// The sheet holder's pieces one by one, in the holder's own axes.
#pragma once
#include "parts/sheet_holder.hpp"

namespace backfit {

// The front frame, its face on w = 0. Requires faults() empty. Throws SolidFailure.
Solid frame_of(const SheetHolder& holder);

}  // namespace backfit
