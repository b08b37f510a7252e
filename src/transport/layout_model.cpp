// SPDX-License-Identifier: MIT
#include "transport/layout_model.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace backfit {
namespace {

using Kind = LayoutModel::Body::Kind;

constexpr Length least_post = 2 * mm;
constexpr Length greatest_post = 5 * mm;
constexpr Length end_room = 15 * mm;  // how far behind the rails their end may stand
constexpr Length most_growth = 100 * mm;

Kind kind_of_end(RailEnd end) {
  return end == RailEnd::lip ? Kind::lip : end == RailEnd::post ? Kind::post : Kind::roller;
}

}  // namespace

Region light_of(const GateShape& gate) {
  return {"light",
          {{-gate.pupil_radius, -gate.pupil_distance},
           {gate.pupil_radius, -gate.pupil_distance},
           {gate.frame / 2, Length{}},
           {-gate.frame / 2, Length{}}}};
}

Region plate_of(const LayoutProblem& problem) {
  const Length half = problem.gate.frame / 2 + problem.gate.rail / 2;
  return box("pressure plate", {-half, problem.strip.thickness}, {half, problem.gate.plate});
}

std::vector<Region> rails_of(const GateShape& gate) {
  const Length inner = gate.frame / 2;
  const Length outer = inner + gate.rail;
  return {box("rails", {-outer, -gate.wall}, {-inner, Length{}}),
          box("rails", {inner, -gate.wall}, {outer, Length{}})};
}

std::vector<Region> rims_of(const LayoutProblem& problem) {
  if (!problem.printed || !(problem.printed->rim > Length{})) return {};
  const PrintedBody& b = *problem.printed;
  const SectionPoint low = problem.room.low, high = problem.room.high;
  const Length under = high.z - b.rim_height;
  return {
      {"lid's seat",
       {{low.x, under - b.rim}, {low.x + b.rim, under}, {low.x + b.rim, high.z}, {low.x, high.z}}},
      {"lid's seat",
       {{high.x, under - b.rim},
        {high.x, high.z},
        {high.x - b.rim, high.z},
        {high.x - b.rim, under}}}};
}

Length farthest_rail(const LayoutProblem& problem) {
  constexpr Length least_slack = 0.1 * mm;  // the search needs some
  const Length must = problem.gate.frame / 2 + problem.gate.rail + lip_radius + least_slack;
  return std::max(problem.printed->rails, must);
}

LayoutModel::LayoutModel(const LayoutProblem& problem, Halves halves, Growth growth)
    : problem_(problem), halves_(std::move(halves)), growth_(growth) {
  assert(halves_.supply || halves_.take_up);
  const Length wall = problem.gate.wall;
  add_obstacle(light_of(problem.gate), wall, wall, Length{}, Length{});
  add_obstacle(plate_of(problem), Length{}, Length{}, std::nullopt, Length{});
  for (Region& rail : rails_of(problem.gate)) {
    add_obstacle(std::move(rail), Length{}, Length{}, std::nullopt, std::nullopt);
  }
  keep_out_.assign(obstacles_.size(), false);
  for (const KeepOut& k : problem.room.keep_outs) {
    add_obstacle(k.region, Length{}, Length{}, Length{}, Length{});
    keep_out_.push_back(true);
  }
  double end = -1;
  for (Region& rim : rims_of(problem)) {
    add_obstacle(std::move(rim), Length{}, Length{}, Length{}, Length{}, end);
    keep_out_.push_back(true);
    end = 1;
  }
  if (halves_.supply) add_half(*halves_.supply);
  supply_size_ = bounds_.low.size();
  if (halves_.take_up) add_half(*halves_.take_up);
  take_up_size_ = bounds_.low.size() - supply_size_;
  add_growth();
}

void LayoutModel::add_obstacle(Region region, std::optional<Length> spool,
                               std::optional<Length> roller, std::optional<Length> rail_end,
                               std::optional<Length> film, double end) {
  SectionPoint low = region.corners.front();
  SectionPoint high = low;
  for (const SectionPoint c : region.corners) {
    low = {std::min(low.x, c.x), std::min(low.z, c.z)};
    high = {std::max(high.x, c.x), std::max(high.z, c.z)};
  }
  obstacles_.push_back({std::move(region), spool, roller, rail_end, film, low, high, end});
}

