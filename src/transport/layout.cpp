// SPDX-License-Identifier: MIT
#include "transport/layout.hpp"

#include <algorithm>
#include <atomic>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <functional>
#include <limits>
#include <thread>

#include "transport/layout_model.hpp"

namespace backfit {
namespace {

constexpr double tolerance = 1e-4;  // mm that an asked clearance may be short
constexpr int screened = 60;        // draws for each start
constexpr std::size_t most_pairs = 8;

// Calls work(0) to work(count - 1), on all processors; each call has its own place to write to, so
// that the order does not matter.
void spread(std::size_t count, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  const auto run = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  std::vector<std::thread> others;
  for (unsigned i = 1; i < std::thread::hardware_concurrency(); ++i) others.emplace_back(run);
  run();
  for (std::thread& t : others) t.join();
}

// All shapes of a half: an end, and up to `most` rollers in all with each choice of faces.
std::vector<HalfShape> half_shapes(int most) {
  std::vector<HalfShape> shapes;
  for (const RailEnd end : {RailEnd::lip, RailEnd::post, RailEnd::roller}) {
    const int rollers = end == RailEnd::roller ? most - 1 : most;
    for (int count = 0; count <= rollers; ++count) {
      for (int bits = 0; bits < (1 << count); ++bits) {
        HalfShape shape{end, {}};
        for (int i = 0; i < count; ++i) {
          shape.rollers.push_back((bits >> i & 1) != 0 ? Face::emulsion : Face::paper);
        }
        shapes.push_back(shape);
      }
    }
  }
  return shapes;
}

double squares_short(const Evaluation& e) {
  double sum = 0;
  for (const double s : e.spare) sum += s < 0 ? s * s : 0;
  return sum;
}

// The best of several starts, each the best of many draws.
Attempt best_of(const LayoutModel& model, const Ranges& bounds, int starts, std::uint64_t seed) {
  Attempt best;
  best.shortfall = std::numeric_limits<double>::infinity();
  const Model evaluate = model.model();
  Evaluation e;
  for (int start = 0; start < starts; ++start) {
    Random random(seed * 1000 + static_cast<std::uint64_t>(start));
    std::vector<double> x;
    double least = std::numeric_limits<double>::infinity();
    for (int i = 0; i < screened; ++i) {
      std::vector<double> drawn = model.drawn(random, bounds);
      model.evaluate(drawn, e);
      const double sum = squares_short(e);
      if (sum >= least) continue;
      least = sum;
      x = std::move(drawn);
    }
    Attempt trial = nearest_feasible(evaluate, bounds, x);
    if (trial.shortfall > 6) continue;  // SLSQP repairs a little, not a knot
    trial = cheapest_feasible(evaluate, bounds, trial.x, tolerance);
    const bool good = trial.shortfall <= tolerance;
    const bool had = best.shortfall <= tolerance;
    if (good ? !had || trial.cost < best.cost : !had && trial.shortfall < best.shortfall) {
      best = trial;
    }
  }
  return best;
}

struct Half {
  HalfShape shape;
  Attempt trial;
};

struct Pair {
  const Half* supply;
  const Half* take_up;
  double cost;
};

// Numbers of a pair from those of its halves: growth of both last.
std::vector<double> joined(const LayoutModel& model, const Pair& pair, Growth growth) {
  std::vector<double> a = pair.supply->trial.x;
  std::vector<double> b = pair.take_up->trial.x;
  if (growth == Growth::none) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
  }
  const double grown_a = a.back();
  const double grown_b = b.back();
  a.pop_back();
  b.pop_back();
  a.insert(a.end(), b.begin(), b.end());
  if (model.growth_variables() == 2) {
    a.push_back(grown_a);
    a.push_back(grown_b);
  } else {
    a.push_back(std::max(grown_a, grown_b));
  }
  return a;
}

// The halves of one side that fit, least cost first.
std::vector<Half> halves_that_fit(std::vector<Half> all) {
  std::erase_if(all, [](const Half& h) { return h.trial.shortfall > tolerance; });
  std::ranges::stable_sort(all, {}, [](const Half& h) { return h.trial.cost; });
  return all;
}

// Both sides solved alone, then paired by rising cost: they hardly meet but at the gate.
struct Search {
  std::vector<Half> supply, take_up;
  std::vector<Pair> pairs;
};
Search search(const LayoutProblem& problem, int starts, Growth growth) {
  const std::vector<HalfShape> shapes = half_shapes(problem.rules.most_rollers);
  Search s;
  // Each shape with its spool in each place: neither shall hide the other.
  const std::size_t ways = 2 * shapes.size();
  s.supply.resize(ways);
  s.take_up.resize(ways);
  spread(2 * ways, [&](std::size_t i) {
    const std::size_t way = i / 2;
    const bool supply = i % 2 == 0;
    const HalfShape& shape = shapes[way / 2];
    const Halves halves = supply ? Halves{shape, {}} : Halves{{}, shape};
    const LayoutModel model(problem, halves, growth);
    const auto where = way % 2 == 0 ? LayoutModel::Spools::beside_the_frame
                                    : LayoutModel::Spools::behind_or_before_it;
    (supply ? s.supply : s.take_up)[way] = {shape,
                                            best_of(model, model.bounds(where), starts, way + 1)};
  });
  // What one side found is a start for the other, which looks alike.
  const std::vector<Half> supply = s.supply;
  const std::vector<Half> take_up = s.take_up;
  spread(2 * ways, [&](std::size_t i) {
    const std::size_t way = i / 2;
    const bool to_supply = i % 2 == 0;
    Half& half = (to_supply ? s.supply : s.take_up)[way];
    const Half& other = (to_supply ? take_up : supply)[way];
    if (other.trial.shortfall > tolerance) return;
    const Halves halves = to_supply ? Halves{half.shape, {}} : Halves{{}, half.shape};
    const LayoutModel model(problem, halves, growth);
    const Ranges& ranges = model.bounds();
    std::vector<double> x = other.trial.x;
    for (std::size_t j = 0; j < x.size(); ++j) {
      x[j] = std::clamp(x[j], ranges.low[j], ranges.high[j]);
    }
    const Attempt near = nearest_feasible(model.model(), ranges, x);
    const Attempt trial = cheapest_feasible(model.model(), ranges, near.x, tolerance);
    const bool had = half.trial.shortfall <= tolerance;
    if (trial.shortfall <= tolerance && (!had || trial.cost < half.trial.cost)) half.trial = trial;
  });
  s.supply = halves_that_fit(std::move(s.supply));
  s.take_up = halves_that_fit(std::move(s.take_up));
  for (const Half& a : s.supply) {
    for (const Half& b : s.take_up) {
      const double cost = growth == Growth::behind || growth == Growth::in_front
                              ? std::max(a.trial.cost, b.trial.cost)
                              : a.trial.cost + b.trial.cost;
      s.pairs.push_back({&a, &b, cost});
    }
  }
  std::ranges::stable_sort(s.pairs, {}, &Pair::cost);
  if (s.pairs.size() > most_pairs) s.pairs.resize(most_pairs);
  return s;
}

// Moves a layout so that everything asked for is met with most to spare, at 5 % more cost at most.
Attempt centred(const LayoutModel& model, const Attempt& trial) {
  constexpr double most_spare = 1;
  const double budget = 1.05 * trial.cost;
  const Model with_spare = [&](std::span<const double> x, Evaluation& out) {
    model.evaluate(x.first(x.size() - 1), out);
    for (double& s : out.spare) s -= x.back();
    for (const std::size_t i : out.angles) out.spare[i] += x.back();
    out.spare.push_back(budget - out.cost);
    out.cost = -x.back();
  };
  Ranges bounds = model.bounds();
  bounds.low.push_back(0);
  bounds.high.push_back(most_spare);
  std::vector<double> start = trial.x;
  start.push_back(0);
  Attempt found = cheapest_feasible(with_spare, bounds, start, tolerance);
  if (found.shortfall > tolerance) return {start, trial.cost, trial.shortfall};
  return found;
}

}  // namespace

