// SPDX-License-Identifier: MIT
// Which sun is named among those that do alike.
#pragma once
#include <cstddef>
#include <functional>

#include "lighttrap/seam_walks.hpp"

namespace backfit {

struct WorstSun {
  SpacePoint towards;     // of length 1 mm
  std::size_t alike = 0;  // how many of its mirror images do as much, as far as can be told
};

// One that was asked for, in a direction of any length.
WorstSun sun_towards(const SpacePoint& direction);

// The light of a sun on all film, in any one unit; its 95 % interval is mean -+ half_width.
struct SunLight {
  double mean = 0, half_width = 0;
};

// Of the worst direction `found` and its mirror images in the film's two middle lines, those whose
// interval reaches the highest mean may each be the worst: between them noise would choose. The
// first of them, right before left and above before below as seen from behind.
WorstSun worst_sun(const SpacePoint& found, const FilmPlane& film,
                   const std::function<SunLight(const SpacePoint& towards)>& light);

// The same of the worst direction that the walks find by `order`, whose patches are all; of seams
// four times as many tell the images apart. Requires a sun.
WorstSun worst_sun(const LeakWalks& walks, const FilmPlane& film, Illuminance sun,
                   const LeakWalks::Order& order);
WorstSun worst_sun(const SeamWalks& walks, const FilmPlane& film, Illuminance sun,
                   const SeamWalks::Order& order);

}  // namespace backfit
