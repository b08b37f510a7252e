// SPDX-License-Identifier: MIT
// What room the film takes up as it winds.
#include <algorithm>
#include <cassert>
#include <cmath>
#include <functional>
#include <utility>

#include "transport/layout.hpp"

namespace backfit {
namespace {

constexpr Angle step = 3 * deg;    // by which a strand may turn from one piece to the next
constexpr Length shy = 0.01 * mm;  // thinner on either face
constexpr Length past_roll = 0.5 * mm;
constexpr Angle piece = 3 * deg;  // a chord of it stays outside a guide of 8 mm by that

// Anticlockwise, and no corner twice.
SectionOutline tidied(const SectionOutline& corners) {
  SectionOutline outline;
  Area twice;
  for (const SectionPoint p : corners) {
    if (!outline.empty() && distance(outline.back(), p) < shy / 10) continue;
    if (!outline.empty()) twice = twice + cross(outline.back(), p);
    outline.push_back(p);
  }
  if (twice + cross(outline.back(), outline.front()) < Area{}) std::ranges::reverse(outline);
  return outline;
}

// What a strand between a guide and a roll passes through. It turns round the guide as the roll
// grows: from where it lies on it longest its end walks along the guide to where it does least.
SectionOutline swept(const std::vector<StripPath>& paths, std::size_t strand, std::size_t guide,
                     Length half) {
  const bool from_roll = strand == guide;
  std::vector<const StripPath*> states;
  states.reserve(paths.size());
  for (const StripPath& path : paths) states.push_back(&path);
  std::ranges::stable_sort(states, std::greater{},
                           [&](const StripPath* p) { return p->wraps[guide].turn; });
  // A corner of the strand: at the guide or at the roll, on the guide's side or the other.
  const auto corner = [&](const StripPath& path, bool at_guide, bool inner) {
    const Strand& s = path.strands[strand];
    // Past the tangent point of the roll, so that its path from state to state is held as well.
    const SectionPoint past =
        (past_roll / s.length()) * (from_roll ? s.from - s.to : s.to - s.from);
    const SectionPoint at =
        at_guide ? (from_roll ? s.to : s.from) : (from_roll ? s.from : s.to) + past;
    const SectionPoint touch = from_roll ? s.to : s.from, centre = path.wraps[guide].centre;
    const SectionPoint in = (half / distance(touch, centre)) * (centre - touch);
    return inner ? at + in : at - in;
  };
  SectionOutline outline{corner(*states.front(), false, true)};
  for (const StripPath* path : states) outline.push_back(corner(*path, true, true));
  outline.push_back(corner(*states.back(), true, false));
  std::ranges::reverse(states);
  for (const StripPath* path : states) outline.push_back(corner(*path, false, false));
  return tidied(outline);
}

SectionOutline straight(const Strand& s, Length half) {
  const SectionPoint along = (half / s.length()) * (s.to - s.from), across{-along.z, along.x};
  return {s.from - across, s.to - across, s.to + across, s.from + across};
}

// Where a wrap lies on its support, anticlockwise from `from`.
struct Arc {
  Angle from, to;
};
Arc arc_of(const Wrap& w) {
  const Angle from = w.face == Face::paper ? w.start : w.start - w.turn;
  return {from, from + w.turn};
}

SectionOutline bent(const Wrap& w, const Arc& arc, Length half) {
  const int count = std::max(1, static_cast<int>(std::ceil((arc.to - arc.from) / piece)));
  SectionOutline outline;
  const auto at = [&](int k, Length radius) {
    const Angle way = arc.from + (static_cast<double>(k) / count) * (arc.to - arc.from);
    outline.push_back(w.centre + SectionPoint{radius * cos(way), radius * sin(way)});
  };
  for (int k = 0; k <= count; ++k) at(k, w.radius + half);
  for (int k = count; k >= 0; --k) at(k, w.radius - half);
  return outline;
}

std::vector<SectionOutline> outlines(const LayoutProblem& problem,
                                     const std::vector<StripPath>& paths) {
  const Length half = problem.strip.thickness / 2 - shy;
  std::vector<SectionOutline> all;
  const std::size_t last = paths.front().strands.size() - 1;
  for (std::size_t i = 0; i <= last; ++i) {
    const bool moves = i == 0 || i == last;
    all.push_back(moves ? swept(paths, i, i == 0 ? 0 : last - 1, half)
                        : straight(paths.front().strands[i], half));
  }
  for (std::size_t i = 0; i < paths.front().wraps.size(); ++i) {
    const Wrap& first = paths.front().wraps[i];
    Arc widest = arc_of(first);
    for (const StripPath& path : paths) {
      const Arc arc = arc_of(path.wraps[i]);
      // Angles are told within a turn of each other.
      const double turns = std::round((widest.from - arc.from) / (360 * deg));
      widest.from = std::min(widest.from, arc.from + turns * 360 * deg);
      widest.to = std::max(widest.to, arc.to + turns * 360 * deg);
    }
    if (widest.to > widest.from) all.push_back(bent(first, widest, half));
  }
  return all;
}

}  // namespace

std::vector<SectionOutline> film_body(const LayoutProblem& problem, const Layout& layout,
                                      double wound) {
  return outlines(problem, {film_of(problem, layout, wound)});
}

std::vector<SectionOutline> film_sweep(const LayoutProblem& problem, const Layout& layout) {
  const auto turned = [](const Strand& a, const Strand& b) {
    const SectionPoint one = a.to - a.from, other = b.to - b.from;
    return abs(std::atan2(cross(one, other) / mm2, dot(one, other) / mm2) * rad);
  };
  // Halved until no strand turns by more than a step from one state to the next: radii, and with
  // them directions, change fastest near the core.
  std::vector<StripPath> paths{film_of(problem, layout, 0)};
  const std::function<void(double, double)> go_on = [&](double from, double to) {
    StripPath next = film_of(problem, layout, to);
    const Angle most = std::max(turned(paths.back().strands.front(), next.strands.front()),
                                turned(paths.back().strands.back(), next.strands.back()));
    if (most > step) {
      go_on(from, (from + to) / 2);
      go_on((from + to) / 2, to);
    } else {
      paths.push_back(std::move(next));
    }
  };
  go_on(0, 0.5);
  go_on(0.5, 1);
  return outlines(problem, paths);
}

}  // namespace backfit
