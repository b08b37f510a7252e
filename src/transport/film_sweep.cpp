// SPDX-License-Identifier: MIT
// What room the film takes up as it winds.
#include <algorithm>
#include <cassert>
#include <cmath>

#include "transport/layout.hpp"

namespace backfit {
namespace {

constexpr int states = 12;
constexpr Length shy = 0.01 * mm;  // thinner on either face
constexpr Angle piece = 3 * deg;   // a chord of it stays outside a guide of 8 mm by that

// Anticlockwise, by the monotone chain (Andrew 1979).
SectionOutline hull(std::vector<SectionPoint> points) {
  std::ranges::sort(
      points, [](SectionPoint a, SectionPoint b) { return a.x != b.x ? a.x < b.x : a.z < b.z; });
  SectionOutline chain;
  const auto run = [&](const auto& list) {
    const std::size_t begin = chain.size();
    for (const SectionPoint p : list) {
      while (chain.size() >= begin + 2 &&
             cross(chain.back() - chain[chain.size() - 2], p - chain.back()) <= Area{}) {
        chain.pop_back();
      }
      chain.push_back(p);
    }
    chain.pop_back();
  };
  run(points);
  std::ranges::reverse(points);
  run(points);
  return chain;
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
  for (std::size_t i = 0; i < paths.front().strands.size(); ++i) {
    // A strand at a roll turns round its guide as the roll grows: from state to state by so little
    // that the hull of both leaves the guide outside.
    const auto corners = [&](const StripPath& path, std::vector<SectionPoint>& points) {
      const Strand& s = path.strands[i];
      const SectionPoint along = (half / s.length()) * (s.to - s.from), across{-along.z, along.x};
      for (const SectionPoint p : {s.from, s.to}) {
        points.push_back(p + across);
        points.push_back(p - across);
      }
    };
    const bool moves = i == 0 || i + 1 == paths.front().strands.size();
    const std::size_t pieces = moves ? std::max<std::size_t>(paths.size(), 2) - 1 : 1;
    for (std::size_t k = 0; k < pieces; ++k) {
      std::vector<SectionPoint> points;
      corners(paths[k], points);
      corners(paths[std::min(k + 1, paths.size() - 1)], points);
      all.push_back(hull(std::move(points)));
    }
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
  std::vector<StripPath> paths;
  for (int k = 0; k <= states; ++k) {
    paths.push_back(film_of(problem, layout, static_cast<double>(k) / states));
  }
  return outlines(problem, paths);
}

}  // namespace backfit
