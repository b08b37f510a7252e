// SPDX-License-Identifier: MIT
// How long a back plate takes from its numbers to each file.
#include <benchmark/benchmark.h>

#include "../tests/parts/sample_plate.hpp"
#include "parts/printing.hpp"
#include "solid/mesh.hpp"
#include "solid/step.hpp"
#include "solid/stl.hpp"
#include "solid/three_mf.hpp"
#include "solid/view.hpp"

namespace backfit {
namespace {

constexpr Length chord = 0.02 * mm;

// Times `work()`, which returns what it made.
template <class Work>
void time(benchmark::State& state, const Work& work) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(work());
  }
}

void faults_of_numbers(benchmark::State& state) {
  const BackPlate plate = sample_plate();
  time(state, [&] { return faults(plate, sample_wall); });
}
BENCHMARK(faults_of_numbers)->Unit(benchmark::kMillisecond);

void solid(benchmark::State& state) {
  const BackPlate plate = sample_plate();
  time(state, [&] { return solid_of(plate); });
}
BENCHMARK(solid)->Unit(benchmark::kMillisecond);

void soundness(benchmark::State& state) {
  const Solid body = solid_of(sample_plate());
  time(state, [&] { return soundness_of(body); });
}
BENCHMARK(soundness)->Unit(benchmark::kMillisecond);

void mesh(benchmark::State& state) {
  const Solid body = solid_of(sample_plate());
  time(state, [&] { return mesh_of(body, chord); });
}
BENCHMARK(mesh)->Unit(benchmark::kMillisecond);

void laid_on_bed(benchmark::State& state) {
  const Solid body = solid_of(sample_plate());
  time(state, [&] { return laid_on_rear_face(body); });
}
BENCHMARK(laid_on_bed)->Unit(benchmark::kMillisecond);

void step(benchmark::State& state) {
  const Solid body = solid_of(sample_plate());
  time(state, [&] { return step_file(body, "back plate", "2001-02-03T04:05:06"); });
}
BENCHMARK(step)->Unit(benchmark::kMillisecond);

void stl(benchmark::State& state) {
  const Mesh triangles = mesh_of(solid_of(sample_plate()), chord);
  time(state, [&] { return stl_file(triangles, "back plate"); });
}
BENCHMARK(stl)->Unit(benchmark::kMillisecond);

void three_mf(benchmark::State& state) {
  const Mesh triangles = mesh_of(solid_of(sample_plate()), chord);
  time(state, [&] { return three_mf_file(triangles, "back plate", "back plate"); });
}
BENCHMARK(three_mf)->Unit(benchmark::kMillisecond);

void view(benchmark::State& state, View from) {
  const Solid body = solid_of(sample_plate());
  time(state, [&] { return lines_of(body, from, chord); });
}
BENCHMARK_CAPTURE(view, front, View::front)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(view, oblique_rear, View::oblique_rear)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace backfit
