// SPDX-License-Identifier: MIT
// How a strip of film lies over rollers, posts and rolls: straight strands, arcs, lengths, bends.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "transport/section.hpp"

namespace backfit {

// The face of the strip that a support touches. Travelling along the strip, the paper lies to the
// left and the emulsion to the right (x to the right, z up).
enum class Face { emulsion, paper };
inline constexpr Face other(Face face) {
  return face == Face::emulsion ? Face::paper : Face::emulsion;
}

// Something round that the strip runs over. Requires radius > 0.
struct Support {
  SectionPoint centre;
  Length radius;
  Face face = Face::emulsion;
};

// The strip where it lies on a support: its middle line from `from` to `to` about `centre`.
struct Wrap {
  SectionPoint centre;
  Length radius;  // of the middle line: the support's own and half the strip
  Face face = Face::emulsion;
  SectionPoint from, to;
  Angle start;  // direction of `from` seen from `centre`, anticlockwise from +x
  // How far the strip turns round the support: 0 where it only touches, negative down to a quarter
  // turn where it would have to be pulled away from its support, which so guides nothing. Less
  // than three quarters of a turn.
  Angle turn;
  Length length() const { return radius * (turn / rad); }
  // Bend of the face that lies on the support, and of the face that lies outside.
  Length inner_radius(Length thickness) const { return radius - thickness / 2; }
  Length outer_radius(Length thickness) const { return radius + thickness / 2; }
  // The point of the middle line that lies a share `t` of the turn behind `from`.
  SectionPoint at(double t) const;
};

// Strands and wraps in turn. `strands[i]` runs from support i to support i + 1; `wraps[i]` is on
// support i + 1, between strands i and i + 1, or on support i of a closed belt.
struct StripPath {
  std::vector<Strand> strands;
  std::vector<Wrap> wraps;
  Length length() const;
};

// The strip of `thickness` that comes off the first support, runs over the others in their order
// and on to the last, each at its face. Exact tangents and arcs of the middle line (Euclid).
// Requires two supports or more and thickness >= 0. Empty where two neighbours overlap so far that
// no tangent exists.
std::optional<StripPath> laid_strip(std::span<const Support> supports, Length thickness);

// The same, closed from the last support to the first: a belt. Requires two supports or more.
std::optional<StripPath> laid_belt(std::span<const Support> supports, Length thickness);

}  // namespace backfit
