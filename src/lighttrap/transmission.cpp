// SPDX-License-Identifier: MIT
#include "lighttrap/transmission.hpp"

#include <array>
#include <cassert>
#include <cmath>

#include "lighttrap/bore.hpp"
#include "lighttrap/labyrinth.hpp"

namespace backfit {
namespace {

// Pieces half as long make a quarter of the error: Richardson's extrapolation over three meshes.
Transmission refined(const std::array<double, 3>& at) {
  const double before = at[1] + (at[1] - at[0]) / 3;
  const double last = at[2] + (at[2] - at[1]) / 3;
  return {last, std::abs(last - before)};
}

template <class Way>
Transmission transmission_of(const Way& way, const Wall& wall) {
  assert(wall.reflectance >= 0 && wall.reflectance <= 1);
  std::array<double, 3> at{};
  std::size_t fineness = 1;
  for (double& through : at) {
    through = passage(exchange_of(way, fineness), wall.reflectance).through;
    fineness *= 2;
  }
  return refined(at);
}

}  // namespace

Transmission transmission(const GapProfile& profile, const Wall& wall) {
  return transmission_of(profile, wall);
}

Transmission transmission(const Bore& bore, const Wall& wall) {
  return transmission_of(bore, wall);
}

bool sees_through(const GapProfile& profile) { return exchange_of(profile, 1).direct > 0; }

}  // namespace backfit
