// SPDX-License-Identifier: MIT
#include "optics/focus.hpp"

#include <cassert>

namespace backfit {

std::optional<Length> extension_for(Length focal, Length subject) {
  assert(focal > 0 * mm);
  if (subject <= focal) return {};
  return focal * (focal / (subject - focal));
}

std::optional<Length> subject_for(Length focal, Length extension) {
  assert(focal > 0 * mm);
  if (extension <= 0 * mm) return {};
  return focal + focal * (focal / extension);
}

double magnification(Length focal, Length extension) { return extension / focal; }

Length depth_of_focus(FNumber aperture, Length circle, double magnification,
                      double pupil_magnification) {
  assert(circle > 0 * mm && magnification >= 0 && pupil_magnification > 0);
  return aperture.value * circle * (1 + magnification / pupil_magnification);
}

std::optional<Length> subject_at_mark(Length focal, Length engraved, Length farther) {
  const std::optional<Length> at_mark = extension_for(focal, engraved);
  assert(at_mark.has_value());
  return subject_for(focal, *at_mark + farther);
}

}  // namespace backfit
