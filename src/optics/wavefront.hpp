// SPDX-License-Identifier: MIT
// How much contrast of a fine pattern survives the lens when light is taken as waves.
// Derivation: docs/derivations/mtf.md.
#pragma once
#include <vector>

#include "optics/spot.hpp"

namespace backfit {

// Contrast that a lens without aberrations leaves, with a round opening and in focus:
// (2 / pi) (acos q - q sqrt(1 - q^2)), q = wavelength N frequency; 0 from q = 1 on.
double diffraction_limit(Length wavelength, FNumber aperture, SpatialFrequency frequency);

// The wave of one subject point behind the lens, as amplitude and phase of the plane waves that it
// is made of, each by its direction cosines (l, m).
class Wavefront {
 public:
  // Fits polynomials in (l, m) to the rays of `spot`, which must be traced at `wavelength`.
  // Requires a bundle whose outline in (l, m) is convex.
  Wavefront(const Spot& spot, Length wavelength);

  // Contrast that is left of a sinusoidal pattern of `frequency`, 0 to 1, on a film `shift` farther
  // from the lens than the spot's plane: the wave's autocorrelation over its directions.
  double mtf(SpatialFrequency frequency, Lines lines, Length shift = {}) const;

  // Root of the mean square difference of the fitted phase from the rays', in wavelengths.
  double fit_error() const { return fit_error_; }

 private:
  // A sum of Chebyshev products over the box around the bundle, row by row in m.
  using Coefficients = std::vector<double>;
  struct Chord {
    double from = 0, to = 0;
    double length() const { return to - from; }
  };
  // What of the line at `across` lies inside the bundle: along m for tangential lines at that l,
  // along l for sagittal ones at that m.
  Chord chord(Lines lines, double across) const;
  // The stretch of lines whose chord is longer than `offset`; empty when none is.
  Chord overlap(Lines lines, double offset) const;

  Length wavelength_;
  Spot spot_;
  Chord l_, m_;                     // the box
  Coefficients phase_, amplitude_;  // phase in wavelengths
  double fit_error_ = 0;
};

}  // namespace backfit
