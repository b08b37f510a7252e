// SPDX-License-Identifier: MIT
#include "cli/commands.hpp"

#include <fmt/format.h>

#include <ostream>

#include "catalogue/catalogue.hpp"
#include "conversion/report.hpp"
#include "documents/json.hpp"
#include "documents/listing.hpp"
#include "documents/result_folder.hpp"
#include "documents/starter.hpp"
#include "files/folder.hpp"

namespace backfit {
namespace {

constexpr int fine = 0;
constexpr int blocked = 1;
constexpr int unusable = 2;

void print(const Diagnostics& diagnostics, bool json, const Surroundings& around) {
  if (json && diagnostics.has_errors()) around.out << diagnostics_json(diagnostics);
  for (const Diagnostic& d : diagnostics.list()) around.err << rendered(d);
}

int status_of(const Report& report) { return report.has_blockers() ? blocked : fine; }

std::optional<Report> studied(const std::filesystem::path& conversion, bool json,
                              const Surroundings& around) {
  Diagnostics diagnostics;
  std::optional<Assembly> assembly;
  if (const auto catalogue = read_catalogue(around.data, diagnostics)) {
    assembly = assemble(conversion, *catalogue, diagnostics);
  }
  print(diagnostics, json, around);
  if (!assembly) return {};
  Report report = report_on(std::move(*assembly));
  for (const Finding& f : report.findings) around.err << rendered(f);
  return report;
}

// True when `folder` may be written; says why not otherwise.
bool writable(const std::filesystem::path& folder, bool json, const Surroundings& around) {
  const auto reason = why_not_replaceable(folder);
  if (!reason) return true;
  Diagnostics diagnostics;
  diagnostics.error({}, *reason, "name a new folder with -o");
  print(diagnostics, json, around);
  return false;
}

void print_contents(const std::filesystem::path& folder, const FolderContents& contents,
                    const Surroundings& around) {
  for (const auto& [name, bytes] : contents) around.out << (folder / name).string() << "\n";
}

}  // namespace

int check(const std::filesystem::path& conversion, bool json, const Surroundings& around) {
  const auto report = studied(conversion, json, around);
  if (!report) return unusable;
  around.out << (json ? report_json(*report) : summary(*report));
  return status_of(*report);
}

int make(const std::filesystem::path& conversion, const std::filesystem::path& folder, bool json,
         bool despite_blockers, const Surroundings& around) {
  if (!writable(folder, json, around)) return unusable;
  const auto report = studied(conversion, json, around);
  if (!report) return unusable;
  const bool can_be_made = report->can_be_made();
  if (report->has_blockers() && !(despite_blockers && can_be_made)) {
    around.out << (json ? report_json(*report) : summary(*report));
    around.err << (can_be_made
                       ? "nothing was made: see the blockers above, or add --despite-blockers\n"
                       : "nothing was made: see the blockers above\n");
    return blocked;
  }
  const FolderContents contents = result_of(*report, around.data);
  write_folder(folder, contents);
  if (json) {
    around.out << report_json(*report);
  } else {
    around.out << summary(*report) << "made:\n";
    print_contents(folder, contents, around);
  }
  return status_of(*report);
}

int films(Listing listing, bool json, const Surroundings& around) {
  Diagnostics diagnostics;
  const auto catalogue = read_catalogue(around.data, diagnostics);
  print(diagnostics, json, around);
  if (!catalogue) return unusable;
  switch (listing) {
    case Listing::films:
      around.out << (json ? films_json(*catalogue) : film_listing(*catalogue));
      break;
    case Listing::lens_kinds:
      around.out << (json ? lens_kinds_json(*catalogue) : lens_kind_listing(*catalogue));
      break;
    case Listing::materials:
      around.out << (json ? materials_json(*catalogue) : material_listing(*catalogue));
      break;
  }
  return fine;
}

int make_new(NewKind kind, const std::filesystem::path& folder, bool json,
             const Surroundings& around) {
  if (!writable(folder, json, around)) return unusable;
  const FolderContents contents =
      kind == NewKind::camera ? camera_starter(around.data / "fonts") : conversion_starter();
  write_folder(folder, contents);
  if (json) {
    around.out << written_json(folder, contents);
  } else {
    print_contents(folder, contents, around);
  }
  return fine;
}

}  // namespace backfit
