// SPDX-License-Identifier: MIT
// How the colour of the light changes the speed of a material that does not see what a meter sees.
#pragma once
#include "quantity/light.hpp"

namespace backfit {

// The wavelengths that a material records, evenly between two ends: a rough model of its
// sensitivity, good to about a third of a stop.
struct SensitiveBand {
  Length from, to;
};
inline constexpr SensitiveBand blue_only{380 * nm, 500 * nm};       // graded paper
inline constexpr SensitiveBand blue_and_green{380 * nm, 550 * nm};  // variable-contrast paper
inline constexpr SensitiveBand orthochromatic{380 * nm, 580 * nm};
inline constexpr SensitiveBand panchromatic{380 * nm, 660 * nm};

// Stops by which a material of this band gets more exposure from `light` than from `reference` at
// the same illuminance: ratio of Planck's radiance over the band to Planck's radiance weighed by
// the eye, in both. The eye is a Gaussian, 1.019 exp(-285.4 (wavelength / um - 0.559)^2).
// For lamps and daylight, 2000 K to 20 000 K; not for fluorescent tubes and LEDs.
Stops gain_by_colour(SensitiveBand band, ColourTemperature light, ColourTemperature reference);
// The standard uncertainty of gain_by_colour(): half of the 0.3 stop by which the model is off.
inline constexpr Stops colour_model_doubt{0.15};

// The share of a light's lumens that lies in a band, 0 to 1, by the same Planck and Gaussian.
double metered_share(SensitiveBand band, ColourTemperature light);

inline constexpr ColourTemperature daylight{5500};
inline constexpr ColourTemperature tungsten{2856};

// The index that `index` in `reference` light becomes in `light`.
IsoSpeed index_in(IsoSpeed index, SensitiveBand band, ColourTemperature light,
                  ColourTemperature reference);

// The shift from one colour temperature to another: 10^6 / to - 10^6 / from. A filter that
// turns 3200 K to 5500 K shifts by -131.
Mired mired_shift(ColourTemperature from, ColourTemperature to);

}  // namespace backfit
