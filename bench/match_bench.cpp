// SPDX-License-Identifier: MIT
// How long the whole catalogue against a shelf of thirty cameras takes.
#include <benchmark/benchmark.h>

#include <filesystem>
#include <vector>

#include "conversion/match.hpp"
#include "conversion/read_conversion.hpp"

namespace backfit {
namespace {

const std::filesystem::path root = BACKFIT_SOURCE_DIR;

// Thirty cameras after the three of examples/, each a little larger than the one before; with
// prescriptions all have a traced lens.
std::vector<SurveyedCamera> shelf(const Catalogue& catalogue, bool prescriptions) {
  std::vector<SurveyedCamera> cameras;
  for (int i = 0; i < 30; ++i) {
    const char* names[] = {"kestrel/kestrel.camera.toml", "heron/heron.camera.toml",
                           "bittern/bittern.camera.toml"};
    Diagnostics diagnostics;
    SurveyedCamera c = *read_camera(root / "examples" / names[i % 3], catalogue, diagnostics);
    const double larger = 1 + 0.01 * i;
    c.camera.lens.focal.value.value = larger * c.camera.lens.focal->value;
    c.camera.gate.width.value.value = larger * c.camera.gate.width->value;
    c.camera.gate.height.value.value = larger * c.camera.gate.height->value;
    if (prescriptions) {
      const auto lens =
          read_lens(root / "data/lenses/triplet-f8.lens.toml", catalogue, diagnostics);
      c.prescription = lens->prescription;
      c.camera.lens.apertures = {{FNumber{8}, {}}, {FNumber{16}, {}}};
    }
    cameras.push_back(std::move(c));
  }
  return cameras;
}

void match_shelf(benchmark::State& state, bool prescriptions) {
  Diagnostics diagnostics;
  const auto catalogue = read_catalogue(root / "data", diagnostics);
  const std::vector<SurveyedCamera> cameras = shelf(*catalogue, prescriptions);
  for ([[maybe_unused]] auto unused : state) {
    for (const SurveyedCamera& c : cameras) benchmark::DoNotOptimize(matched(c, *catalogue));
  }
}
void thirty_cameras(benchmark::State& state) { match_shelf(state, false); }
BENCHMARK(thirty_cameras)->Unit(benchmark::kMillisecond);
void thirty_cameras_by_prescription(benchmark::State& state) { match_shelf(state, true); }
BENCHMARK(thirty_cameras_by_prescription)->Unit(benchmark::kMillisecond);

// One camera with its files read, as the command does.
void one_camera_from_files(benchmark::State& state) {
  for ([[maybe_unused]] auto unused : state) {
    Diagnostics diagnostics;
    const auto catalogue = read_catalogue(root / "data", diagnostics);
    const auto c = read_camera(root / "examples/heron/heron.camera.toml", *catalogue, diagnostics);
    benchmark::DoNotOptimize(matched(*c, *catalogue));
  }
}
BENCHMARK(one_camera_from_files)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace backfit
