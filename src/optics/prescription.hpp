// SPDX-License-Identifier: MIT
// A lens as its maker would grind it: surfaces, distances and glass, all centred on one axis.
// Light runs along +z; z counts from the vertex of surface 1; a radius is positive when its centre
// lies behind its vertex. Surfaces are numbered from 1 for people, from 0 in code.
#pragma once
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "optics/glass.hpp"

namespace backfit {

inline constexpr Length unlimited = std::numeric_limits<double>::infinity() * mm;

struct Prescription {
  struct Surface {
    Dioptre curvature;  // 1 / radius, 0 for a plane
    Length thickness;   // to the next vertex; of the last surface without meaning
    Medium after = Medium::air();
    Length clear_radius = unlimited;
  };
  std::vector<Surface> surfaces;
  std::optional<std::size_t> stop;  // the surface that the diaphragm lies in
};

// A prescription at one wavelength, in air.
struct LensModel {
  struct Surface {
    Dioptre curvature;
    Length z;
    double index_before = 1, index_after = 1;
    Length clear_radius = unlimited;
  };
  std::vector<Surface> surfaces;
  std::size_t stop = 0;
};

// The first surface whose medium has no known index at `wavelength`.
std::optional<std::size_t> unknown_index(const Prescription& lens, Length wavelength);

// `lens` at `wavelength`; without a stop the first surface counts as one. Requires at least one
// surface, every index known, and air behind the last surface.
LensModel model_of(const Prescription& lens, Length wavelength);

// The lens turned round: light enters by what was the last surface.
LensModel turned_round(const LensModel& lens);

// All lengths `factor` times as long: angles stay. Requires factor > 0.
Prescription scaled(Prescription lens, double factor);

// `front` set before `rear`, `gap` between last and first vertex; the stop is that of `rear`.
Prescription joined(const Prescription& front, Length gap, const Prescription& rear);

// Depth of a surface of `curvature` at height `height`: behind its vertex when positive.
// Requires |curvature| height <= 1.
Length sagitta(Dioptre curvature, Length height);

}  // namespace backfit
