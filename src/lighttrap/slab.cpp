// SPDX-License-Identifier: MIT
#include "lighttrap/slab.hpp"

#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <utility>

namespace backfit {

double transmission(const Slab& slab, Length thickness) {
  assert(thickness >= Length{} && slab.scattering_per_mm >= 0 && slab.absorption_per_mm >= 0);
  const double s = slab.scattering_per_mm, k = slab.absorption_per_mm, x = thickness / mm;
  const double decay = std::sqrt(k * (k + 2 * s));  // b S
  if (decay * x < 1e-6) return 1 / (1 + (s + k) * x);
  // Divided by cosh, so that thick slabs don't overflow before they pass nothing.
  return 1 / (((s + k) / decay * std::tanh(decay * x) + 1) * std::cosh(decay * x));
}

std::variant<Slab, std::string> slab_by(std::array<SlabReading, 2> readings) {
  if (readings[0].thickness > readings[1].thickness) std::swap(readings[0], readings[1]);
  const double x1 = readings[0].thickness / mm, x2 = readings[1].thickness / mm;
  const double stops1 = readings[0].less.value, stops2 = readings[1].less.value;
  if (!(x1 > 0 && x2 > x1)) return "two thicknesses are needed, both above nothing";
  if (!(stops1 > 0)) return fmt::format("{:g} mm passes all light, by its reading", x1);
  const double one = std::exp2(stops1), two = std::exp2(stops2);
  const double least = std::log2((one - 1) * x2 / x1 + 1), most = stops1 * x2 / x1;
  if (stops2 < least || stops2 > most) {
    return fmt::format(
        "{:g} mm takes {:g} stops, so {:g} mm takes {:.2f} to {:.2f}; found {:g}: measure both "
        "anew",
        x1, stops1, x2, least, most, stops2);
  }
  // 1/T = q sinh(d x) + cosh(d x), d the decay: q by the thinner one, d by halving for the thicker.
  const auto q = [&](double d) { return (one - std::cosh(d * x1)) / std::sinh(d * x1); };
  const auto too_little = [&](double d) {
    return q(d) * std::sinh(d * x2) + std::cosh(d * x2) < two;
  };
  double low = 1e-9 / x1, high = std::log(one) / x1;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2;
    (too_little(middle) ? low : high) = middle;
  }
  // q d = S + K and d^2 = K (K + 2 S).
  const double sum = q(low) * low, scattering = std::sqrt(std::max(0.0, sum * sum - low * low));
  return Slab{scattering, std::max(0.0, sum - scattering)};
}

}  // namespace backfit
