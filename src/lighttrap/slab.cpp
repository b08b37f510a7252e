// SPDX-License-Identifier: MIT
#include "lighttrap/slab.hpp"

#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <optional>
#include <utility>

#include "quantity/notation.hpp"

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
  const double stops1 = readings[0].less.value;
  double stops2 = readings[1].less.value;
  if (!(x1 > 0 && x2 > x1)) return "two thicknesses are needed, both above nothing";
  if (!(stops1 > 0)) return fmt::format("{:g} mm passes all light, by its reading", x1);
  const double one = std::exp2(stops1);
  const double least = std::log2((one - 1) * x2 / x1 + 1), most = stops1 * x2 / x1;
  // Print that hardly scatters is read beyond what it can be as often as within it.
  const double doubt =
      coverage_95 *
      std::hypot(std::hypot(readings[1].less_u.value, x2 / x1 * readings[0].less_u.value),
                 stops1 / x1 * (readings[1].thickness_u / mm),
                 stops1 / x1 * x2 / x1 * (readings[0].thickness_u / mm));
  if (stops2 > most && stops2 <= most + doubt) stops2 = most;
  const double two = std::exp2(stops2);
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

SlabPass pass_by(const std::array<SlabReading, 2>& readings, Length thickness) {
  const auto less = [thickness](const std::array<SlabReading, 2>& r) -> std::optional<double> {
    const auto slab = slab_by(r);
    const auto* found = std::get_if<Slab>(&slab);
    if (found == nullptr) return {};
    return -std::log2(transmission(*found, thickness));
  };
  const std::optional<double> as_read = less(readings);
  assert(as_read);
  // How the stops change with one of the four numbers, a tenth of its uncertainty to either side;
  // to one side alone where no slab is on the other.
  const auto change = [&](std::size_t i, Length thicker, Stops more) {
    const auto moved = [&](double way) {
      std::array<SlabReading, 2> r = readings;
      r.at(i).thickness += way * thicker;
      r.at(i).less.value += way * more.value;
      return less(r);
    };
    constexpr double step = 0.1;
    const std::optional<double> up = moved(step), down = moved(-step);
    if (up && down) return (*up - *down) / (2 * step);
    if (up) return (*up - *as_read) / step;
    return down ? (*as_read - *down) / step : 0;
  };
  double square = 0;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const double by_thickness = change(i, readings.at(i).thickness_u, {});
    const double by_less = change(i, {}, readings.at(i).less_u);
    square += by_thickness * by_thickness + by_less * by_less;
  }
  return {std::exp2(-*as_read), {std::sqrt(square)}};
}

}  // namespace backfit
