// SPDX-License-Identifier: MIT
// Flash bulbs: their light over time, and how much of it an open shutter lets through.
#pragma once
#include <optional>

#include "exposure/shutter_light.hpp"
#include "quantity/light.hpp"

namespace backfit {

// A bulb's light over time: peak (t / t_p)^n exp(n (1 - t / t_p)) from the moment it is fired, a
// smooth rise and a longer fall; the larger n, the shorter the flash. A model: real bulbs scatter
// and flat-peak bulbs are flatter.
struct BulbLight {
  LuminousEnergy total;
  Time time_to_peak;
  double shape = 1;  // n
};

// Time for which the peak's flux would give the bulb's light: t_p e^n n^-(n+1) Gamma(n+1).
// Requires shape > 0.
Time equivalent_width(const BulbLight& bulb);
LuminousFlux peak_flux(const BulbLight& bulb);
LuminousFlux flux_at(const BulbLight& bulb, Time since_fired);

// The bulb of these ratings: n is solved from equivalent width = total / peak. Empty when the
// width is not between 0.02 and 4 times the time to peak, which no bulb is.
std::optional<BulbLight> bulb_with(LuminousEnergy total, Time time_to_peak, Time width);

// Share of the bulb's light given from `from` to `to` after it was fired, 0 to 1: a difference of
// regularised incomplete gamma functions.
double light_between(const BulbLight& bulb, Time from, Time to);

// When a shutter's first light comes, counted from the moment its contact fires the bulb. An X
// contact closes as the blades are fully open; an M contact `lead` before they begin to move.
Time first_light_of_x(const LeafShutter& shutter);
Time first_light_of_m(Time lead);
// From blades and a peak at 20 ms, about 12 ms. Source: photo-manual-on-flash in data/sources.toml
// (READ).
inline constexpr Time usual_m_lead = 12 * ms;

// Share of the bulb's light that passes a shutter whose first light comes `first_light` after
// firing (negative: it is open already), at a stop of `stop` of the widest diameter. Midpoint rule
// over the opening, 2000 steps.
double light_through(const BulbLight& bulb, const LeafShutter& shutter, double stop,
                     Time first_light);

}  // namespace backfit
