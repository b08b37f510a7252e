// SPDX-License-Identifier: MIT
// Where the backing paper can be seen from behind, and which of those places shows the right
// number.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "conversion/path_study.hpp"

namespace backfit {
namespace {

constexpr Length step = 0.5 * mm, film_end = 5 * mm;
// How squarely the paper must face the back, as the cosine of its slant.
constexpr double squarely = 0.9;
constexpr Length window_radius = 4 * mm;

// How far from the window's middle nothing may stand: a printed lid has a tube round it.
Length window_room(const LayoutProblem& p) {
  if (!p.printed) return window_radius;
  const Length gap = p.printed->rod - p.rules.pin;
  return window_radius + gap + p.printed->wall + std::max(p.clear.turning, p.clear.film);
}

// A place of the film seen from behind.
struct Sight {
  SectionPoint at;
  Length along;  // from the gate's middle, with the film
  bool on_roll = false;
  bool in_gate = false;
};

// Whether nothing but the pressure plate stands between the place and the back.
bool is_in_sight(const PathStudy& s, const Sight& place) {
  const LayoutProblem& p = s.design.problem;
  const Length room = window_room(p);
  const Strand ray{place.at, {place.at.x, p.room.high.z}};
  const auto hidden_by = [&](SectionPoint centre, Length radius) {
    return centre.z > place.at.z && distance(centre, ray) < radius + room;
  };
  const Layout& l = *s.layout;
  const bool own_supply = place.on_roll && distance(place.at, l.supply) < p.spool.full + 1 * mm;
  const bool own_take_up = place.on_roll && distance(place.at, l.take_up) < p.spool.full + 1 * mm;
  if (!own_supply && hidden_by(l.supply, p.spool.full)) return false;
  if (!own_take_up && hidden_by(l.take_up, p.spool.full)) return false;
  for (const Guide& g : l.guides) {
    if (hidden_by(g.centre, g.radius)) return false;
  }
  // The film's own other strands.
  const StripPath path = film_of(p, l, 0.5);
  for (const Strand& strand : path.strands) {
    if (distance(place.at, strand) < 2 * mm) continue;
    if (distance(ray, strand) < room) return false;
  }
  return true;
}

// Places along the film at one state of winding, from the supply roll's turn before its strand to
// the take-up roll's turn behind its.
std::vector<Sight> sights(const PathStudy& s, double wound) {
  const LayoutProblem& p = s.design.problem;
  const Layout& l = *s.layout;
  const StripPath path = film_of(p, l, wound);
  const Radii radii = radii_at(p.spool, wound);
  Length before;  // from the supply roll to the gate's middle
  for (std::size_t i = 0; i < l.gate; ++i) {
    before += path.strands[i].length() + path.wraps[i].length();
  }
  before -= path.strands[l.gate].from.x;
  std::vector<Sight> seen;
  Length along = -before;
  for (std::size_t i = 0; i < path.strands.size(); ++i) {
    const Strand& strand = path.strands[i];
    const Length length = strand.length();
    const SectionPoint e = (1 / (length / mm)) * (strand.to - strand.from);
    // The paper's normal is to the left of the film's way: its part along z is e.x.
    if (e.x / mm >= squarely) {
      for (Length at; at <= length; at += step) {
        seen.push_back({strand.from + (at / length) * (strand.to - strand.from), along + at, false,
                        i == l.gate});
      }
    }
    along += length;
    if (i < path.wraps.size()) along += path.wraps[i].length();
  }
  // On a roll the paper faces outwards; it is seen where that is backwards, at its top. The film
  // turns right about a core.
  const auto top = [&](SectionPoint centre, Length radius, SectionPoint touch, Length at,
                       bool arriving) {
    const SectionPoint r = touch - centre;
    const Angle place = std::atan2(r.z / mm, r.x / mm) * rad;
    Angle turn = arriving ? place - 90 * deg : 90 * deg - place;
    while (turn < Angle{}) turn += 360 * deg;
    while (turn >= 360 * deg) turn -= 360 * deg;
    const Length arc = radius * (turn / rad);
    seen.push_back({centre + SectionPoint{0 * mm, radius}, at + (arriving ? arc : -arc), true});
  };
  top(l.take_up, radii.take_up, path.strands.back().to, along, true);
  top(l.supply, radii.supply, path.strands.front().from, -before, false);
  return seen;
}

}  // namespace

std::optional<WindowPlace> window_place(const PathStudy& s, const NumberRow& numbers, Length film) {
  const Length frame = s.design.problem.gate.frame;
  const auto reach = window_reach(numbers, film, frame, s.frames, film_end, film_end);
  if (!reach) return {};
  const std::vector<Sight> begin = sights(s, 0);
  const std::vector<Sight> middle = sights(s, 0.5);
  const std::vector<Sight> end = sights(s, 1);
  std::optional<WindowPlace> best;
  double least = std::numeric_limits<double>::infinity();
  for (const Sight& place : middle) {
    if (place.along < reach->least || place.along > reach->most) continue;
    if (!is_in_sight(s, place)) continue;
    // The same place of the camera at the roll's begin and end.
    const auto there = [&](const std::vector<Sight>& list) {
      return std::ranges::min_element(list, {},
                                      [&](const Sight& other) {
                                        return distance(other.at, place.at) +
                                               (other.on_roll != place.on_roll ? 99 * mm : 0 * mm);
                                      })
          ->along;
    };
    WindowPlace w{place.at, place.along, there(end) - there(begin), place.in_gate, place.on_roll,
                  {},       {}};
    const FrameRow row{s.frames, frame, numbers.first + w.along, numbers.pitch};
    w.first_margin = row.before_first();
    w.last_margin = row.behind_last(film);
    // Least drift, no hole in the plate if it can be helped, frames in the middle of the film.
    const double cost = 3 * (abs(w.drift) / mm) + (w.through_plate ? 20 : 0) +
                        abs(w.first_margin - w.last_margin) / mm / 10;
    if (cost >= least) continue;
    least = cost;
    best = w;
  }
  return best;
}

}  // namespace backfit
