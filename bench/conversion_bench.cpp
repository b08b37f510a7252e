// SPDX-License-Identifier: MIT
// How long `backfit check` and `backfit make` of the demo take, without starting a process.
#include <benchmark/benchmark.h>

#include <filesystem>

#include "catalogue/catalogue.hpp"
#include "conversion/read_conversion.hpp"
#include "conversion/report.hpp"
#include "documents/build_sheet.hpp"
#include "documents/result_folder.hpp"
#include "files/folder.hpp"
#include "parts/back_plate.hpp"

namespace backfit {
namespace {

const std::filesystem::path root = BACKFIT_SOURCE_DIR;

Report demo_report() {
  Diagnostics diagnostics;
  const auto catalogue = read_catalogue(root / "data", diagnostics);
  return report_on(
      *assemble(root / "examples/kestrel/kestrel-4x5.conversion.toml", *catalogue, diagnostics));
}

void check_demo(benchmark::State& state) {
  for ([[maybe_unused]] auto unused : state) benchmark::DoNotOptimize(demo_report());
}
BENCHMARK(check_demo)->Unit(benchmark::kMillisecond);

void build_sheet_of_demo(benchmark::State& state) {
  const Report report = demo_report();
  const Solid body = solid_of(*report.assembly.plate);
  for ([[maybe_unused]] auto unused : state) {
    benchmark::DoNotOptimize(build_sheet(report, body, root / "data/fonts"));
  }
}
BENCHMARK(build_sheet_of_demo)->Unit(benchmark::kMillisecond);

void make_demo(benchmark::State& state) {
  const auto folder = std::filesystem::temp_directory_path() / "backfit-bench";
  for ([[maybe_unused]] auto unused : state) {
    const Report& report = demo_report();
    write_folder(folder, result_of(report, made_parts(report), root / "data"));
  }
  std::filesystem::remove_all(folder);
}
BENCHMARK(make_demo)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace backfit
