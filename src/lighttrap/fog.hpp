// SPDX-License-Identifier: MIT
// How much light a film takes before it shows, and how soon a leak in full sun gives it that.
#pragma once
#include "quantity/light.hpp"
#include "quantity/measured.hpp"

namespace backfit {

// Light outside in full sun on a face turned to it, with the sky's: 100 000 lx, give or take
// 20 000 (direct sun up to 100 000: light-levels-article in data/sources.toml; brightest 120 000:
// light-levels-two-lists in data/sources.toml).
inline constexpr Measured<Illuminance> full_sun{1e5 * lux, 2e4 * lux};

// Exposure that raises the density of a film of speed S by `rise` over base and fog:
// 0.8 lx s / S at 0.10, where the speed is taken (film-speed-article in data/sources.toml for the
// point, slow-film-speeds in data/sources.toml for 0.8);
// below it in proportion, as the foot of the curve runs. Reciprocity failure, which spares film
// from faint light, is left out. Requires S > 0 and 0 < rise <= 0.10.
LuminousExposure fog_exposure(IsoSpeed speed, Density rise);

// Standard uncertainty of that exposure, in stops, from two rectangular parts: half a step of the
// marked speeds, a sixth of a stop either way; and for the foot's shape nothing at 0.10 rising to
// half a stop either way at a fifth of it (common practice, no source).
Stops fog_exposure_u(Density rise);

// When the film behind a leak gets there, lying against the inner mouth in full sun:
// fog_exposure() / (sun * through), infinite for a leak that passes nothing. `relative_u` is the
// time's standard uncertainty over the time, to first order, of sun, film and leak together.
struct FogTime {
  Density rise;
  Time time;
  double relative_u = 0;
};
// Requires through >= 0 and its standard uncertainty `through_u` >= 0.
FogTime time_to_fog(IsoSpeed speed, Density rise, double through, double through_u);

}  // namespace backfit
