// SPDX-License-Identifier: MIT
// What pulling film over guides costs: friction, bending, the tension along a path.
// Derivations: docs/derivations/film-path.md.
#pragma once
#include <span>
#include <vector>

#include "transport/strip.hpp"

namespace backfit {

// Pull behind a fixed post over pull before it: exp(friction * wrap), of a perfectly limp strip
// (Euler and Eytelwein). The radius does not matter, and the angles of several posts add.
// Requires friction >= 0 and wrap >= 0.
double capstan_ratio(double friction, Angle wrap);

// Pull behind a roller over pull before it. Its pin of radius `pin` rubs in its bearing under the
// resultant of both pulls: (1 + k)/(1 - k), k = friction * pin / radius * sin(wrap/2). Both pulls
// count as equal in the direction of the resultant. Requires 0 <= k < 1.
double roller_ratio(double bearing_friction, Length pin, Length radius, Angle wrap);

// E w t^3 / 12 of a flat strip.
BendingStiffness bending_stiffness(Pressure modulus, Length width, Length thickness);

// Share by which the outer face is longer than the middle line: t / (2R), R at the middle line.
double outer_fibre_strain(Length thickness, Length radius);

// Length over which a strip under tension bends into a new direction: sqrt(EI / T).
Length bending_length(BendingStiffness stiffness, Force tension);

// The angle on each side by which a stiff strip leaves a cylinder sooner than a limp one, up to
// half the wrap: acos(1 - EI/(2 T R^2)), R at the middle line (first integral of the elastica:
// EI/(2 R^2) = T (1 - cos)). Half the wrap when it touches along a line only.
Angle lift_off(BendingStiffness stiffness, Force tension, Length radius, Angle wrap);

// How far outside the tangent of the support the far strand of a stiff strip runs: EI/(2 T R) when
// it lies on the support; 2 l sin(wrap/4) - R (1 - cos(wrap/2)), l the bending length, where it
// touches along a line only. A free strand; one shorter than a bending length stands off less.
Length stand_off(BendingStiffness stiffness, Force tension, Length radius, Angle wrap);

enum class Motion { fixed, turning };

// What a support does to the strip.
struct Rub {
  Motion motion = Motion::turning;
  double friction = 0;  // film on a fixed post, or pin in its bearing
  Length pin;           // of a turning one
};

// A strip's own resistance.
struct Pulling {
  BendingStiffness stiffness;
  double bending_loss = 0;  // share of the bending work that bending and unbending eats
  Force gate_drag;          // of pressure plate and rails
  std::size_t gate = 0;     // index of the strand in the gate
};

// The pull behind a support: before * ratio + loss * EI/(2 R^2).
Force pull_behind(Force before, const Wrap& wrap, const Rub& rub, const Pulling& pulling);

// Tension of each strand, from that off the supply roll on. `rubs` as `path.wraps`.
// Requires one rub for each wrap and pulling.gate < path.strands.size().
std::vector<Force> tensions(const StripPath& path, std::span<const Rub> rubs, Force supply,
                            const Pulling& pulling);

}  // namespace backfit
