// SPDX-License-Identifier: MIT
// How sharp a lens draws from the axis outwards, on film at its plane and off it.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "optics/wavefront.hpp"

namespace backfit {

struct ImageQuality {
  std::vector<SpatialFrequency> frequencies;
  std::vector<Length> shifts;  // of the film, farther from the lens than the plane
  struct Contrast {
    double sagittal = 0, tangential = 0;
  };
  struct Light {
    Length height;  // of the spot's centroid
    Length rms, largest;
    Length best, best_sagittal, best_tangential;  // shifts with the smallest spot
    // For each shift every frequency: by geometry alone, and by waves.
    std::vector<Contrast> by_rays, by_waves;
  };
  struct Point {
    Angle field;
    std::optional<Light> light;  // empty: the lens sends none there
  };
  std::vector<Point> points;
  // The one shift of a flat film that makes the mean square spot radius smallest over the image out
  // to the outermost point, each point counting by the ring of the image that lies nearest to it.
  // Empty when no point gets light.
  std::optional<Length> best_flat_film;
  const Contrast& at(const std::vector<Contrast>& of, std::size_t shift,
                     std::size_t frequency) const {
    return of[shift * frequencies.size() + frequency];
  }
};

// `lens` at `wavelength`, the one its indices belong to, for subjects at `object` in front of the
// first vertex (`unlimited`: far) on film at `plane` behind the last. Requires a stop or clear
// radii that limit the light.
ImageQuality image_quality_of(const LensModel& lens, Length wavelength, Length object, Length plane,
                              std::span<const Angle> fields,
                              std::vector<SpatialFrequency> frequencies,
                              std::vector<Length> shifts);

// The field angle whose chief ray meets the plane at `height` off the axis, to 1e-6 mm. Empty when
// no chief ray gets there.
std::optional<Angle> field_at(const LensModel& lens, Length object, Length plane, Length height);

}  // namespace backfit
