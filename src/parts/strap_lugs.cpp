// SPDX-License-Identifier: MIT
#include "parts/strap_lugs.hpp"

#include <numbers>

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

}  // namespace

std::vector<Solid> recess_cutters(const StrapLugs& l, Length edge) {
  std::vector<Solid> cutters;
  const Length half = l.neck_width / 2 + overshoot;
  const Length from = edge + StrapLugs::step, to = edge + l.neck_length - StrapLugs::step;
  for (const Length at : l.at) {
    for (const double side : {-1.0, 1.0}) {
      const Length low = side > 0 ? from : -to, high = side > 0 ? to : -from;
      cutters.push_back(l.at_sides
                            ? box({low, at - half, -overshoot}, {high, at + half, l.recess})
                            : box({at - half, low, -overshoot}, {at + half, high, l.recess}));
    }
  }
  return cutters;
}

Volume volume_of(const StrapLugs& l, Length thickness) {
  const Area plan = l.neck_width * l.neck_length + l.head_width * l.head_length -
                    (4 - std::numbers::pi) * (l.corner_radius * l.corner_radius);
  const Volume recess = l.neck_width * (l.neck_length - 2 * StrapLugs::step) * l.recess;
  return 2.0 * static_cast<double>(l.at.size()) * (plan * thickness - recess);
}

}  // namespace backfit
