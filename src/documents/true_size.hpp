// SPDX-License-Identifier: MIT
// Drawings at true size with check rulers, on as many pages as they need.
#pragma once
#include <functional>
#include <string>

#include "documents/drawing.hpp"
#include "documents/flow.hpp"

namespace backfit::paper {

// Something `width` by `height` large whose lower left corner is `low`; `draw` gets the view that
// puts it on the page.
struct TrueSize {
  std::string heading;
  PartPoint low;
  Length width, height;
  std::function<void(Sheet&, const View&)> draw;
  std::function<void(Sheet&, const View&)> words = nullptr;  // only where one page holds it
};

// A page each, or several that overlap and are laid over each other by crosses: rulers along both
// sides, and how to check them.
void add_true_size(Flow& flow, const TrueSize& drawing);

}  // namespace backfit::paper
