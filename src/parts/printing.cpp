// SPDX-License-Identifier: MIT
#include "parts/printing.hpp"

#include <cassert>

namespace backfit {

Solid laid_on_rear_face(const Solid& part) { return laid(part, BedSide::high_z); }

Solid laid(const Solid& part, BedSide side) {
  const auto turned = [&] {
    switch (side) {
      case BedSide::low_x:  // to (z, y, -x) three times over
        return quarter_turned_about_y(quarter_turned_about_y(quarter_turned_about_y(part)));
      case BedSide::high_x:
        return quarter_turned_about_y(part);
      case BedSide::low_y:
        return quarter_turned_about_x(part);
      case BedSide::high_y:
        return half_turned_about_x(quarter_turned_about_x(part));
      case BedSide::low_z:
        return part;
      case BedSide::high_z:
        return half_turned_about_x(part);
    }
    return part;
  };
  const Solid down = turned();
  const Bounds b = bounds_of(down);
  return translated(down, {-(b.low.x + b.high.x) / 2, -(b.low.y + b.high.y) / 2, -b.low.z});
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
