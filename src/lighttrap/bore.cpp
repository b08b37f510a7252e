// SPDX-License-Identifier: MIT
#include "lighttrap/bore.hpp"

#include <cassert>
#include <cmath>
#include <numbers>

#include "lighttrap/graded.hpp"

namespace backfit {

double view_between_discs(Length sending, Length receiving, Length distance) {
  assert(sending > Length{} && receiving > Length{} && distance >= Length{});
  const double s = receiving / sending, d = distance / sending;
  const double x = 1 + d * d + s * s;
  // x^2 - 4 s^2 as a product, so that two like discs close together lose no digits.
  return 2 * s * s / (x + std::sqrt((d * d + (1 - s) * (1 - s)) * (d * d + (1 + s) * (1 + s))));
}

Exchange exchange_of(const Bore& bore, std::size_t fineness) {
  assert(bore.diameter > Length{} && bore.length > Length{} && fineness >= 1);
  const Length radius = bore.diameter / 2;
  const double length = bore.length / radius;
  const std::vector<double> cuts = gap::graded_places(length, gap::longest_piece(length), fineness);
  const std::size_t n = cuts.size() - 1;
  constexpr double disc = std::numbers::pi;
  // Between two cross-sections; its change over a ring's two edges is what the ring takes.
  const auto sections = [&](double a, double b) {
    return disc * view_between_discs(radius, radius, std::abs(b - a) * radius);
  };
  const auto to_ring = [&](double from, std::size_t ring) {
    return std::abs(sections(from, cuts[ring]) - sections(from, cuts[ring + 1]));
  };
  Exchange x(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double width = cuts[i + 1] - cuts[i];
    x.area[i] = 2 * disc * width;
    x.entry[i] = to_ring(0, i);
    x.exit[i] = to_ring(cuts.back(), i);
    x.mutual(i, i) = x.area[i] - 2 * (disc - sections(0, width));
    for (std::size_t j = 0; j < i; ++j) {
      x.mutual(i, j) = x.mutual(j, i) = std::abs(to_ring(cuts[i], j) - to_ring(cuts[i + 1], j));
    }
  }
  x.mouth = disc;
  x.direct = sections(0, cuts.back());
  return x;
}

}  // namespace backfit