Radii radii_at(const SpoolShape& spool, double wound) {
  assert(wound >= 0 && wound <= 1);
  const Area core = spool.core * spool.core;
  const Area film = spool.full * spool.full - core;
  return {sqrt(core + (1 - wound) * film), sqrt(core + wound * film)};
}

std::vector<Support> supports_of(const Layout& layout, const Radii& radii) {
  std::vector<Support> supports{{layout.supply, radii.supply, Face::emulsion}};
  for (const Guide& g : layout.guides) supports.push_back({g.centre, g.radius, g.face});
  supports.push_back({layout.take_up, radii.take_up, Face::emulsion});
  return supports;
}

StripPath film_of(const LayoutProblem& problem, const Layout& layout, double wound) {
  const auto path =
      laid_strip(supports_of(layout, radii_at(problem.spool, wound)), problem.strip.thickness);
  assert(path);
  return *path;
}

Effort effort_of(const LayoutProblem& problem, const Layout& layout, double wound) {
  const Radii radii = radii_at(problem.spool, wound);
  std::vector<Rub> rubs;
  for (const Guide& g : layout.guides) {
    rubs.push_back(g.motion == Motion::fixed
                       ? Rub{Motion::fixed, problem.rules.post_friction, Length{}}
                       : Rub{Motion::turning, problem.rules.bearing_friction, problem.rules.pin});
  }
  const Pulling pulling{problem.strip.stiffness, problem.strip.bending_loss, problem.gate_drag,
                        layout.gate};
  Effort effort;
  effort.tensions =
      tensions(film_of(problem, layout, wound), rubs, problem.brake / radii.supply, pulling);
  effort.torque = effort.tensions.back() * radii.take_up;
  return effort;
}

