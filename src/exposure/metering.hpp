// SPDX-License-Identifier: MIT
// From light on or off the subject to an exposure, by the equations of exposure meters (ISO 2720)
// with their constants named.
#pragma once
#include "quantity/light.hpp"

namespace backfit {

// K of the reflected-light equation N^2 / t = L S / K.
struct ReflectedConstant {
  Quantity<Dimension{.length = -2, .time = 1, .angle = -2, .flux = 1}> value;
};
// C of the incident-light equation N^2 / t = E S / C.
struct IncidentConstant {
  LuminousExposure value;
};

// In use by meters; the standard's range is 10.6 to 13.4. Source: meter-calibration in
// data/sources.toml (READ).
inline constexpr ReflectedConstant reflected_12_5{12.5 * cd_per_m2 * second};
inline constexpr ReflectedConstant reflected_14{14.0 * cd_per_m2 * second};
// A flat receptor. Source: exposure-value-article in data/sources.toml (READ).
inline constexpr IncidentConstant incident_flat{250 * lux_second};
// A hemispherical receptor, in common use; from memory, as is its range of 320 to 540.
inline constexpr IncidentConstant incident_dome{340 * lux_second};

// log2(N^2 / t). Requires N > 0 and t > 0.
Ev ev_of(FNumber aperture, Time time);
// log2(L S / K) and log2(E S / C): the setting that the light asks for. Requires all > 0.
Ev ev_of(Luminance light, IsoSpeed speed, ReflectedConstant k = reflected_12_5);
Ev ev_of(Illuminance light, IsoSpeed speed, IncidentConstant c = incident_flat);

// The light that asks for `ev`: 2^ev K / S and 2^ev C / S. Requires S > 0.
Luminance luminance_of(Ev ev, IsoSpeed speed, ReflectedConstant k = reflected_12_5);
Illuminance illuminance_of(Ev ev, IsoSpeed speed, IncidentConstant c = incident_flat);

// The time and the f-number that make `ev`: N^2 / 2^ev and sqrt(2^ev t).
Time time_at(Ev ev, FNumber aperture);
FNumber aperture_at(Ev ev, Time time);

// The share q of a camera's light, E = q L / N^2: (pi / 4) T v cos^4 of the angle off axis, with
// the lens's transmittance T and vignetting factor v, both 0 to 1.
double camera_share(double transmittance, double vignetting, Angle off_axis);
// T = 0.90, v = 0.98 and 10 degrees off axis give 0.65 (the three from memory).
inline constexpr double usual_camera_share = 0.65;

// Illuminance on film of a subject of luminance L at infinity: q L / N^2. Requires N > 0.
Illuminance film_illuminance(Luminance subject, FNumber aperture,
                             double share = usual_camera_share);

// Exposure that a metered mid-tone gets on film: q K / S. Requires S > 0.
LuminousExposure metered_exposure(IsoSpeed speed, ReflectedConstant k = reflected_12_5,
                                  double share = usual_camera_share);

}  // namespace backfit
