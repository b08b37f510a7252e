// SPDX-License-Identifier: MIT
#include "transport/drag.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace backfit {

double capstan_ratio(double friction, Angle wrap) {
  assert(friction >= 0 && wrap >= Angle{});
  return std::exp(friction * (wrap / rad));
}

double roller_ratio(double bearing_friction, Length pin, Length radius, Angle wrap) {
  const double k = bearing_friction * (pin / radius) * sin(wrap / 2);
  assert(k >= 0 && k < 1);
  return (1 + k) / (1 - k);
}

BendingStiffness bending_stiffness(Pressure modulus, Length width, Length thickness) {
  return modulus * width * (thickness * thickness * thickness) / 12;
}

double outer_fibre_strain(Length thickness, Length radius) { return thickness / (2 * radius); }

Length bending_length(BendingStiffness stiffness, Force tension) {
  return sqrt(stiffness / tension);
}

Angle lift_off(BendingStiffness stiffness, Force tension, Length radius, Angle wrap) {
  const double drop = stiffness / (2 * tension * radius * radius);
  const Angle half = std::max(wrap / 2, Angle{});
  return drop >= 2 ? half : std::min(half, std::acos(1 - drop) * rad);
}

Length stand_off(BendingStiffness stiffness, Force tension, Length radius, Angle wrap) {
  const Angle half = std::max(wrap / 2, Angle{});
  const Angle turned = lift_off(stiffness, tension, radius, wrap);
  if (turned < half) return stiffness / (2 * tension * radius);
  return 2 * bending_length(stiffness, tension) * sin(half / 2) - radius * (1 - cos(half));
}

Force pull_behind(Force before, const Wrap& wrap, const Rub& rub, const Pulling& pulling) {
  const Angle turn = std::max(wrap.turn, Angle{});
  const double ratio = rub.motion == Motion::fixed
                           ? capstan_ratio(rub.friction, turn)
                           : roller_ratio(rub.friction, rub.pin, wrap.radius, turn);
  return before * ratio +
         pulling.bending_loss * pulling.stiffness / (2 * wrap.radius * wrap.radius);
}

std::vector<Force> tensions(const StripPath& path, std::span<const Rub> rubs, Force supply,
                            const Pulling& pulling) {
  assert(rubs.size() == path.wraps.size() && pulling.gate < path.strands.size());
  std::vector<Force> all;
  Force pull = supply;
  for (std::size_t i = 0; i < path.strands.size(); ++i) {
    if (i > 0) pull = pull_behind(pull, path.wraps[i - 1], rubs[i - 1], pulling);
    // What the plate holds back is felt behind the gate's strand: the next ones carry it.
    all.push_back(pull);
    if (i == pulling.gate) pull += pulling.gate_drag;
  }
  return all;
}

}  // namespace backfit