namespace {

std::vector<Layout> layouts_found(const LayoutProblem& problem, int starts) {
  const Search s = search(problem, starts, Growth::none);
  std::vector<std::optional<Layout>> solved(s.pairs.size());
  spread(s.pairs.size(), [&](std::size_t i) {
    const Pair& pair = s.pairs[i];
    const LayoutModel model(problem, {pair.supply->shape, pair.take_up->shape});
    const Model evaluate = model.model();
    Attempt trial = nearest_feasible(evaluate, model.bounds(), joined(model, pair, Growth::none));
    trial = cheapest_feasible(evaluate, model.bounds(), trial.x, tolerance);
    if (trial.shortfall > tolerance) return;
    const Attempt middle = centred(model, trial);
    const std::span<const double> x(middle.x);
    solved[i] = model.layout(x.first(x.size() - 1));
    solved[i]->spare = x.back() * mm;
    Evaluation there;
    model.evaluate(x.first(x.size() - 1), there);
    solved[i]->cost = there.cost * newton_mm;
  });
  std::vector<Layout> found;
  for (const auto& layout : solved) {
    if (layout) found.push_back(*layout);
  }
  std::ranges::stable_sort(found, {}, &Layout::cost);
  return found;
}

}  // namespace

std::vector<Layout> layouts_for(const LayoutProblem& problem, int starts) {
  std::vector<Layout> found = layouts_found(problem, starts);
  if (found.empty()) found = layouts_found(problem, 3 * starts);
  return found;
}

Shortage shortage_of(const LayoutProblem& asked, int starts) {
  LayoutProblem problem = asked;
  problem.rules.most_rollers = std::min(problem.rules.most_rollers, 2);
  const auto least = [&](Growth growth) -> std::optional<Length> {
    const Search s = search(problem, starts, growth);
    std::optional<Length> best;
    std::vector<std::optional<Length>> grown(s.pairs.size());
    spread(s.pairs.size(), [&](std::size_t i) {
      const Pair& pair = s.pairs[i];
      const LayoutModel model(problem, {pair.supply->shape, pair.take_up->shape}, growth);
      const Model evaluate = model.model();
      Attempt trial = nearest_feasible(evaluate, model.bounds(), joined(model, pair, growth));
      trial = cheapest_feasible(evaluate, model.bounds(), trial.x, tolerance);
      if (trial.shortfall <= tolerance) grown[i] = model.growth(trial.x);
    });
    for (const auto& g : grown) {
      if (g && (!best || *g < *best)) best = g;
    }
    return best;
  };
  return {least(Growth::width), least(Growth::behind), least(Growth::in_front)};
}

}  // namespace backfit
