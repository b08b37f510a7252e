// SPDX-License-Identifier: MIT
// What a rangefinder reads, what the lens coupled to it focuses, and how sure either is. Distances
// to the subject count from the front principal point. Derivations:
// docs/derivations/rangefinder.md.
#pragma once
#include <optional>

#include "quantity/quantity.hpp"

namespace backfit {

// `base` is between the two windows, `magnification` that of the telescope (1 if it has none),
// `alignment` the angle to which the eye sets the two images on each other. All greater than 0.
struct RangefinderOptics {
  Length base;
  double magnification = 1;
  Angle alignment;
};

// Angle between the finder's two lines of sight to `subject`: arctan(base / subject).
// Requires subject > 0.
Angle parallax(Length base, Length subject);

// Error of the distance from one misalignment: subject^2 alignment / (base magnification). First
// order, for a subject far against the base. Requires subject > 0.
Length distance_error(const RangefinderOptics& finder, Length subject);

// The same error at the film: (subject / (subject - focal))^2 focal^2 alignment / (base
// magnification). For a far subject, empty here, focal^2 alignment / (base magnification).
// Requires subject > focal > 0.
Length film_error(const RangefinderOptics& finder, Length focal, std::optional<Length> subject);

// Base times magnification at which one misalignment of a far subject uses up the depth of focus:
// focal^2 alignment / depth_of_focus. Requires depth_of_focus > 0.
Length needed_base(Length focal, Angle alignment, Length depth_of_focus);

// A coupled finder is driven by an arm that must have travelled from its infinity place as far as
// the lens stands from its own. `late` is how much less it has travelled: the set-back that lens
// and film made, less the shift of cam or arm that makes up for it.

// What the finder reads when the lens focuses `subject`: focal + focal^2 / (e - late), with e the
// lens's extension. Empty when that is past infinity. Requires subject > focal > 0.
std::optional<Length> finder_reading(Length focal, Length subject, Length late);

// What the lens focuses when the finder is set on `subject`: focal + focal^2 / (e + late). Empty
// when that is past infinity. Requires subject > focal > 0.
std::optional<Length> focused_by_finder(Length focal, Length subject, Length late);

}  // namespace backfit
