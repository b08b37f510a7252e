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
Length near_gap(const LayoutModel::Obstacle& o, const Strand& s) {
  const SectionPoint low{std::min(s.from.x, s.to.x), std::min(s.from.z, s.to.z)};
  const SectionPoint high{std::max(s.from.x, s.to.x), std::max(s.from.z, s.to.z)};
  const Length bound = box_gap(o.low, o.high, low, high);
  return bound > far_enough ? bound : gap(o.region, s);
}
Length near_gap(const LayoutModel::Obstacle& o, SectionPoint p) {
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

// How far the best place along the film between `low` and `high` lies from what holes take of it.
struct Hole {
  Length middle, half;
};
Length best_place(std::vector<Hole> holes, Length low, Length high) {
  std::ranges::sort(holes, {}, &Hole::middle);
  std::vector<Length> places{low, high};
  for (std::size_t i = 1; i < holes.size(); ++i) {
    const Length from = holes[i - 1].middle + holes[i - 1].half;
    const Length to = holes[i].middle - holes[i].half;
    places.push_back(std::clamp((from + to) / 2, low, high));
  }
  Length best = -std::numeric_limits<double>::max() * mm;
  for (const Length at : places) {
    Length free = std::numeric_limits<double>::max() * mm;
    for (const Hole& h : holes) free = std::min(free, abs(at - h.middle) - h.half);
    best = std::max(best, free);
  }
  return best;
}

}  // namespace

SectionPoint LayoutModel::shift_of(const Obstacle& o, const Placed& p) const {
  const Room& room = problem_.room;
  return {o.end < 0 ? p.low.x - room.low.x : p.high.x - room.high.x, p.high.z - room.high.z};
}
Length LayoutModel::gap_to(const Obstacle& o, const Placed& p, SectionPoint at) const {
  return near_gap(o, o.end == 0 ? at : at - shift_of(o, p));
}
Length LayoutModel::gap_to(const Obstacle& o, const Placed& p, const Strand& s) const {
  if (o.end == 0) return near_gap(o, s);
  const SectionPoint shift = shift_of(o, p);
  return near_gap(o, Strand{s.from - shift, s.to - shift});
}

Length LayoutModel::from_guide(const Body& guide, SectionPoint at) const {
  const SectionPoint centre = guide.support.centre;
  if (!problem_.printed || !guide.rail_end || guide.kind == Kind::roller) {
    return distance(centre, at);
  }
  return distance(at, Strand{centre, {centre.x, -problem_.gate.pupil_distance}});
}

Length LayoutModel::beside(const Body& guide) const {
  if (guide.kind == Kind::lip) return guide.support.radius;
  if (!problem_.printed) return problem_.rules.pin;
  return guide.kind == Kind::post ? guide.support.radius : problem_.printed->hub;
}

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
      push(out, gap_to(o, p, a.support.centre) - radius - more - (fixed ? Length{} : free));
    }
    for (std::size_t j = i + 1; j < p.bodies.size(); ++j) {
      const Body& b = p.bodies[j];
      if (!b.counted) continue;
      const Length apart =
          a.rail_end ? from_guide(a, b.support.centre) : from_guide(b, a.support.centre);
      const bool other_spool = b.kind == Kind::spool;
      if (spool && other_spool) {
        push(out, apart - 2 * flange - clear.turning);
      } else if (spool || other_spool) {
        // A guide is no longer than the film, and may enter between the flanges; its pin not.
        const Body& guide = spool ? b : a;
        push(out, apart - flange - beside(guide) - clear.turning);
        push(out, apart - problem_.spool.full - guide.support.radius - film - clear.guide);
      } else if (!(a.rail_end && b.rail_end)) {
        push(out, apart - a.support.radius - b.support.radius - film - clear.guide);
      }
    }
  }
}

