// SPDX-License-Identifier: MIT
#include "cli/studied.hpp"

#include <ostream>
#include <utility>

#include "catalogue/catalogue.hpp"
#include "cli/leak_task.hpp"
#include "conversion/exposure_study.hpp"
#include "conversion/read_conversion.hpp"
#include "documents/json.hpp"
#include "documents/path_answer.hpp"

namespace backfit {

void print(const Diagnostics& diagnostics, bool json, const Surroundings& around) {
  if (json && diagnostics.has_errors()) around.out << diagnostics_json(diagnostics);
  for (const Diagnostic& d : diagnostics.list()) around.err << rendered(d);
}

int status_of(const Report& report) { return report.has_blockers() ? blocked : fine; }

std::optional<Assembly> assembled(const std::filesystem::path& conversion, bool json,
                                  const Surroundings& around) {
  Diagnostics diagnostics;
  std::optional<Assembly> assembly;
  if (const auto catalogue = read_catalogue(around.data, diagnostics)) {
    assembly = assemble(conversion, *catalogue, diagnostics);
  }
  print(diagnostics, json, around);
  return assembly;
}

std::optional<Report> studied(const std::filesystem::path& conversion, Scope scope, bool with_light,
                              bool json, const Surroundings& around,
                              const std::function<void(const Report&)>& but_for_light) {
  auto assembly = assembled(conversion, json, around);
  if (!assembly) return {};
  const auto exposure = exposed(*assembly, json, around);
  if (!exposure) return {};
  const auto& [shelf, material] = *exposure;
  Report report = report_on(std::move(*assembly), scope);
  if (material) add_findings(report, exposure_findings(report, *material, *shelf));
  if (report.assembly.method() == Method::insert) {
    around.begins("trying ways for the film");
    Diagnostics diagnostics;  // assembled() has been through them
    if (const auto catalogue = read_catalogue(around.data, diagnostics)) {
      add_insert(report, *catalogue);
    }
  }
  add_contrast(report.print, report.assembly, report.frame.picture);
  but_for_light(report);
  if (with_light && !add_light(report, material ? &*material : nullptr, around)) return {};
  for (const Finding& f : report.findings) around.err << rendered(f);
  return report;
}

std::optional<Exposed> exposed(const Assembly& assembly, bool json, const Surroundings& around) {
  Exposed e;
  if (!assembly.plan.exposure) return e;
  e.shelf = exposure_shelf(json, around);
  if (!e.shelf) return {};
  Diagnostics diagnostics;
  e.material = exposure_material(assembly, *e.shelf, diagnostics);
  print(diagnostics, json, around);
  if (!e.material) return {};
  return e;
}

std::optional<StudiedPath> studied_path(const std::filesystem::path& conversion, bool json,
                                        const Surroundings& around) {
  Diagnostics diagnostics;
  std::optional<StudiedPath> studied;
  if (const auto catalogue = read_catalogue(around.data, diagnostics)) {
    if (auto assembly = assemble(conversion, *catalogue, diagnostics)) {
      if (path_can_be_studied(*assembly, diagnostics)) {
        PathStudy study = path_study(*assembly, *catalogue);
        studied = StudiedPath{std::move(*assembly), std::move(study)};
      }
    }
  }
  print(diagnostics, json, around);
  if (!studied) return {};
  for (const Finding& f : studied->study.findings) around.err << rendered(f);
  return studied;
}

int printed(const StudiedPath& path, bool json, const Surroundings& around) {
  around.out << (json ? path_json(path.assembly, path.study)
                      : path_summary(path.assembly, path.study));
  return path.study.verdict == Verdict::does_not_fit ? blocked : fine;
}

std::optional<ExposureShelf> exposure_shelf(bool json, const Surroundings& around) {
  Diagnostics diagnostics;
  std::optional<ExposureShelf> shelf;
  auto exposure = read_exposure_data(around.data, diagnostics);
  auto process = read_process_data(around.data, diagnostics);
  if (exposure && process) shelf = ExposureShelf{std::move(*exposure), std::move(*process)};
  print(diagnostics, json, around);
  return shelf;
}

}  // namespace backfit
