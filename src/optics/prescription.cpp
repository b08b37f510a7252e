// SPDX-License-Identifier: MIT
#include "optics/prescription.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace backfit {

std::optional<std::size_t> unknown_index(const Prescription& lens, Length wavelength) {
  const auto it = std::ranges::find_if(
      lens.surfaces, [&](const Prescription::Surface& s) { return !s.after.index(wavelength); });
  if (it == lens.surfaces.end()) return std::nullopt;
  return static_cast<std::size_t>(it - lens.surfaces.begin());
}

LensModel model_of(const Prescription& lens, Length wavelength) {
  assert(!lens.surfaces.empty() && !unknown_index(lens, wavelength));
  LensModel model;
  model.stop = lens.stop.value_or(0);
  model.surfaces.reserve(lens.surfaces.size());
  Length z;
  double before = 1;
  for (const Prescription::Surface& s : lens.surfaces) {
    const double after = *s.after.index(wavelength);
    model.surfaces.push_back({s.curvature, z, before, after, s.clear_radius});
    z += s.thickness;
    before = after;
  }
  assert(before == 1);
  return model;
}

LensModel turned_round(const LensModel& lens) {
  LensModel turned = lens;
  const Length last = lens.surfaces.back().z;
  std::ranges::reverse(turned.surfaces);
  for (LensModel::Surface& s : turned.surfaces) {
    s.z = last - s.z;
    s.curvature = -s.curvature;
    std::swap(s.index_before, s.index_after);
  }
  turned.stop = lens.surfaces.size() - 1 - lens.stop;
  return turned;
}

Prescription scaled(Prescription lens, double factor) {
  assert(factor > 0);
  for (Prescription::Surface& s : lens.surfaces) {
    s.curvature = s.curvature / factor;
    s.thickness = s.thickness * factor;
    s.clear_radius = s.clear_radius * factor;
  }
  return lens;
}

Prescription joined(const Prescription& front, Length gap, const Prescription& rear) {
  Prescription both = front;
  both.surfaces.back().thickness = gap;
  both.surfaces.insert(both.surfaces.end(), rear.surfaces.begin(), rear.surfaces.end());
  both.stop.reset();
  if (rear.stop) both.stop = front.surfaces.size() + *rear.stop;
  return both;
}

Length sagitta(Dioptre curvature, Length height) {
  const double s = curvature * height;
  assert(std::abs(s) <= 1);
  return height * (s / (1 + std::sqrt(1 - s * s)));
}

}  // namespace backfit
