// SPDX-License-Identifier: MIT
// A tongue and groove from profile to transmission, and as surfaces in space; the parts of that
// work.
#include <benchmark/benchmark.h>

#include <array>

#include "../tests/lighttrap/surfaces.hpp"
#include "lighttrap/labyrinth.hpp"
#include "lighttrap/leak.hpp"
#include "lighttrap/light_map.hpp"
#include "lighttrap/seam_light.hpp"
#include "lighttrap/transmission.hpp"
#include "lighttrap/walk.hpp"
#include "lighttrap/walker.hpp"

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

// 2000 walks: 4 % standard error at 3e-12.
void walks_in_section(benchmark::State& state) {
  const GapWalks walks(tongue_and_groove(), {0.05});
  TallyResult found;
  while (state.KeepRunning()) found = walks.through(2000);
  state.counters["standard_error_percent"] = 100 * found.standard_error / found.mean;
}
BENCHMARK(walks_in_section)->Unit(benchmark::kMillisecond);

surfaces::Built parts() { return surfaces::seam(tongue_and_groove(), 3, {Wall{0.05}}); }

void map_in_space(benchmark::State& state) {
  const surfaces::Built built = parts();
  std::size_t zones = 0;
  while (state.KeepRunning()) zones = LeakWalks(built.surfaces, built.film, 2).zones();
  state.counters["zones"] = static_cast<double>(zones);
}
BENCHMARK(map_in_space)->Unit(benchmark::kMillisecond)->UseRealTime();

void walks_in_space(benchmark::State& state) {
  const surfaces::Built built = parts();
  const LeakWalks walks(built.surfaces, built.film, 2);
  TallyResult found;
  while (state.KeepRunning()) found = walks.light(20000, 2).front();
  state.counters["standard_error_percent"] = 100 * found.standard_error / found.mean;
}
BENCHMARK(walks_in_space)->Unit(benchmark::kMillisecond)->UseRealTime();

// A seat seam with its tongue, in section, as a back's study solves it: matt, and one face glossy.
void seam_in_section(benchmark::State& state) {
  const GapProfile p{0.1 * mm,
                     {12.7 * mm, 2.65 * mm, 2.3 * mm, 2.65 * mm, 8.5 * mm},
                     {Turn::right, Turn::left, Turn::left, Turn::right},
                     {0.1 * mm, 0.25 * mm, 0.35 * mm, 0.25 * mm, 0.1 * mm}};
  SeamWalls walls = walls_all(p, {0.05});
  if (state.range(0) == 1) walls.left.front().gloss_index = 1.5;
  Transmission t;
  while (state.KeepRunning()) t = SeamLight(p, walls, 138 * mm).sky();
  state.counters["mesh_error_percent"] = 100 * t.mesh_error / t.through;
}
BENCHMARK(seam_in_section)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

// Rays by the kernel alone, one by one, scattered from all zones; and as the walks cast them, led
// by their map: from each zone alike, and by whole walks. Items are rays: a step that faces mirror
// casts several.
struct Cast {
  const ray::Room& room;
  std::size_t side = 0;
  const ray::Start& from;
  ray::Vec direction;
  Random& random;
};
template <class Rays>
void cast_rays(benchmark::State& state, const ray::Room& room, const Rays& rays_of) {
  Random random(1);
  std::vector<std::pair<ray::Start, ray::Vec>> starts;
  std::vector<std::size_t> sides;
  for (std::size_t side = 0; starts.size() < 20000; side = (side + 1) % room.zones.sides()) {
    const ray::Start from = ray::start_on_zone(room, side, random);
    if (from.stuff->is_mirror) continue;
    starts.emplace_back(from, ray::scattered(from, random));
    sides.push_back(side);
  }
  std::int64_t rays = 0;
  while (state.KeepRunning()) {
    for (std::size_t i = 0; i < starts.size(); ++i) {
      rays += rays_of(Cast{room, sides[i], starts[i].first, starts[i].second, random});
    }
  }
  state.SetItemsProcessed(rays);
}

struct CountedRays {
  std::int64_t rays = 0, steps = 0;
  static void on_film(const ray::Start&) {}
  static std::uint32_t on_wall(std::uint32_t, const ray::Arrival&) { return 0; }
  static void on_sky(std::uint32_t, ray::Vec, double) {}
  void on_step(const ray::Step& step) {
    ++steps;
    if (step.arrival.path_mm > 0 || step.factor > 0)
      rays += 1 + std::int64_t{step.arrival.mirrorings};
  }
};

void rays_of_the_kernel(benchmark::State& state) {
  const surfaces::Built built = parts();
  const ray::Room room(built.surfaces, built.film);
  cast_rays(state, room, [](const Cast& c) {
    benchmark::DoNotOptimize(
        c.room.kernel.first(c.from.at + c.room.offset_mm * c.from.normal, c.direction));
    return 1;
  });
}
BENCHMARK(rays_of_the_kernel);

void rays_of_even_steps(benchmark::State& state) {
  const surfaces::Built built = parts();
  const ray::Room room(built.surfaces, built.film);
  cast_rays(state, room, [](const Cast& c) {
    CountedRays counted;
    std::array<ray::Step, ray::most_steps> steps;
    ray::steps_from(c.room, nullptr, c.from, c.random, steps);
    for (const ray::Step& step : steps) counted.on_step(step);
    return counted.rays;
  });
}
BENCHMARK(rays_of_even_steps);

void rays_of_led_steps(benchmark::State& state) {
  const surfaces::Built built = parts();
  const ray::Room room(built.surfaces, built.film);
  const ray::LightMap rough(room, 128, 2, nullptr, {}), map(room, 256, 2, &rough, {});
  cast_rays(state, room, [&map](const Cast& c) {
    CountedRays counted;
    std::array<ray::Step, ray::most_steps> steps;
    ray::steps_from(c.room, &map.aim_of(c.side), c.from, c.random, steps);
    for (const ray::Step& step : steps) counted.on_step(step);
    return counted.rays;
  });
}
BENCHMARK(rays_of_led_steps);

void rays_of_walks(benchmark::State& state) {
  const surfaces::Built built = parts();
  const ray::Walker walker(built.surfaces, built.film, 2, {});
  CountedRays counted;
  std::uint64_t number = 0;
  while (state.KeepRunning()) {
    Random random(++number);
    benchmark::DoNotOptimize(walker.history(0, random, {}, counted));
  }
  state.SetItemsProcessed(counted.rays);
  state.counters["rays_a_step"] =
      static_cast<double>(counted.rays) / static_cast<double>(counted.steps);
}
BENCHMARK(rays_of_walks);

}  // namespace
}  // namespace backfit
