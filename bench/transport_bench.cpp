// SPDX-License-Identifier: MIT
// A layout for a fresh chamber, and one evaluation of its model.
#include <benchmark/benchmark.h>

#include "chamber.hpp"
#include "transport/layout.hpp"
#include "transport/layout_model.hpp"

namespace backfit {
namespace {

void rolls_beside_the_gate(benchmark::State& state) {
  const LayoutProblem p = chamber(118 * mm, 34 * mm, 2 * mm, 56 * mm);
  while (state.KeepRunning()) benchmark::DoNotOptimize(layouts_for(p));
}
BENCHMARK(rolls_beside_the_gate)->Unit(benchmark::kMillisecond)->UseRealTime();

void folded_path(benchmark::State& state) {
  const LayoutProblem p = chamber(118 * mm, 34 * mm, 2 * mm, 84 * mm);
  while (state.KeepRunning()) benchmark::DoNotOptimize(layouts_for(p));
}
BENCHMARK(folded_path)->Unit(benchmark::kMillisecond)->UseRealTime();

void what_is_missing(benchmark::State& state) {
  LayoutProblem p = chamber(118 * mm, 34 * mm, 2 * mm, 84 * mm);
  p.room.high.z = 25 * mm;
  while (state.KeepRunning()) benchmark::DoNotOptimize(shortage_of(p));
}
BENCHMARK(what_is_missing)->Unit(benchmark::kMillisecond)->UseRealTime();

void one_evaluation(benchmark::State& state) {
  const LayoutProblem p = chamber(118 * mm, 34 * mm, 2 * mm, 84 * mm);
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
