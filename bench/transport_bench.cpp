// SPDX-License-Identifier: MIT
// A layout for a fresh chamber, and one evaluation of its model.
#include <benchmark/benchmark.h>

#include "transport/layout.hpp"
#include "transport/layout_model.hpp"

namespace backfit {
namespace {

LayoutProblem chamber(Length frame) {
  LayoutProblem p;
  p.room = {{-59 * mm, -2 * mm}, {59 * mm, 34 * mm}, {}};
  p.spool = {12.55 * mm, 5.9 * mm, 10.9 * mm};
  p.gate = {frame, 2 * mm, 3.2 * mm, 12.5 * mm, 100 * mm, 1.6 * mm};
  p.clear = {0.4 * mm, 0.5 * mm, 0.6 * mm};
  p.strip = {0.23 * mm, 50 * newton * mm2, 0.15};
  p.rules = {5 * mm, 8 * mm, 1.5 * mm, 0.2, 0.3, 2};
  p.brake = 8 * newton_mm;
  p.gate_drag = 1 * newton;
  return p;
}

void rolls_beside_the_gate(benchmark::State& state) {
  const LayoutProblem p = chamber(56 * mm);
  while (state.KeepRunning()) benchmark::DoNotOptimize(layouts_for(p));
}
BENCHMARK(rolls_beside_the_gate)->Unit(benchmark::kMillisecond)->UseRealTime();

void folded_path(benchmark::State& state) {
  const LayoutProblem p = chamber(84 * mm);
  while (state.KeepRunning()) benchmark::DoNotOptimize(layouts_for(p));
}
BENCHMARK(folded_path)->Unit(benchmark::kMillisecond)->UseRealTime();

void what_is_missing(benchmark::State& state) {
  LayoutProblem p = chamber(84 * mm);
  p.room.high.z = 25 * mm;
  while (state.KeepRunning()) benchmark::DoNotOptimize(shortage_of(p));
}
BENCHMARK(what_is_missing)->Unit(benchmark::kMillisecond)->UseRealTime();

void one_evaluation(benchmark::State& state) {
  const LayoutProblem p = chamber(84 * mm);
  const HalfShape shape{RailEnd::lip, {Face::paper}};
  const LayoutModel model(p, {shape, shape});
  Random random(1);
  const std::vector<double> x = model.drawn(random, model.bounds());
  Evaluation e;
  while (state.KeepRunning()) {
    model.evaluate(x, e);
    benchmark::DoNotOptimize(e.cost);
  }
}
BENCHMARK(one_evaluation);

}  // namespace
}  // namespace backfit
