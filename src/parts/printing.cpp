// SPDX-License-Identifier: MIT
#include "parts/printing.hpp"

#include <cassert>

namespace backfit {

Solid laid_on_rear_face(const Solid& part) {
  const Solid turned = half_turned_about_x(part);
  const Bounds around = bounds_of(turned);
  return translated(turned, {-(around.low.x + around.high.x) / 2,
                             -(around.low.y + around.high.y) / 2, -around.low.z});
}

bool fits(const Bounds& part, const PrintSpace& space) {
  const Length slack = 1e-6 * mm;
  const Length x = part.high.x - part.low.x - slack;
  const Length y = part.high.y - part.low.y - slack;
  const Length z = part.high.z - part.low.z - slack;
  const bool as_it_lies = x <= space.width && y <= space.depth;
  const bool turned = y <= space.width && x <= space.depth;
  return z <= space.height && (as_it_lies || turned);
}

Mass printed_mass(Volume volume, MassDensity density) {
  assert(volume > Volume{} && density > MassDensity{});
  return volume * density;
}

}  // namespace backfit