void LayoutModel::keep_printable(const Placed& p, Evaluation& out) const {
  const PrintedBody& body = *problem_.printed;
  const GateShape& gate = problem_.gate;
  // Places are taken from a raster of half a millimetre.
  constexpr Length raster = 0.25 * mm;
  const Length low = body.front - (problem_.room.low.z - p.low.z);
  const Length high = p.high.z - body.groove;
  std::vector<Hole> holes;
  // Walls are printed as they are asked for: nothing that a measurement's error takes away.
  const std::size_t first = out.spare.size();
  for (const Body& b : p.bodies) {
    if (!b.counted) continue;
    const SectionPoint at = b.support.centre;
    if (b.kind == Kind::lip || b.kind == Kind::post) {
      push(out, farthest_rail(problem_) - abs(at.x) - b.support.radius);
      continue;
    }
    const Length hole = b.kind == Kind::spool ? body.bore : body.rod;
    push(out, at.z - low - hole - body.wall);
    push(out, high - at.z - hole - body.wall);
    holes.push_back({at.x, hole});
  }
  for (const Body& spool : p.bodies) {
    if (!spool.counted || spool.kind != Kind::spool) continue;
    for (const Body& roller : p.bodies) {
      if (!roller.counted || roller.kind != Kind::roller) continue;
      push(out, distance(spool.support.centre, roller.support.centre) - body.bore - body.rod -
                    body.wall);
    }
  }
  const Length farthest = (gate.frame + gate.rail) / 2 - body.ear;
  const Length nearest = std::min(body.ear + body.wall / 2 + 2 * raster, farthest);
  push(out, best_place(holes, nearest, farthest) - body.ear - body.wall - raster);
  push(out, best_place(holes, -farthest, -nearest) - body.ear - body.wall - raster);
  push(out, best_place(holes, p.low.x + body.screw, p.high.x - body.screw) - body.screw -
                body.wall - raster);
  for (std::size_t i = first; i < out.spare.size(); ++i) out.angles.push_back(i);
}

void LayoutModel::keep_loadable(const Placed& p, Evaluation& out) const {
  const Length flange = problem_.spool.flange;
  const Length free = problem_.clear.turning;
  const bool outside = problem_.loading == Loading::insert_taken_out;
  const bool all_round = outside && !problem_.printed;
  const int ways = all_round ? 24 : 7;
  for (const Body& s : p.bodies) {
    if (s.kind != Kind::spool) continue;
    Length best = -std::numeric_limits<double>::max() * mm;
    for (int k = 0; k < ways; ++k) {
      const Angle way = all_round ? k * 15 * deg : (k - 3) * 15 * deg;
      const SectionPoint from = s.support.centre, along{sin(way) * mm, cos(way) * mm};
      const Length depth = std::max(Length{}, p.high.z - from.z);
      const Length reach = all_round ? 80 * mm : depth / cos(way);
      const Strand swept{from, from + reach / mm * along};
      // On past the rim, until the whole flange is out.
      const Strand out_of_body{from, from + (depth + flange) / cos(way) / mm * along};
      Length least = std::numeric_limits<double>::max() * mm;
      if (!all_round) {
        least = std::min(p.high.x - swept.to.x, swept.to.x - p.low.x) - flange - free;
      }
      for (const Body& b : p.bodies) {
        if (!b.counted || &b == &s) continue;
        if (b.kind == Kind::spool) {
          if (!problem_.printed) continue;
          least = std::min(least, distance(b.support.centre, out_of_body) - 2 * flange - free);
          continue;
        }
        const Length pin = problem_.printed ? beside(b) : problem_.rules.pin;
        const Length room = std::max(problem_.spool.full + b.support.radius, flange + pin);
        least = std::min(least, distance(b.support.centre, swept) - room - free);
      }
      for (std::size_t i = 0; i < obstacles_.size(); ++i) {
        const Obstacle& o = obstacles_[i];
        const bool plate_or_rail = !o.rail_end && o.spool;
        const bool rim = o.end != 0;
        if (plate_or_rail || rim || (keep_out_[i] && !outside)) {
          const Strand& way_out = rim ? out_of_body : swept;
          least = std::min(least, gap_to(o, p, way_out) - flange - free);
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
      if (i != p.gate && o.film) add(gap_to(o, p, strand) - film - *o.film - s.allowance[i]);
    }
    for (std::size_t k = i + 2; k + 1 < count; ++k) {
      if (is_own(k)) add(distance(strand, s.path.strands[k]) - film - thickness / 2);
    }
    for (std::size_t k = 0; k < count; ++k) {
      if (k == i || k == i + 1 || !p.bodies[k].counted) continue;
      // A printed rail end carries on towards the lens, where no film may be.
      const Body& b = p.bodies[k];
      const bool carried = problem_.printed && b.rail_end && b.kind != Kind::roller;
      const SectionPoint centre = supports[k].centre;
      const Strand stem{centre, {centre.x, -problem_.gate.pupil_distance}};
      const Length apart = carried ? distance(strand, stem) : distance(centre, strand);
      add(apart - supports[k].radius - film);
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
        if (keep_out_[o]) add(gap_to(obstacles_[o], p, w.at(t)) - outside);
      }
    }
  }
}

}  // namespace backfit