void LayoutModel::add_half(const HalfShape& shape) {
  const LayoutProblem& p = problem_;
  const bool supply = bounds_.low.empty() && halves_.supply;
  const Length more = growth_ == Growth::none ? Length{} : most_growth;
  // Outwards from the gate to the room's end on this side, and inwards to the other.
  const Length out = (supply ? -p.room.low.x : p.room.high.x) + more;
  const Length in = (supply ? p.room.high.x : -p.room.low.x);
  const auto bound = [&](Length low, Length high) {
    bounds_.low.push_back(low / mm);
    bounds_.high.push_back(std::max(low, high) / mm);
  };
  const auto place = [&](Length radius) {
    bound(radius - in, out - radius);
    bound(p.room.low.z - more + radius, p.room.high.z + more - radius);
  };
  // Each spool keeps to its own side of the gate's middle: so the halves hardly meet.
  spools_.push_back(bounds_.low.size());
  bound(p.spool.flange + p.clear.turning / 2, out - p.spool.flange);
  bound(p.room.low.z - more + p.spool.flange, p.room.high.z + more - p.spool.flange);
  const Length rails = p.gate.frame / 2 + p.gate.rail;
  // A printed floor carries them no farther than the old gate lets it, or than they must go.
  const bool carried = p.printed && shape.end != RailEnd::roller;
  bound(rails,
        carried ? std::min(farthest_rail(p) - lip_radius, rails + end_room) : rails + end_room);
  if (shape.end == RailEnd::post) bound(least_post, greatest_post);
  if (shape.end == RailEnd::roller) bound(p.rules.least_roller, p.rules.greatest_roller);
  for (std::size_t i = 0; i < shape.rollers.size(); ++i) {
    place(p.rules.least_roller);
    bound(p.rules.least_roller, p.rules.greatest_roller);
  }
}

void LayoutModel::add_growth() {
  if (growth_ == Growth::none) return;
  grows_ = growth_ == Growth::width && halves_.supply && halves_.take_up ? 2 : 1;
  for (std::size_t i = 0; i < grows_; ++i) {
    bounds_.low.push_back(0);
    bounds_.high.push_back(most_growth / mm);
  }
}

Ranges LayoutModel::bounds(Spools where) const {
  Ranges b = bounds_;
  const double border = (problem_.gate.frame + problem_.spool.flange) / 2 / mm;
  for (const std::size_t j : spools_) {
    const double at = std::clamp(border, b.low[j], b.high[j]);
    (where == Spools::beside_the_frame ? b.low : b.high)[j] = at;
  }
  return b;
}

std::vector<double> LayoutModel::drawn(Random& random, const Ranges& bounds) const {
  std::vector<double> x;
  const double grown =
      growth_ == Growth::none ? 0 : 40;  // no start needs all the room there may be
  const auto draw = [&](bool near_low) {
    const std::size_t j = x.size();
    const double unit = random.unit();
    const double span = bounds.high[j] - bounds.low[j];
    x.push_back(bounds.low[j] + (near_low ? unit * unit : unit) * span);
  };
  const auto place = [&] {
    const double margin = growth_ == Growth::none ? 0 : (most_growth / mm) - grown;
    for (int axis = 0; axis < 2; ++axis) {
      const std::size_t j = x.size();
      const double low = bounds.low[j] + (axis == 1 ? margin : 0);
      const double high = bounds.high[j] - margin;
      x.push_back(std::clamp(low + random.unit() * (high - low), bounds.low[j], bounds.high[j]));
    }
  };
  const auto half_drawn = [&](const HalfShape& shape) {
    place();
    draw(true);
    if (shape.end != RailEnd::lip) draw(false);
    for (std::size_t i = 0; i < shape.rollers.size(); ++i) {
      place();
      draw(true);
    }
  };
  if (halves_.supply) half_drawn(*halves_.supply);
  if (halves_.take_up) half_drawn(*halves_.take_up);
  for (std::size_t i = 0; i < grows_; ++i) x.push_back(grown);
  return x;
}

std::vector<LayoutModel::Body> LayoutModel::half(const HalfShape& shape, std::span<const double> x,
                                                 double side) const {
  // Outwards from the gate; the supply's half is turned round by the caller.
  std::vector<Body> bodies;
  const SectionPoint spool{side * x[0] * mm, x[1] * mm};
  std::size_t j = 2;
  const Length end_x = side * x[j++] * mm;
  const Length end_radius = shape.end == RailEnd::lip ? lip_radius : x[j++] * mm;
  bodies.push_back(
      {kind_of_end(shape.end), {{end_x, -end_radius}, end_radius, Face::emulsion}, true, true});
  for (const Face face : shape.rollers) {
    bodies.push_back({Kind::roller, {{side * x[j] * mm, x[j + 1] * mm}, x[j + 2] * mm, face}});
    j += 3;
  }
  // Emulsion is wound inwards: it faces the core.
  bodies.push_back({Kind::spool, {spool, problem_.spool.full, Face::emulsion}});
  return bodies;
}

