// SPDX-License-Identifier: MIT
#include "optics/attachments.hpp"

#include <cassert>
#include <cmath>

namespace backfit {

Length subject_through_close_up(Length set, Dioptre power) {
  assert(power > Dioptre{} && set > Length{});
  return 1 / (power + 1 / set);
}

Length focal_with_close_up(Length focal, Dioptre power, Length apart) {
  return 1 / (1 / focal + power - power * (apart / focal));
}

double magnification_with_close_up(Length focal, Dioptre power, Length extension) {
  return extension / focal + power * (focal + extension);
}

Length subject_through_afocal(Length set, double factor) {
  assert(set > Length{});
  return factor * factor * set;
}

std::optional<Length> subject_through_afocal(const LensModel& attachment, Length set) {
  // Backwards: light that converges on the point that the camera is set to comes together there.
  const Length height = 1 * mm;
  const ParaxialRay out = paraxial_path(turned_round(attachment), {height, -(height / set)}).back();
  if (!(out.slope < 0)) return std::nullopt;
  return -out.height / out.slope;
}

Angle half_angle_with_afocal(Length focal, double factor, Length half_diagonal) {
  return std::atan2(half_diagonal / mm, factor * (focal / mm)) * rad;
}

}  // namespace backfit
