// SPDX-License-Identifier: MIT
#include "lighttrap/sheet.hpp"

#include <algorithm>
#include <cmath>

namespace backfit {

Stuff sheet_of(const Slab& slab, Length thickness) {
  const double s = slab.scattering_per_mm, k = slab.absorption_per_mm, x = thickness / mm;
  const double passes = transmission(slab, thickness);
  const double decay = std::sqrt(k * (k + 2 * s));
  // d coth(d x) times x, which is 1 where the slab is thin.
  const double rest = decay * x < 1e-6 ? 1 : decay * x / std::tanh(decay * x);
  const double back = s * x / ((s + k) * x + rest);
  // Rounding must not make light of nothing.
  return {{std::min(back, 1 - passes)}, false, passes};
}

}  // namespace backfit