LayoutModel::Placed LayoutModel::placed(std::span<const double> x) const {
  Placed p;
  const auto plain_lip = [&](double side) {
    return Body{Kind::lip,
                {{side * (problem_.gate.frame / 2 + problem_.gate.rail), -lip_radius},
                 lip_radius,
                 Face::emulsion},
                false,
                true};
  };
  if (halves_.supply) {
    p.bodies = half(*halves_.supply, x.subspan(0, supply_size_), -1);
    std::ranges::reverse(p.bodies);
  } else {
    p.bodies.push_back(plain_lip(-1));
  }
  p.gate = p.bodies.size() - 1;
  if (halves_.take_up) {
    for (Body& b : half(*halves_.take_up, x.subspan(supply_size_, take_up_size_), 1)) {
      p.bodies.push_back(b);
    }
  } else {
    p.bodies.push_back(plain_lip(1));
  }
  p.low = problem_.room.low;
  p.high = problem_.room.high;
  if (grows_ > 0) {
    const Length first = x[x.size() - grows_] * mm;
    const Length last = x.back() * mm;
    if (growth_ == Growth::width && halves_.supply) p.low.x -= first;
    if (growth_ == Growth::width && halves_.take_up) p.high.x += last;
    if (growth_ == Growth::behind) p.high.z += first;
    if (growth_ == Growth::in_front) p.low.z -= first;
  }
  return p;
}

Length LayoutModel::growth(std::span<const double> x) const {
  Length sum;
  for (std::size_t i = x.size() - grows_; i < x.size(); ++i) sum += x[i] * mm;
  return sum;
}

Layout LayoutModel::layout(std::span<const double> x) const {
  assert(halves_.supply && halves_.take_up);
  const Placed p = placed(x);
  Layout layout;
  layout.supply_shape = *halves_.supply;
  layout.take_up_shape = *halves_.take_up;
  layout.supply = p.bodies.front().support.centre;
  layout.take_up = p.bodies.back().support.centre;
  for (std::size_t i = 1; i + 1 < p.bodies.size(); ++i) {
    const Body& b = p.bodies[i];
    layout.guides.push_back({b.support.centre, b.support.radius, b.support.face,
                             b.kind == Kind::roller ? Motion::turning : Motion::fixed, b.rail_end});
  }
  layout.gate = p.gate;
  layout.effort = effort_of(problem_, layout, 1).torque;
  return layout;
}

void LayoutModel::evaluate(std::span<const double> x, Evaluation& out) const {
  out.spare.clear();
  out.angles.clear();
  const Placed p = placed(x);
  keep_bodies_apart(p, out);
  keep_loadable(p, out);
  if (problem_.printed) keep_printable(p, out);
  for (const double wound : {0.0, 0.5, 1.0}) keep_film_free(p, wound, out);
  out.cost = effort(p);
  if (grows_ > 0) out.cost = growth(x) / mm + 1e-3 * out.cost;
}

double LayoutModel::effort(const Placed& p) const {
  // At the end of the roll, where the supply is small and pulls most, and the take-up largest.
  const Radii radii = radii_at(problem_.spool, 1);
  std::vector<Support> supports;
  std::vector<Rub> rubs;
  double cost = 0;
  for (const Body& b : p.bodies) {
    supports.push_back(b.support);
    const bool fixed = b.kind != Kind::roller;
    rubs.push_back(fixed
                       ? Rub{Motion::fixed, problem_.rules.post_friction, Length{}}
                       : Rub{Motion::turning, problem_.rules.bearing_friction, problem_.rules.pin});
    if (!b.counted || b.kind == Kind::spool) continue;
    if (b.kind == Kind::roller) cost += 1;                           // a roller is work to make
    if (b.support.face == Face::emulsion && !b.rail_end) cost += 1;  // and may scratch
  }
  if (halves_.supply) supports.front().radius = radii.supply;
  if (halves_.take_up) supports.back().radius = radii.take_up;
  const StripPath path = forced_strip(supports, problem_.strip.thickness);
  const Pulling pulling{problem_.strip.stiffness, problem_.strip.bending_loss, problem_.gate_drag,
                        p.gate};
  const std::span<const Rub> between(rubs.data() + 1, rubs.size() - 2);
  const Force last = tensions(path, between, problem_.brake / radii.supply, pulling).back();
  cost += last * radii.take_up / newton_mm;
  // So do bends, which are felt when the film is threaded and curls in them, film that stands off
  // the rails' end, and a long path.
  for (std::size_t i = 0; i < path.wraps.size(); ++i) {
    const Body& b = p.bodies[i + 1];
    if (b.counted) cost += 3 * std::max(0.0, path.wraps[i].turn / (90 * deg));
  }
  for (const std::size_t end : {p.gate, p.gate + 1}) {
    if (!p.bodies[end].counted || end == 0 || end + 1 == p.bodies.size()) continue;
    const Wrap& w = path.wraps[end - 1];
    const Length off =
        stand_off(problem_.strip.stiffness, problem_.brake / radii.supply, w.radius, w.turn);
    cost += 3 * std::max(off, Length{}) / mm;
  }
  return cost + 0.002 * (path.length() / mm);
}

}  // namespace backfit
