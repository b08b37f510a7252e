// SPDX-License-Identifier: MIT
// The bundle of light that a lens sends to one point of the image, as far as its apertures let it.
#pragma once
#include <optional>
#include <vector>

#include "optics/trace.hpp"

namespace backfit {

// Edge of a bundle, seen from its image point: tangents x / z and y / z of the directions that the
// light comes from, z pointing back to the lens. Evenly spaced in azimuth around `centre`.
struct Bundle {
  struct Direction {
    double x = 0, y = 0;
  };
  Direction centre;
  std::vector<Direction> edge;  // empty: no light gets through
};

// The bundle at the image point (0, height) on the plane `plane` behind the last vertex, its edge
// found by bisection in `azimuths` directions. The bundle is taken to be star-shaped around the
// ray through the stop's centre, or around the middle of what passes where that ray is clipped.
// Requires clear radii that limit the bundle, an even number of azimuths, 4 or more.
Bundle bundle_at(const LensModel& lens, Length plane, Length height, int azimuths);

// Area of the bundle in direction cosines: pi times the share of a uniform bright sky's light that
// the point gets. Zero for a bundle without light.
double cosine_area(const Bundle& bundle);

// Light at `height` against that on the axis, of a uniform Lambertian subject at infinity: the
// ratio of the bundles' areas in direction cosines. Empty when there is none on the axis.
std::optional<double> relative_illumination(const LensModel& lens, Length plane, Length height,
                                            int azimuths = 720);

// The lens with its diaphragm set to `radius`.
LensModel stopped_to(LensModel lens, Length radius);

}  // namespace backfit
