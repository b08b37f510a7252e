// SPDX-License-Identifier: MIT
// What programs read: reports, lists and diagnostics as JSON. Units are part of the keys, a
// standard uncertainty stands beside its value as ..._u; docs/json.md lists every field.
#pragma once
#include <filesystem>
#include <string>

#include "catalogue/catalogue.hpp"
#include "conversion/report.hpp"
#include "files/diagnostic.hpp"
#include "files/folder.hpp"

namespace backfit {

// One conversion's report, schema "backfit.report/1"; ends in a newline.
std::string report_json(const Report& report);

// The catalogue's lists, schemas "backfit.films/1", "backfit.lens_kinds/1", "backfit.materials/1".
std::string films_json(const Catalogue& catalogue);
std::string lens_kinds_json(const Catalogue& catalogue);
std::string materials_json(const Catalogue& catalogue);

// The files of a new folder, schema "backfit.written/1".
std::string written_json(const std::filesystem::path& folder, const FolderContents& contents);

// The messages on files that can't be used, schema "backfit.diagnostics/1".
std::string diagnostics_json(const Diagnostics& diagnostics);

}  // namespace backfit
