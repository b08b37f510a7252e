// SPDX-License-Identifier: MIT
#include "optics/plane_glass.hpp"

#include <cassert>

namespace backfit {

Length focus_shift(const PlaneGlass& glass) {
  assert(glass.index >= 1);
  return glass.thickness * (1 - 1 / glass.index);
}

Length marginal_focus_shift(const PlaneGlass& glass, FNumber aperture) {
  assert(glass.index >= 1 && aperture.value > 0.5);
  const double sine = 1 / (2 * aperture.value);
  const double cosine = std::sqrt(1 - sine * sine);
  return glass.thickness * (1 - cosine / std::sqrt(glass.index * glass.index - sine * sine));
}

Length turned_ground_glass_error(const PlaneGlass& glass) {
  return glass.thickness - focus_shift(glass);
}

}  // namespace backfit
