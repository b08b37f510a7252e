// SPDX-License-Identifier: MIT
// A tongue and groove from profile to transmission, and the parts of that work.
#include <benchmark/benchmark.h>

#include "lighttrap/labyrinth.hpp"
#include "lighttrap/transmission.hpp"

namespace backfit {
namespace {

GapProfile tongue_and_groove() {
  return {1 * mm,
          {2 * mm, 5 * mm, 2 * mm, 5 * mm, 2 * mm},
          {Turn::left, Turn::right, Turn::right, Turn::left}};
}

void exchange(benchmark::State& state) {
  const GapProfile profile = tongue_and_groove();
  std::size_t pieces = 0;
  while (state.KeepRunning()) {
    const Exchange x = exchange_of(profile, static_cast<std::size_t>(state.range(0)));
    benchmark::DoNotOptimize(x.direct);
    pieces = x.pieces();
  }
  state.counters["pieces"] = static_cast<double>(pieces);
}
BENCHMARK(exchange)->Arg(1)->Arg(2)->Arg(4)->Unit(benchmark::kMillisecond);

void balance(benchmark::State& state) {
  const Exchange x = exchange_of(tongue_and_groove(), static_cast<std::size_t>(state.range(0)));
  while (state.KeepRunning()) benchmark::DoNotOptimize(passage(x, 0.05).through);
}
BENCHMARK(balance)->Arg(1)->Arg(2)->Arg(4)->Unit(benchmark::kMillisecond);

void whole(benchmark::State& state) {
  const GapProfile profile = tongue_and_groove();
  while (state.KeepRunning()) benchmark::DoNotOptimize(transmission(profile, {0.05}).through);
}
BENCHMARK(whole)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace backfit
