// SPDX-License-Identifier: MIT
// Time of 100,000 Monte Carlo draws of a cheap model over eight inputs.
#include <benchmark/benchmark.h>

#include <vector>

#include "quantity/estimate.hpp"

namespace backfit {
namespace {

void monte_carlo_of_eight(benchmark::State& state, Shape shape) {
  Inputs inputs;
  std::vector<InputRef<Length>> lengths;
  lengths.reserve(8);
  for (int i = 0; i < 8; ++i) {
    lengths.push_back(inputs.add("length", Measured<Length>{(10.0 + i) * mm, 0.1 * mm}, shape));
  }
  const BaseModel model = [&](const Draw& at) {
    double product = 1;
    for (const InputRef<Length> length : lengths) {
      product *= at(length) / mm;
    }
    return product;
  };
  for (auto _ : state) {  // NOLINT(clang-analyzer-deadcode.DeadStores): the library's own idiom
    benchmark::DoNotOptimize(monte_carlo(inputs, model, 100000).mean);
  }
}
BENCHMARK_CAPTURE(monte_carlo_of_eight, rectangular, Shape::rectangular)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(monte_carlo_of_eight, normal, Shape::normal)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace backfit
