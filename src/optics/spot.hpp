// SPDX-License-Identifier: MIT
// The light of one subject point where it meets the film: the spot that its rays make, and how much
// contrast of a fine pattern survives it by geometry alone. Derivation: docs/derivations/mtf.md.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "optics/trace.hpp"

namespace backfit {

// Line pairs per length of film.
using SpatialFrequency = Dioptre;
inline constexpr SpatialFrequency lp_per_mm = 1 / mm;

// Which way the lines of a pattern run, as seen from the axis. Sagittal lines point at the axis
// and test the spot along x, tangential ones lie across and test it along y.
enum class Lines { sagittal, tangential };

struct Spot {
  struct Ray {
    Length x, y;              // on the plane
    double l = 0, m = 0;      // direction cosines
    double weight = 0;        // share of the light; all add up to 1
    Length path;              // optical path from the subject; if that is far, from a plane
                              // square to its light through vertex 1
    Length pupil_x, pupil_y;  // in the plane of the paraxial entrance pupil
    double slope_x() const { return l / n(); }
    double slope_y() const { return m / n(); }
    double n() const;
  };
  std::vector<Ray> rays;
  std::vector<Ray> edge;  // of the bundle, in order around it, without weight
  Length plane;           // behind the last vertex
};

// The light of `subject` on the plane `plane` behind the last vertex, spread evenly over the area
// of the entrance pupil as far as the clear apertures pass it: `rings` by `azimuths` rays placed
// and weighted as Gauss's rule has it, the bundle's edge found by bisection. The bundle is taken to
// be star-shaped around the chief ray, or around the middle of what passes where that is clipped.
// Empty when no light passes. Requires a stop or clear radii that limit the bundle, rings >= 1,
// an even number of azimuths, 4 or more.
std::optional<Spot> spot_of(const LensModel& lens, const SubjectPoint& subject, Length plane,
                            int rings = 12, int azimuths = 36);

// The functions below look at the film `shift` farther from the lens than the spot's plane.

struct SpotSize {
  Length x, y;     // centroid
  Length rms;      // root of the mean square distance from it
  Length largest;  // distance of the farthest ray from it
};
SpotSize size_of(const Spot& spot, Length shift = {});

// The shift with the smallest rms, and the one for sagittal or tangential lines alone.
Length best_shift(const Spot& spot);
Length best_shift(const Spot& spot, Lines lines);

// The one shift of a flat film that makes the mean square radius over `spots` smallest, each
// counting by its share in `weights`. Requires as many weights as spots, with a sum above 0.
Length best_shift(std::span<const Spot> spots, std::span<const double> weights);

// Contrast that is left of a sinusoidal pattern of `frequency`, 0 to 1, by the spread of the rays:
// the modulus of the spot's Fourier transform. Exact for the rays that there are; a spot many
// periods wide needs more of them.
double geometric_mtf(const Spot& spot, SpatialFrequency frequency, Lines lines, Length shift = {});

}  // namespace backfit
