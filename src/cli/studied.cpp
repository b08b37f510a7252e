// SPDX-License-Identifier: MIT
#include "cli/studied.hpp"

#include <ostream>

#include "catalogue/catalogue.hpp"
#include "conversion/read_conversion.hpp"
#include "documents/json.hpp"

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

std::optional<Report> studied(const std::filesystem::path& conversion, bool json,
                              const Surroundings& around) {
  auto assembly = assembled(conversion, json, around);
  if (!assembly) return {};
  Report report = report_on(std::move(*assembly));
  add_contrast(report.print, report.assembly, report.frame.picture);
  for (const Finding& f : report.findings) around.err << rendered(f);
  return report;
}

}  // namespace backfit
