// SPDX-License-Identifier: MIT
// The marked numbers of stops, speeds and films, and the true ones that they stand for.
#pragma once
#include <string>

#include "quantity/light.hpp"

namespace backfit {

// The f-number that `marked` rounds: the nearest of the series 2^(k/6), thirds of a stop that the
// old and the new series of full stops both lie on (f/12.5 is 12.70, f/11 is 11.31); `marked`
// itself when none lies within a tenth of a stop. Requires marked > 0.
FNumber true_stop(FNumber marked);

// The time that `marked` rounds: the nearest of 2^(k/3) s (1/125 is 1/128, 1/100 is 1/101.6);
// `marked` itself when none lies within a tenth of a stop. Requires marked > 0.
Time true_speed(Time marked);

// The logarithmic speed 1 + 10 log10 S, to the degree. Requires S > 0.
int degrees_of(IsoSpeed speed);

// The standard arithmetic speed nearest to `speed` on the logarithmic scale: steps of a tenth in
// log10, three to the stop, named as films are (... 0.6, 0.8, 1, 1.3, 1.6, 2, 2.5, 3, 4 ... 100,
// 125, 160 ...). Requires S > 0. Source: slow-film-speeds in data/sources.toml (READ).
IsoSpeed standard_speed(IsoSpeed speed);

// `stops` to the nearest third, as filters and meters are marked.
Stops to_thirds(Stops stops);
// "+1 2/3", "-1/3", "0": thirds of a stop with their sign.
std::string thirds_text(Stops stops);

// "1/125 s", "2.5 s", "45 s", "3 min 20 s", "1 h 25 min": a time as a photographer says it, to
// about two figures.
std::string shutter_text(Time time);

// "1/130", "2.3 s", "45 s", "1.5 min", "1.4 h": the same for the narrow columns of a table.
std::string narrow_text(Time time);

// "1/125 s", "2 s": a speed as a shutter is marked with it.
std::string speed_mark(Time marked);

}  // namespace backfit
