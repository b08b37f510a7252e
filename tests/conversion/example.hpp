// SPDX-License-Identifier: MIT
// The demo conversions as they stand in examples/.
#pragma once
#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include "conversion/read_conversion.hpp"
#include "conversion/report.hpp"

namespace backfit {

inline const std::filesystem::path source_root = BACKFIT_SOURCE_DIR;

inline Catalogue shipped_catalogue() {
  Diagnostics diagnostics;
  return *read_catalogue(source_root / "data", diagnostics);
}

// The same, read once.
inline const Catalogue& catalogue() {
  static const Catalogue shipped = shipped_catalogue();
  return shipped;
}

inline Assembly example_assembly(const std::string& folder, const std::string& file) {
  Diagnostics diagnostics;
  return *assemble(source_root / "examples" / folder / file, catalogue(), diagnostics);
}

inline Report example_report(const std::string& folder, const std::string& file) {
  Diagnostics diagnostics;
  auto assembly =
      assemble(source_root / "examples" / folder / file, shipped_catalogue(), diagnostics);
  for (const Diagnostic& d : diagnostics.list()) {
    if (d.severity == Severity::error) ADD_FAILURE() << rendered(d);
  }
  return report_on(std::move(*assembly));
}

inline SurveyedCamera example_camera(const std::string& name, const Catalogue& catalogue) {
  Diagnostics diagnostics;
  return *read_camera(source_root / "examples" / name / (name + ".camera.toml"), catalogue,
                      diagnostics);
}

}  // namespace backfit
