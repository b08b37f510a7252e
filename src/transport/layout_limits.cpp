// SPDX-License-Identifier: MIT
// What a placed layout must keep: room, distance, a way in for the spools, film that touches
// nothing but its guides.
#include <algorithm>
#include <cmath>
#include <limits>

#include "transport/layout_model.hpp"

namespace backfit {
namespace {

using Kind = LayoutModel::Body::Kind;

// Wraps: enough to guide; a fixed end only as far as it wears nothing (common practice).
struct WrapRange {
  Angle least, most;
};
WrapRange wrap_range(Kind kind) {
  switch (kind) {
    case Kind::lip:
      return {0.5 * deg, 6 * deg};
    case Kind::post:
      return {0.5 * deg, 30 * deg};
    case Kind::roller:
    case Kind::spool:
      break;
  }
  return {10 * deg, 250 * deg};
}
constexpr double mm_per_rad = 10;  // an angle short counts as so many millimetres short

void push(Evaluation& out, Length spare) { out.spare.push_back(spare / mm); }

// Lower bound of the distance between two boxes.
Length box_gap(SectionPoint low, SectionPoint high, SectionPoint low2, SectionPoint high2) {
  return std::max(std::max(low2.x - high.x, low.x - high2.x),
                  std::max(low2.z - high.z, low.z - high2.z));
}
// A gap, told exactly only where it matters.
constexpr Length far_enough = 9 * mm;
Length gap_to(const LayoutModel::Obstacle& o, const Strand& s) {
  const SectionPoint low{std::min(s.from.x, s.to.x), std::min(s.from.z, s.to.z)};
  const SectionPoint high{std::max(s.from.x, s.to.x), std::max(s.from.z, s.to.z)};
  const Length bound = box_gap(o.low, o.high, low, high);
  return bound > far_enough ? bound : gap(o.region, s);
}
Length gap_to(const LayoutModel::Obstacle& o, SectionPoint p) {
  const Length bound = box_gap(o.low, o.high, p, p);
  return bound > far_enough ? bound : gap(o.region, p);
}

// The box round an arc.
struct Extent {
  SectionPoint low, high;
};
Extent extent(const Wrap& w) {
  Extent e{{std::min(w.from.x, w.to.x), std::min(w.from.z, w.to.z)},
           {std::max(w.from.x, w.to.x), std::max(w.from.z, w.to.z)}};
  // Where the arc passes a quarter of the circle it reaches out a whole radius.
  const Angle begin = w.face == Face::paper ? w.start : w.start - w.turn;
  for (int quarter = 0; quarter < 4; ++quarter) {
    const Angle past = quarter * 90 * deg - begin;
    const double turns = past / (360 * deg);
    if ((turns - std::floor(turns)) * 360 * deg > w.turn) continue;
    if (quarter == 0) e.high.x = w.centre.x + w.radius;
    if (quarter == 1) e.high.z = w.centre.z + w.radius;
    if (quarter == 2) e.low.x = w.centre.x - w.radius;
    if (quarter == 3) e.low.z = w.centre.z - w.radius;
  }
  return e;
}

}  // namespace

void LayoutModel::keep_in_room(const Placed& p, SectionPoint at, Length radius,
                               Evaluation& out) const {
  push(out, at.x - p.low.x - radius);
  push(out, p.high.x - at.x - radius);
  push(out, at.z - p.low.z - radius);
  push(out, p.high.z - at.z - radius);
}

void LayoutModel::keep_bodies_apart(const Placed& p, Evaluation& out) const {
  const Clearances& clear = problem_.clear;
  const Length flange = problem_.spool.flange;
  const Length film = problem_.strip.thickness;  // that lies on guides
  for (std::size_t i = 0; i < p.bodies.size(); ++i) {
    const Body& a = p.bodies[i];
    if (!a.counted) continue;
    const bool spool = a.kind == Kind::spool;
    const Length radius = spool ? flange : a.support.radius;
    const Length free = spool ? clear.turning : clear.guide;
    if (a.kind != Kind::lip) {
      keep_in_room(p, a.support.centre, a.kind == Kind::post ? radius : radius + free, out);
    }
    for (std::size_t k = 0; k < obstacles_.size(); ++k) {
      const Obstacle& o = obstacles_[k];
      const auto& kept = spool ? o.spool : a.rail_end ? o.rail_end : o.roller;
      if (!kept) continue;
      if (a.kind == Kind::lip && keep_out_[k]) continue;  // a lip is an edge of the body there
      // A roller at the rails' end moves beside the light as any other does.
      const bool fixed = a.rail_end && a.kind != Kind::roller;
      const Length more = a.rail_end && !fixed ? *o.roller : *kept;
      push(out, gap_to(o, a.support.centre) - radius - more - (fixed ? Length{} : free));
    }
    for (std::size_t j = i + 1; j < p.bodies.size(); ++j) {
      const Body& b = p.bodies[j];
      if (!b.counted) continue;
      const Length apart = distance(a.support.centre, b.support.centre);
      const bool other_spool = b.kind == Kind::spool;
      if (spool && other_spool) {
        push(out, apart - 2 * flange - clear.turning);
      } else if (spool || other_spool) {
        // A guide is no longer than the film, and may enter between the flanges; its pin not.
        const Body& guide = spool ? b : a;
        const Length pin = guide.kind == Kind::lip ? guide.support.radius : problem_.rules.pin;
        push(out, apart - flange - pin - clear.turning);
        push(out, apart - problem_.spool.full - guide.support.radius - film - clear.guide);
      } else if (!(a.rail_end && b.rail_end)) {
        push(out, apart - a.support.radius - b.support.radius - film - clear.guide);
      }
    }
  }
}

void LayoutModel::keep_loadable(const Placed& p, Evaluation& out) const {
  const Length flange = problem_.spool.flange;
  const Length free = problem_.clear.turning;
  const bool outside = problem_.loading == Loading::insert_taken_out;
  const int ways = outside ? 24 : 7;
  for (const Body& s : p.bodies) {
    if (s.kind != Kind::spool) continue;
    Length best = -std::numeric_limits<double>::max() * mm;
    for (int k = 0; k < ways; ++k) {
      const Angle way = outside ? k * 15 * deg : (k - 3) * 15 * deg;
      const Length reach =
          outside ? 80 * mm : std::max(Length{}, p.high.z - s.support.centre.z) / cos(way);
      const SectionPoint from = s.support.centre;
      const Strand swept{from, from + SectionPoint{reach * sin(way), reach * cos(way)}};
      Length least = std::numeric_limits<double>::max() * mm;
      if (!outside) {
        least = std::min(p.high.x - swept.to.x, swept.to.x - p.low.x) - flange - free;
      }
      for (const Body& b : p.bodies) {
        if (b.kind == Kind::spool || !b.counted) continue;
        const Length room =
            std::max(problem_.spool.full + b.support.radius, flange + problem_.rules.pin);
        least = std::min(least, distance(b.support.centre, swept) - room - free);
      }
      for (std::size_t i = 0; i < obstacles_.size(); ++i) {
        const bool plate_or_rail = !obstacles_[i].rail_end && obstacles_[i].spool;
        if (plate_or_rail || (keep_out_[i] && !outside)) {
          least = std::min(least, gap_to(obstacles_[i], swept) - flange - free);
        }
      }
      best = std::max(best, least);
    }
    push(out, best);
  }
}

// The film at one state of winding, and how far its strands may bulge.
struct LayoutModel::State {
  StripPath path;
  std::vector<Length> bulge;      // of each wrap: how far outside its arc the film may run
  std::vector<Length> allowance;  // of each strand
};

void LayoutModel::keep_film_free(const Placed& p, double wound, Evaluation& out) const {
  const std::size_t count = p.bodies.size();
  const Radii radii = radii_at(problem_.spool, wound);
  std::vector<Support> supports;
  supports.reserve(count);
  for (const Body& b : p.bodies) supports.push_back(b.support);
  if (halves_.supply) supports.front().radius = radii.supply;
  if (halves_.take_up) supports.back().radius = radii.take_up;
  const Length thickness = problem_.strip.thickness;
  State s;
  s.path = forced_strip(supports, thickness);
  const auto add = [&](Length spare) { push(out, spare); };

  // The least pull bulges most: off the full supply roll, and behind the plate's drag.
  const Force before = problem_.brake / problem_.spool.full;
  s.allowance.assign(count - 1, Length{});
  for (std::size_t i = 0; i + 2 < count; ++i) {
    const Wrap& w = s.path.wraps[i];
    const Force pull = i < p.gate ? before : before + problem_.gate_drag;
    const Length off = stand_off(problem_.strip.stiffness, pull, w.radius, w.turn);
    s.bulge.push_back(std::max(off, Length{}));
    for (const std::size_t k : {i, i + 1}) {
      const Length length = s.path.strands[k].length();
      s.allowance[k] =
          std::max(s.allowance[k], std::min(s.bulge[i], length * length / (8 * w.radius)));
    }
  }

  const Length film = problem_.clear.film + thickness / 2;
  const auto is_own = [&](std::size_t i) {
    return i == p.gate || (i < p.gate ? halves_.supply.has_value() : halves_.take_up.has_value());
  };
  for (std::size_t i = 0; i + 1 < count; ++i) {
    const Strand& strand = s.path.strands[i];
    if (!is_own(i)) continue;
    for (const Obstacle& o : obstacles_) {
      if (i != p.gate && o.film) add(gap_to(o, strand) - film - *o.film - s.allowance[i]);
    }
    for (std::size_t k = i + 2; k + 1 < count; ++k) {
      if (is_own(k)) add(distance(strand, s.path.strands[k]) - film - thickness / 2);
    }
    for (std::size_t k = 0; k < count; ++k) {
      if (k == i || k == i + 1 || !p.bodies[k].counted) continue;
      add(distance(supports[k].centre, strand) - supports[k].radius - film);
    }
  }
  for (std::size_t i = 0; i + 2 < count; ++i) {
    const Body& b = p.bodies[i + 1];
    if (!b.counted) continue;
    const Wrap& w = s.path.wraps[i];
    const WrapRange range = wrap_range(b.kind);
    out.angles.push_back(out.spare.size());
    add((w.turn - range.least) / rad * mm_per_rad * mm);
    out.angles.push_back(out.spare.size());
    add((range.most - w.turn) / rad * mm_per_rad * mm);
    if (b.rail_end && b.kind == Kind::lip) continue;
    const Length neighbours = std::min(s.path.strands[i].length(), s.path.strands[i + 1].length());
    const Length bulge = std::min(s.bulge[i], neighbours * neighbours / (8 * w.radius));
    const Length outside = thickness / 2 + bulge + problem_.clear.guide;
    const Extent reach = extent(w);
    add(reach.low.x - p.low.x - outside);
    add(p.high.x - reach.high.x - outside);
    add(reach.low.z - p.low.z - outside);
    add(p.high.z - reach.high.z - outside);
    for (const double t : {0.25, 0.5, 0.75}) {
      for (std::size_t o = 0; o < obstacles_.size(); ++o) {
        if (keep_out_[o]) add(gap_to(obstacles_[o], w.at(t)) - outside);
      }
    }
  }
}

}  // namespace backfit
