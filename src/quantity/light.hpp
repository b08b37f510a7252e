// SPDX-License-Identifier: MIT
// Amounts of light, and the scales that photographers count it on.
#pragma once
#include <cmath>
#include <compare>

#include "quantity/quantity.hpp"

namespace backfit {

using LuminousFlux = Quantity<Dimension{.flux = 1}>;
using LuminousEnergy = Quantity<Dimension{.time = 1, .flux = 1}>;  // lm s
using Illuminance = Quantity<Dimension{.length = -2, .flux = 1}>;
using LuminousExposure = Quantity<Dimension{.length = -2, .time = 1, .flux = 1}>;  // lx s
using Luminance = Quantity<Dimension{.length = -2, .angle = -2, .flux = 1}>;
// Luminous intensity times time: what a flash gives in the direction of its beam.
using BeamEnergy = Quantity<Dimension{.time = 1, .angle = -2, .flux = 1}>;
using Energy = Quantity<Dimension{.length = 2, .time = -2, .mass = 1}>;

inline constexpr LuminousFlux lumen = LuminousFlux::of_base(1);
inline constexpr LuminousEnergy lumen_second = lumen * second;
inline constexpr Illuminance lux = lumen / (metre * metre);
inline constexpr LuminousExposure lux_second = lux * second;
inline constexpr Luminance cd_per_m2 = lumen / (metre * metre) / (rad * rad);
inline constexpr BeamEnergy candela_second = lumen / (rad * rad) * second;
inline constexpr Energy joule = Energy::of_base(1e3);  // tonne mm2/s2
inline constexpr Length foot = 12 * inch;
inline constexpr Illuminance foot_candle = lumen / (foot * foot);

constexpr Stops operator+(Stops a, Stops b) { return {a.value + b.value}; }
constexpr Stops operator-(Stops a, Stops b) { return {a.value - b.value}; }
constexpr Stops operator-(Stops a) { return {-a.value}; }

// A factor of light in stops, log2(factor), and back. Requires factor > 0.
inline Stops stops_of(double factor) { return {std::log2(factor)}; }
inline double factor_of(Stops stops) { return std::exp2(stops.value); }

// An exposure value: log2(N^2 / t) with t in seconds. A setting, not a difference: those are Stops.
struct Ev {
  double value = 0;
  friend constexpr auto operator<=>(const Ev&, const Ev&) = default;
};
constexpr Stops operator-(Ev a, Ev b) { return {a.value - b.value}; }
constexpr Ev operator+(Ev a, Stops b) { return {a.value + b.value}; }

// An optical density, log10(1 / transmittance) or log10(1 / reflectance).
struct Density {
  double value = 0;
  friend constexpr auto operator<=>(const Density&, const Density&) = default;
};
constexpr Density operator+(Density a, Density b) { return {a.value + b.value}; }
constexpr Density operator-(Density a, Density b) { return {a.value - b.value}; }
constexpr Density operator-(Density a) { return {-a.value}; }

// What a density takes of the light: D / log10(2) stops.
inline Stops stops_of(Density density) { return {density.value / std::log10(2.0)}; }

// A shift of colour in millionths of a reciprocal kelvin, as a filter makes it: amber is above 0.
struct Mired {
  double value = 0;
  friend constexpr auto operator<=>(const Mired&, const Mired&) = default;
};

// The temperature of the black body whose light has the same colour.
struct ColourTemperature {
  double kelvin = 0;
  friend constexpr auto operator<=>(const ColourTemperature&, const ColourTemperature&) = default;
};

}  // namespace backfit
