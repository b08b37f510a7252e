// SPDX-License-Identifier: MIT
// Choosing the resistors of a shutter's switch.
#include <benchmark/benchmark.h>

#include "timer/netlist.hpp"
#include "timer/preferred.hpp"
#include "timer/resistors.hpp"
#include "timer/speeds.hpp"
#include "timer/spread.hpp"

namespace backfit {
namespace {

std::vector<StockItem> shop(Series series) {
  std::vector<StockItem> stock;
  for (const Resistance r : preferred_resistors(series, 10 * ohm, 10 * Mohm)) stock.push_back({r});
  return stock;
}

std::vector<Time> twelve_speeds() {
  std::vector<Time> list;
  for (const Time t : usual_speeds()) list.push_back(meant_by(t));
  return list;
}

const TimerLaw law{1.2 * ms, 0.69 * uF, 0.5, 500 * Mohm};

void chain_of_twelve(benchmark::State& state, Series series) {
  const auto stock = shop(series);
  const auto wanted = twelve_speeds();
  while (state.KeepRunning()) benchmark::DoNotOptimize(resistor_chain(law, wanted, stock));
}
BENCHMARK_CAPTURE(chain_of_twelve, e6, Series::e6)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(chain_of_twelve, e12, Series::e12)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(chain_of_twelve, e24, Series::e24)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(chain_of_twelve, e96, Series::e96)->Unit(benchmark::kMillisecond);

void pairs_for_twelve(benchmark::State& state) {
  const auto stock = shop(Series::e24);
  const auto wanted = twelve_speeds();
  while (state.KeepRunning())
    benchmark::DoNotOptimize(resistors_each(law, wanted, stock, Stops{0.01}));
}
BENCHMARK(pairs_for_twelve)->Unit(benchmark::kMillisecond);

void yield_of_twelve(benchmark::State& state) {
  TimerKnowledge known;
  known.fixed = {1.2 * ms, 0.1 * ms};
  known.capacitance = {1 * uF, 0.05 * uF};
  known.threshold = {0.5, 0.01};
  const TimerFit fit = *fitted({}, known);
  const auto design = *resistor_chain(fit.law, twelve_speeds(), shop(Series::e24));
  while (state.KeepRunning()) {
    benchmark::DoNotOptimize(spread_of(design, fit, 0.01, {{0.33}, {0.33}}, 20'000).all);
  }
}
BENCHMARK(yield_of_twelve)->Unit(benchmark::kMillisecond);

void simulated_position(benchmark::State& state) {
  TimingCircuit circuit{*resistor_chain(law, twelve_speeds(), shop(Series::e24)), 6, law};
  while (state.KeepRunning()) benchmark::DoNotOptimize(simulated(circuit).closing);
}
BENCHMARK(simulated_position)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace backfit
