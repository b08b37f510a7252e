// SPDX-License-Identifier: MIT
// Rays through a triplet: the engine, and the same loop written out over plain arrays.
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>

#include "../tests/optics/lenses.hpp"
#include "optics/beam.hpp"
#include "optics/coverage.hpp"
#include "optics/paraxial.hpp"
#include "optics/wavefront.hpp"

namespace backfit {
namespace {

constexpr int rays = 1000;

Ray ray_number(int i) {
  const double slope = 0.15 * (i % 97) / 97;
  const double n = 1 / std::hypot(1, slope);
  return {(i % 11 - 5) * mm, (i % 13 - 6) * mm, Length{}, 0, slope * n, n};
}

void engine(benchmark::State& state) {
  const LensModel lens = model_of(lenses::slow_triplet(), line_d);
  while (state.KeepRunning()) {
    Length sum;
    for (int i = 0; i < rays; ++i) sum += traced(lens, ray_number(i)).ray.y;
    benchmark::DoNotOptimize(sum);
  }
  state.SetItemsProcessed(state.iterations() * rays * 6);
}
BENCHMARK(engine);

struct Arrays {
  std::array<double, 6> z{}, c{}, ratio{}, clear2{};
};

Arrays arrays_of(const LensModel& lens) {
  Arrays a;
  for (std::size_t i = 0; i < 6; ++i) {
    const LensModel::Surface& s = lens.surfaces[i];
    a.z[i] = s.z / mm;
    a.c[i] = s.curvature * mm;
    a.ratio[i] = s.index_before / s.index_after;
    a.clear2[i] = s.clear_radius / mm * (s.clear_radius / mm);
  }
  return a;
}

double by_hand(const Arrays& a, const Ray& start) {
  double x = start.x / mm, y = start.y / mm, z = start.z / mm;
  double l = start.l, m = start.m, n = start.n;
  bool clipped = false;
  for (std::size_t i = 0; i < 6; ++i) {
    const double t = (a.z[i] - z) / n;
    x += l * t;
    y += m * t;
    const double f = a.c[i] * (x * x + y * y);
    const double g = n - a.c[i] * (l * x + m * y);
    const double root = g * g - a.c[i] * f;
    if (!(root >= 0)) return NAN;
    const double in = std::sqrt(root);
    const double d = f / (g + in);
    const double after = 1 - a.ratio[i] * a.ratio[i] * (1 - root);
    if (after < 0) return NAN;
    const double turn = std::sqrt(after) - a.ratio[i] * in;
    x += l * d;
    y += m * d;
    const double depth = n * d;
    z = a.z[i] + depth;
    l = a.ratio[i] * l - turn * a.c[i] * x;
    m = a.ratio[i] * m - turn * a.c[i] * y;
    n = a.ratio[i] * n - turn * a.c[i] * depth + turn;
    clipped |= x * x + y * y > a.clear2[i];
  }
  return clipped ? y + 1e-30 : y;
}

void plain_arrays(benchmark::State& state) {
  const Arrays a = arrays_of(model_of(lenses::slow_triplet(), line_d));
  while (state.KeepRunning()) {
    double sum = 0;
    for (int i = 0; i < rays; ++i) sum += by_hand(a, ray_number(i));
    benchmark::DoNotOptimize(sum);
  }
  state.SetItemsProcessed(state.iterations() * rays * 6);
}
BENCHMARK(plain_arrays);

void bundle(benchmark::State& state) {
  const LensModel lens = model_of(lenses::slow_triplet(), line_d);
  while (state.KeepRunning()) {
    benchmark::DoNotOptimize(bundle_at(stopped_to(lens, 4.85 * mm), 85 * mm, 40 * mm, 96));
  }
}
BENCHMARK(bundle);

Spot spot_off_axis() {
  return *spot_of(stopped_to(model_of(lenses::slow_triplet(), line_d), 4.85 * mm), {12 * deg},
                  85.38 * mm);
}

void spot(benchmark::State& state) {
  while (state.KeepRunning()) benchmark::DoNotOptimize(spot_off_axis().rays.data());
}
BENCHMARK(spot)->Unit(benchmark::kMicrosecond);

void contrast_by_rays(benchmark::State& state) {
  const Spot s = spot_off_axis();
  while (state.KeepRunning()) {
    benchmark::DoNotOptimize(geometric_mtf(s, 20 * lp_per_mm, Lines::tangential, 0.3 * mm));
  }
}
BENCHMARK(contrast_by_rays)->Unit(benchmark::kMicrosecond);

void wave(benchmark::State& state) {
  const Spot s = spot_off_axis();
  while (state.KeepRunning()) benchmark::DoNotOptimize(Wavefront(s, 550 * nm).fit_error());
}
BENCHMARK(wave)->Unit(benchmark::kMicrosecond);

void contrast_by_waves(benchmark::State& state) {
  const Wavefront w(spot_off_axis(), 550 * nm);
  while (state.KeepRunning()) {
    benchmark::DoNotOptimize(w.mtf(20 * lp_per_mm, Lines::tangential, 0.3 * mm));
  }
}
BENCHMARK(contrast_by_waves)->Unit(benchmark::kMicrosecond);

// 64 by 64 points of a 4 x 5 in sheet behind a bellows frame, an old gate and a new window.
std::vector<Screen> folding_camera() {
  return {opening(-6 * mm, rectangle(88 * mm, 108 * mm)),
          opening(-0.6 * mm, rectangle(73 * mm, 95 * mm)),
          opening(3.8 * mm, rectangle(97 * mm, 122 * mm))};
}

void map_of_a_disc(benchmark::State& state) {
  const LensLight light = LensLight::disc({6.4 * mm, -107 * mm});
  const auto screens = folding_camera();
  while (state.KeepRunning()) {
    benchmark::DoNotOptimize(
        light_map({95 * mm, 120 * mm}, 8.56 * mm, 64, 64, light, screens).lost.data());
  }
}
BENCHMARK(map_of_a_disc)->Unit(benchmark::kMillisecond);

void map_of_a_traced_lens(benchmark::State& state) {
  const LensModel lens =
      stopped_to(model_of(scaled(lenses::slow_triplet(), 1.18), line_d), 4.85 * mm);
  const auto screens = folding_camera();
  while (state.KeepRunning()) {
    const LensLight light = LensLight::traced(lens, -92.2 * mm, 8.56 * mm, 77 * mm);
    benchmark::DoNotOptimize(
        light_map({95 * mm, 120 * mm}, 8.56 * mm, 64, 64, light, screens).lost.data());
  }
}
BENCHMARK(map_of_a_traced_lens)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace backfit
