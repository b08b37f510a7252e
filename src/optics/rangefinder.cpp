// SPDX-License-Identifier: MIT
#include "optics/rangefinder.hpp"

#include <cassert>

#include "optics/focus.hpp"

namespace backfit {
namespace {

// Error of 1 / distance from one misalignment.
Dioptre vergence_error(const RangefinderOptics& f) {
  assert(f.base > 0 * mm && f.magnification > 0 && f.alignment > 0 * rad);
  return f.alignment / rad / (f.base * f.magnification);
}

}  // namespace

Angle parallax(Length base, Length subject) {
  assert(subject > 0 * mm);
  return arctan(base / subject);
}

Length distance_error(const RangefinderOptics& finder, Length subject) {
  assert(subject > 0 * mm);
  return subject * (subject * vergence_error(finder));
}

Length film_error(const RangefinderOptics& finder, Length focal, std::optional<Length> subject) {
  const Length far = focal * (focal * vergence_error(finder));
  if (!subject) return far;
  assert(*subject > focal && focal > 0 * mm);
  const double nearness = *subject / (*subject - focal);
  return nearness * nearness * far;
}

Length needed_base(Length focal, Angle alignment, Length depth_of_focus) {
  assert(depth_of_focus > 0 * mm);
  return focal * (focal / depth_of_focus) * (alignment / rad);
}

std::optional<Length> finder_reading(Length focal, Length subject, Length late) {
  return subject_at_mark(focal, subject, -late);
}

std::optional<Length> focused_by_finder(Length focal, Length subject, Length late) {
  return subject_at_mark(focal, subject, late);
}

}  // namespace backfit
