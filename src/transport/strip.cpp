// SPDX-License-Identifier: MIT
#include "transport/strip.hpp"

#include <cassert>
#include <cmath>

namespace backfit {
namespace {

constexpr Angle whole_turn = 2 * std::numbers::pi * rad;

// +1 where the support lies to the left of the travelling strip, -1 to the right.
double side(Face face) { return face == Face::paper ? 1 : -1; }

// The strand's ends and its direction.
struct Tangent {
  Strand strand;
  Angle direction;
};

// With n the strand's left-hand normal, the strand lies at n.p = c, and each centre at
// c + side * radius: so n.(b - a) is known, and with it the direction.
std::optional<Tangent> tangent(const Support& a, const Support& b, Length thickness) {
  const Length of_a = side(a.face) * (a.radius + thickness / 2);
  const Length of_b = side(b.face) * (b.radius + thickness / 2);
  const SectionPoint between = b.centre - a.centre;
  const Length apart = hypot(between.x, between.z);
  const Length across = of_b - of_a;
  if (!(abs(across) < apart)) return {};
  const double sine = across / apart;
  const double cosine = std::sqrt((1 - sine) * (1 + sine));
  // The direction is that of `between` turned back by the angle of this sine.
  const SectionPoint along = (1 / (apart / mm)) * between;
  const SectionPoint e{cosine * along.x + sine * along.z, cosine * along.z - sine * along.x};
  const SectionPoint n{-e.z, e.x};
  return Tangent{{a.centre - (of_a / mm) * n, b.centre - (of_b / mm) * n},
                 std::atan2(e.z / mm, e.x / mm) * rad};
}

Wrap wrap(const Support& support, Length thickness, const Tangent& in, const Tangent& out) {
  Wrap w;
  w.centre = support.centre;
  w.radius = support.radius + thickness / 2;
  w.face = support.face;
  w.from = in.strand.to;
  w.to = out.strand.from;
  const SectionPoint first = w.from - w.centre;
  w.start = std::atan2(first.z / mm, first.x / mm) * rad;
  w.turn = side(support.face) * (out.direction - in.direction);
  while (w.turn < -whole_turn / 4) w.turn += whole_turn;
  while (w.turn >= whole_turn * 0.75) w.turn -= whole_turn;
  return w;
}

std::optional<StripPath> laid(std::span<const Support> supports, Length thickness, bool closed) {
  assert(supports.size() >= 2 && thickness >= Length{});
  const std::size_t count = supports.size();
  std::vector<Tangent> tangents;
  for (std::size_t i = 0; i + 1 < count + (closed ? 1 : 0); ++i) {
    const auto found = tangent(supports[i], supports[(i + 1) % count], thickness);
    if (!found) return {};
    tangents.push_back(*found);
  }
  StripPath path;
  path.strands.reserve(tangents.size());
  path.wraps.reserve(tangents.size());
  for (const Tangent& t : tangents) path.strands.push_back(t.strand);
  if (closed) path.wraps.push_back(wrap(supports[0], thickness, tangents.back(), tangents[0]));
  for (std::size_t i = 1; i < tangents.size(); ++i) {
    path.wraps.push_back(wrap(supports[i], thickness, tangents[i - 1], tangents[i]));
  }
  return path;
}

}  // namespace

SectionPoint Wrap::at(double t) const {
  const Angle direction = start + t * side(face) * turn;
  return centre + SectionPoint{radius * cos(direction), radius * sin(direction)};
}

Length StripPath::length() const {
  Length sum;
  for (const Strand& s : strands) sum += s.length();
  for (const Wrap& w : wraps) sum += w.length();
  return sum;
}

std::optional<StripPath> laid_strip(std::span<const Support> supports, Length thickness) {
  return laid(supports, thickness, false);
}

std::optional<StripPath> laid_belt(std::span<const Support> supports, Length thickness) {
  return laid(supports, thickness, true);
}

}  // namespace backfit
