// SPDX-License-Identifier: MIT
// A body's edges on the page.
#pragma once
#include "documents/drawing.hpp"
#include "solid/view.hpp"

namespace backfit::paper {

// Visible edges over hidden ones, which are left out without `hidden`. Of straight lines one behind
// the other only the first is drawn, so that dashes don't fill each other's gaps. Throws
// SolidFailure.
void draw_solid(Sheet& sheet, const View& view, const Solid& body, backfit::View from,
                bool hidden = true);

}  // namespace backfit::paper
