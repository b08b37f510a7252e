// SPDX-License-Identifier: MIT
#include "lighttrap/transmission.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "lighttrap/bore.hpp"
#include "lighttrap/gloss.hpp"
#include "lighttrap/labyrinth.hpp"

namespace backfit {
namespace {

template <class Way>
Transmission matt_transmission(const Way& way, double reflectance) {
  std::array<double, 3> at{};
  std::size_t fineness = 1;
  for (double& through : at) {
    through = passage(exchange_of(way, fineness), reflectance).through;
    fineness *= 2;
  }
  return refined(at);
}

constexpr std::size_t glossy_rays = 512;

// Four sets of rays on the finer of two meshes, and one on the coarser: the spread of the four
// tells how far off the rays are, the step from mesh to mesh how far off the pieces.
template <class Exchanged>
Transmission glossy_transmission(const Exchanged& exchanged, double reflectance) {
  const auto part = [&](std::size_t fineness, double shift) {
    return passage(exchanged(fineness, shift), reflectance).through;
  };
  double mean = 0, squares = 0, coarse = 0;
  for (const double shift : {0.0, 0.25, 0.5, 0.75}) {
    const double through = part(2, shift);
    mean += through / 4;
    squares += through * through / 4;
    coarse += part(1, shift) / 4;
  }
  const double spread = std::sqrt(std::max(0.0, squares - mean * mean) / 3);
  return {mean, std::hypot(2 * spread, (mean - coarse) / 3)};
}

}  // namespace

Transmission refined(const std::array<double, 3>& at) {
  const double before = at[1] + (at[1] - at[0]) / 3;
  const double last = at[2] + (at[2] - at[1]) / 3;
  // Where the meshes are too coarse to extrapolate from, the finest one's answer stands.
  if (!(last > 0)) return {at[2], std::abs(at[2] - at[1])};
  return {last, std::abs(last - before)};
}

Transmission transmission(const GapProfile& profile, const Wall& wall, Length seam) {
  assert(wall.reflectance >= 0 && wall.reflectance <= 1 && wall.gloss_index >= 1);
  if (wall.gloss_index == 1) return matt_transmission(profile, wall.reflectance);
  const auto exchanged = [&](std::size_t fineness, double shift) {
    return glossy_exchange(profile, wall.gloss_index, fineness, glossy_rays, shift, seam);
  };
  return glossy_transmission(exchanged, wall.reflectance);
}

Transmission transmission(const Bore& bore, const Wall& wall) {
  assert(wall.reflectance >= 0 && wall.reflectance <= 1 && wall.gloss_index >= 1);
  if (wall.gloss_index == 1) return matt_transmission(bore, wall.reflectance);
  const auto exchanged = [&](std::size_t fineness, double shift) {
    return glossy_exchange(bore, wall.gloss_index, fineness, glossy_rays, shift);
  };
  return glossy_transmission(exchanged, wall.reflectance);
}

bool sees_through(const GapProfile& profile) { return exchange_of(profile, 1).direct > 0; }

}  // namespace backfit
