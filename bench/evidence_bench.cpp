// SPDX-License-Identifier: MIT
// Timing the shots of a long recording: ten minutes of stereo sound at 48 kHz.
#include <benchmark/benchmark.h>

#include <cmath>

#include "evidence/shutter_clicks.hpp"
#include "evidence/shutter_trace.hpp"
#include "quantity/random.hpp"

namespace backfit {
namespace {

constexpr double rate_hz = 48000;

// A shot every ten seconds, from 1/500 s to 1/2 s, through an AC coupling; the other channel is
// noise alone.
std::vector<float> ten_minutes(bool shots) {
  Random random(1);
  std::vector<float> samples(static_cast<std::size_t>(600 * rate_hz));
  double behind = 0;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const double t = static_cast<double>(i) / rate_hz;
    const double number = std::floor(t / 10), since = t - 10 * number - 5;
    const double total = std::exp2(std::fmod(number, 9.0) - 9);
    const double edge = std::min(2e-3, 0.3 * total);
    double light = 0;
    if (shots && since > 0 && since < total) {
      light = std::min({1.0, since / edge, (total - since) / edge});
    }
    const double kept = light - behind;
    behind += kept * 2 * 3.14159265 * 5 / rate_hz;
    samples[i] = static_cast<float>(0.4 * kept + 0.002 * random.normal());
  }
  return samples;
}

void stereo_of_light(benchmark::State& state) {
  const auto left = ten_minutes(true), right = ten_minutes(false);
  std::size_t found = 0;
  while (state.KeepRunning()) {
    const RecordedSignal signals[] = {{left, second / rate_hz, 0}, {right, second / rate_hz, 0}};
    const FoundShots places[] = {shots_in(signals[0]), shots_in(signals[1])};
    const std::size_t channel = places[0].shots.size() >= places[1].shots.size() ? 0 : 1;
    found = shots_of_light(signals[channel], places[channel], {}).shots.size();
  }
  state.counters["shots"] = static_cast<double>(found);
}
BENCHMARK(stereo_of_light)->Unit(benchmark::kMillisecond);

void mono_of_sound(benchmark::State& state) {
  const auto samples = ten_minutes(true);
  while (state.KeepRunning()) {
    benchmark::DoNotOptimize(shots_by_sound({samples, second / rate_hz, 0}, {}).shots.size());
  }
}
BENCHMARK(mono_of_sound)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace backfit
