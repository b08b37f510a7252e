// SPDX-License-Identifier: MIT
#include "exposure/shutter_light.hpp"

#include <algorithm>
#include <cassert>

namespace backfit {
namespace {

bool makes_sense(const LeafShutter& s, double stop) {
  return s.opening >= Time{} && s.closing >= Time{} &&
         s.opening + s.closing <= s.total * (1 + 1e-12) && stop > 0 && stop <= 1;
}

}  // namespace

double clear_share(const LeafShutter& shutter, double stop, Time t) {
  assert(makes_sense(shutter, stop));
  const Time left = shutter.total - t;
  if (t < Time{} || left < Time{}) return 0;
  const auto bared = [stop](Time run, Time whole) {
    return run >= stop * whole ? 1.0 : run / whole / stop;
  };
  const double diameter = std::min(bared(t, shutter.opening), bared(left, shutter.closing));
  return diameter * diameter;
}

Time effective_time(const LeafShutter& shutter, double stop) {
  assert(makes_sense(shutter, stop));
  return shutter.total - 2.0 / 3 * stop * (shutter.opening + shutter.closing);
}

double shutter_efficiency(const LeafShutter& shutter, double stop) {
  return effective_time(shutter, stop) / shutter.total;
}

LeafShutter shutter_with(Time effective, Time opening, Time closing) {
  assert(effective > Time{});
  // Blades that turn back before they are fully open are not of this shape: the shortest total is
  // one that opens and closes with nothing between.
  const Time total = effective + 2.0 / 3 * (opening + closing);
  if (opening + closing <= total) return {total, opening, closing};
  const double shrink = effective * 3 / (opening + closing);
  return {3 * effective, shrink * opening, shrink * closing};
}

}  // namespace backfit
