// SPDX-License-Identifier: MIT
// The commands that need the geometry kernel and the page layout.
#include <future>
#include <ostream>

#include "cli/commands.hpp"
#include "cli/leak_task.hpp"
#include "cli/studied.hpp"
#include "documents/exposure_card.hpp"
#include "documents/json.hpp"
#include "documents/listing.hpp"
#include "documents/path_answer.hpp"
#include "documents/result_folder.hpp"
#include "documents/starter.hpp"
#include "files/folder.hpp"
#include "solid/kernel_watch.hpp"

namespace backfit {
namespace {

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

int make(const std::filesystem::path& conversion, const std::filesystem::path& folder, bool json,
         bool despite_blockers, const Surroundings& around) {
  if (!writable(folder, json, around)) return unusable;
  around.begins("studying the conversion");
  std::future<MadeParts> building;  // meanwhile, of a report of its own
  auto report =
      studied(conversion, Scope::with_simulation, true, json, around, [&](const Report& r) {
        if (!r.can_be_made() || (r.has_blockers() && !despite_blockers)) return;
        building = std::async(std::launch::async, [r] {
          const KernelWatch watch([] { return !was_interrupted(); });
          return made_parts(r);
        });
      });
  if (!report) return unusable;
  const bool can_be_made = report->can_be_made();
  const auto stopped = [&] {
    if (!report->has_blockers() || (despite_blockers && can_be_made)) return false;
    around.out << (json ? report_json(*report) : summary(*report));
    around.err << (can_be_made
                       ? "nothing was made: see the blockers above, or add --despite-blockers\n"
                       : "nothing was made: see the blockers above\n");
    return true;
  };
  if (stopped()) return blocked;
  around.begins("building parts");
  const MadeParts parts = building.get();
  const std::vector<Finding> found = assembly_findings(*report, parts);
  for (const Finding& f : found) around.err << rendered(f);
  add_findings(*report, found);
  if (stopped()) return blocked;
  around.begins("drawing papers");
  FolderContents contents = result_of(*report, parts, around.data);
  if (report->assembly.plan.exposure) {
    const auto shelf = exposure_shelf(json, around);
    Diagnostics diagnostics;  // studied() has been through them
    const auto material =
        shelf ? exposure_material(report->assembly, *shelf, diagnostics) : std::nullopt;
    if (!material) return unusable;
    contents["exposure-card.pdf"] =
        exposure_card(*report, *material, *shelf, around.data / "fonts");
  }
  around.begins("writing the folder");
  write_folder(folder, contents);
  if (json) {
    around.out << report_json(*report);
  } else {
    around.out << summary(*report) << "made:\n";
    print_contents(folder, contents, around);
    const std::string_view missing = part_note(report->assembly.plan);
    const bool insert_made = report->insert && report->insert->can_be_made();
    if (!missing.empty() && !insert_made) around.out << missing << "\n";
  }
  return status_of(*report);
}

int draw_path(const std::filesystem::path& conversion, const std::filesystem::path& svg, bool json,
              const Surroundings& around) {
  const auto studied = studied_path(conversion, json, around);
  if (!studied) return unusable;
  if (studied->study.layout) {
    replace_file(svg, path_svg(studied->assembly, studied->study, around.data / "fonts"));
  }
  return printed(*studied, json, around);
}

int make_new(NewKind kind, const std::filesystem::path& folder, bool json,
             const Surroundings& around) {
  if (!writable(folder, json, around)) return unusable;
  const FolderContents contents = kind == NewKind::camera ? camera_starter(around.data / "fonts")
                                  : kind == NewKind::conversion ? conversion_starter()
                                                                : prices_starter();
  write_folder(folder, contents);
  if (json) {
    around.out << written_json(folder, contents);
  } else {
    print_contents(folder, contents, around);
  }
  return fine;
}

}  // namespace backfit
