// SPDX-License-Identifier: MIT
#include "lighttrap/panes.hpp"

#include <algorithm>
#include <cmath>
#include <span>

namespace backfit::ray {
namespace {

constexpr std::size_t most_panes = 32;
// Panes are no thinner than this part of their distance, half of each side, and filled if their
// area is so many times that of all that is on them.
constexpr double thinnest = 1.5e-3, widest = 0.5, loose = 20;

// A plane square to a way from a place: where it is seen from there.
struct Screen {
  Vec from, way;
  double square;
  Vec seen(Vec at) const {
    const Vec w = at - from;
    // What reaches round behind the place is taken as far to the side.
    return square / std::max(dot(w, way), 0.05 * square) * w - way;
  }
  double area(const Spot& s) const {
    const Vec a = seen(s.corners[0]);
    return length(cross(seen(s.corners[1]) - a, seen(s.corners[2]) - a)) / 2;
  }
};

// A pane about spots, square to the way to their middle and along where they lie widest apart.
struct Framed {
  Aim::Pane pane;
  Screen screen;
};
Framed framed(Vec from, std::span<const Spot> spots) {
  Aim::Pane pane;
  for (const Spot& s : spots) {
    pane.light += s.light;
    pane.middle = pane.middle + s.light * s.place;
  }
  pane.middle = 1 / pane.light * pane.middle;
  const Vec way = pane.middle - from;
  const double far = length(way);
  const Screen screen{from, way, far * far};
  const auto [one, two] = across(1 / far * way);
  double xx = 0, xy = 0, yy = 0;
  for (const Spot& s : spots) {
    for (const Vec& corner : s.corners) {
      const Vec on = screen.seen(corner);
      const double x = dot(on, one), y = dot(on, two);
      xx += x * x;
      xy += x * y;
      yy += y * y;
    }
  }
  const double turn = std::atan2(2 * xy, xx - yy) / 2, c = std::cos(turn), sn = std::sin(turn);
  const Vec along = c * one + sn * two, beside = c * two - sn * one;
  double low_x = HUGE_VAL, low_y = HUGE_VAL, high_x = -HUGE_VAL, high_y = -HUGE_VAL;
  for (const Spot& s : spots) {
    for (const Vec& corner : s.corners) {
      const Vec on = screen.seen(corner);
      const double x = dot(on, along), y = dot(on, beside);
      low_x = std::min(low_x, x);
      high_x = std::max(high_x, x);
      low_y = std::min(low_y, y);
      high_y = std::max(high_y, y);
    }
  }
  const double least = thinnest * far;
  pane.middle = pane.middle + (low_x + high_x) / 2 * along + (low_y + high_y) / 2 * beside;
  pane.one = std::max(least, (high_x - low_x) / 2) * along;
  pane.two = std::max(least, (high_y - low_y) / 2) * beside;
  return {pane, screen};
}

}  // namespace

std::vector<Aim::Pane> panes_about(Vec from, std::vector<Spot> spots) {
  struct Part {
    std::span<Spot> spots;
    Aim::Pane pane;
    bool filled = false;
  };
  const auto part_of = [from](std::span<Spot> of) {
    const auto [pane, screen] = framed(from, of);
    double area = 0;
    for (const Spot& s : of) area += screen.area(s);
    const double whole = 4 * length(pane.one) * length(pane.two);
    return Part{
        of, pane,
        of.size() == 1 || (whole < loose * area && length(pane.one) < widest * length(screen.way))};
  };
  std::vector<Part> parts;
  if (!spots.empty()) parts.push_back(part_of(spots));
  while (parts.size() < most_panes) {
    Part* brightest = nullptr;
    for (Part& p : parts) {
      if (!p.filled && (brightest == nullptr || p.pane.light > brightest->pane.light))
        brightest = &p;
    }
    if (brightest == nullptr) break;
    const std::span<Spot> all = brightest->spots;
    const Vec along = brightest->pane.one;
    const auto ahead = [&](const Spot& s) { return dot(unit(s.place - from), along); };
    const auto [low, high] = std::minmax_element(
        all.begin(), all.end(), [&](const Spot& a, const Spot& b) { return ahead(a) < ahead(b); });
    const double middle = (ahead(*low) + ahead(*high)) / 2;
    const auto second =
        std::partition(all.begin(), all.end(), [&](const Spot& s) { return ahead(s) < middle; });
    const auto first = static_cast<std::size_t>(second - all.begin());
    if (first == 0 || first == all.size()) {
      brightest->filled = true;
      continue;
    }
    *brightest = part_of(all.first(first));
    parts.push_back(part_of(all.subspan(first)));
  }
  std::vector<Aim::Pane> panes;
  panes.reserve(parts.size());
  for (const Part& p : parts) panes.push_back(p.pane);
  return panes;
}

}  // namespace backfit::ray
