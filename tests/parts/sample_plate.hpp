// SPDX-License-Identifier: MIT
// A plausible back plate for tests and benchmarks; its camera and holder are invented.
#pragma once
#include "parts/back_plate.hpp"

namespace backfit {

inline BackPlate sample_plate() {
  BackPlate plate;
  plate.width = 134 * mm;
  plate.height = 172 * mm;
  plate.corner_radius = 6 * mm;
  plate.thickness = 4 * mm;
  plate.window_width = 97 * mm;
  plate.window_height = 122 * mm;
  plate.tongue = {.inner_width = 108 * mm,
                  .inner_height = 138 * mm,
                  .wall = 2 * mm,
                  .inner_corner_radius = 3 * mm,
                  .depth = 2.5 * mm};
  plate.screws = {.places = {{-60 * mm, -70 * mm},
                             {60 * mm, -70 * mm},
                             {-60 * mm, 70 * mm},
                             {60 * mm, 70 * mm}},
                  .hole_diameter = 2.4 * mm,
                  .head_diameter = 4.6 * mm};
  plate.rib_groove = {
      .centre = {0 * mm, 78 * mm}, .size_x = 124 * mm, .size_y = 2.2 * mm, .depth = 1.9 * mm};
  plate.fence = {.places = {{-61.5 * mm, -40 * mm},
                            {61.5 * mm, -40 * mm},
                            {-61.5 * mm, 40 * mm},
                            {61.5 * mm, 40 * mm}},
                 .hole_diameter = 3.4 * mm,
                 .head_diameter = 6.2 * mm};
  return plate;
}

inline StrapLugs sample_lugs() {
  return {.at = {-20 * mm, 20 * mm},
          .neck_width = 10 * mm,
          .neck_length = 8 * mm,
          .head_width = 18 * mm,
          .head_length = 4 * mm,
          .corner_radius = 1 * mm,
          .recess = 1.5 * mm};
}

// Three passes of a common 0.4 mm nozzle side by side.
inline constexpr Length sample_wall = 1.2 * mm;

}  // namespace backfit
