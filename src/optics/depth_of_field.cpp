// SPDX-License-Identifier: MIT
#include "optics/depth_of_field.hpp"

#include <cassert>
#include <cmath>

namespace backfit {
namespace {

// N c / focal: the share of its distance to the exit pupil by which the film may be off.
double slack(const Sharpness& s) {
  assert(s.focal > 0 * mm && s.aperture.value > 0 && s.circle > 0 * mm);
  return s.aperture.value * s.circle / s.focal;
}

}  // namespace

Length hyperfocal_distance(const Sharpness& sharpness) {
  return sharpness.focal / slack(sharpness) + sharpness.focal;
}

SharpRange sharp_range(const Sharpness& sharpness, Length subject) {
  assert(subject > sharpness.focal && sharpness.pupil_magnification > 0);
  const Length pupil = sharpness.focal * (1 - 1 / sharpness.pupil_magnification);
  if (std::isinf(subject / mm)) return {pupil + sharpness.focal / slack(sharpness), {}};
  const double reach = slack(sharpness) * ((subject - sharpness.focal) / sharpness.focal);
  SharpRange range{pupil + (subject - pupil) / (1 + reach), {}};
  if (reach < 1) range.far = pupil + (subject - pupil) / (1 - reach);
  return range;
}

std::optional<Length> subject_before_lens(Length focal, Length to_film, Length hiatus) {
  assert(focal > 0 * mm);
  const Length t = to_film - hiatus;
  if (t < 4 * focal) return {};
  return (t + sqrt(t * (t - 4 * focal))) / 2;
}

}  // namespace backfit
