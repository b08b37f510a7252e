// SPDX-License-Identifier: MIT
#include "optics/print_size.hpp"

#include <cassert>
#include <cmath>

namespace backfit {

Length unseen_blur(Length viewing) { return 0.2 * mm * (viewing / (250 * mm)); }

double enlargement_of(Length circle, Length viewing) {
  assert(circle > Length{});
  return unseen_blur(viewing) / circle;
}

Length diffraction_blur(FNumber aperture) { return aperture.value / 750 * mm; }

Length blur_of(Length off, FNumber aperture) {
  return hypot(off / aperture.value, diffraction_blur(aperture));
}

FNumber sharpest_stop(Length off) {
  assert(off > Length{});
  return {std::sqrt(750 * (off / mm))};
}

}  // namespace backfit
