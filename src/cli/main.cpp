// SPDX-License-Identifier: MIT
#include <CLI/CLI.hpp>
#include <exception>
#include <filesystem>
#include <iostream>
#include <vector>

#include "cli/commands.hpp"
#include "quantity/notation.hpp"

namespace {

namespace fs = std::filesystem;

constexpr int unusable = 2;

// The folder of shipped data: beside an installed program, else where it was built.
fs::path data_folder() {
  std::error_code failure;
  const fs::path program = fs::read_symlink("/proc/self/exe", failure);
  if (!failure) {
    const fs::path installed = program.parent_path().parent_path() / "share" / "backfit";
    if (fs::exists(installed / "films.toml")) return installed;
  }
  return BACKFIT_DATA_DIR;
}

// The nearest command to a misspelt one.
std::string nearest_command(const CLI::App& app, std::string_view word) {
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands({})) names.push_back(command->get_name());
  const std::vector<std::string_view> views(names.begin(), names.end());
  return std::string(backfit::nearest_name(word, views));
}

}  // namespace

int main(int argc, char** argv) {
  using namespace backfit;
  CLI::App app{"Converts orphaned film cameras to film that is still made.", "backfit"};
  app.set_version_flag("--version", BACKFIT_VERSION);
  app.require_subcommand(1);

  fs::path conversion;
  fs::path folder;
  bool json = false;
  bool despite_blockers = false;
  bool lenses = false;
  bool materials = false;
  std::string kind;
  const auto add_json = [&](CLI::App* command) { command->add_flag("--json", json, "Print JSON"); };

  CLI::App* check_command =
      app.add_subcommand("check", "Study a conversion and print what was found");
  check_command->add_option("CONVERSION", conversion, "Conversion file")->required();
  add_json(check_command);

  CLI::App* make_command = app.add_subcommand("make", "Make parts and papers of a conversion");
  make_command->add_option("CONVERSION", conversion, "Conversion file")->required();
  make_command->add_option("-o", folder, "Folder to make")->required();
  make_command->add_flag("--despite-blockers", despite_blockers,
                         "Make it although a blocker was found");
  add_json(make_command);

  CLI::App* films_command = app.add_subcommand("films", "List films, papers and instant films");
  auto* lenses_flag = films_command->add_flag("--lenses", lenses, "List lens kinds instead");
  films_command->add_flag("--materials", materials, "List printed materials instead")
      ->excludes(lenses_flag);
  add_json(films_command);

  CLI::App* new_command = app.add_subcommand("new", "Make a file to fill in");
  new_command->add_option("KIND", kind, "camera or conversion")
      ->required()
      ->check(CLI::IsMember({"camera", "conversion"}));
  new_command->add_option("-o", folder, "Folder to make")->required();
  add_json(new_command);

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    if (e.get_exit_code() == 0) return app.exit(e);
    std::cerr << "error: " << e.what() << "\n";
    if (argc > 1 && app.get_subcommands().empty()) {
      if (const std::string near = nearest_command(app, argv[1]);
          !near.empty() && near != argv[1]) {
        std::cerr << "    = help: backfit " << near << "\n";
      }
    }
    std::cerr << "    = help: backfit --help\n";
    return unusable;
  }

  const Surroundings around{data_folder(), std::cout, std::cerr};
  try {
    if (check_command->parsed()) return check(conversion, json, around);
    if (make_command->parsed()) return make(conversion, folder, json, despite_blockers, around);
    if (films_command->parsed()) {
      return films(lenses      ? Listing::lens_kinds
                   : materials ? Listing::materials
                               : Listing::films,
                   json, around);
    }
    return make_new(kind == "camera" ? NewKind::camera : NewKind::conversion, folder, json, around);
  } catch (const std::exception& e) {
    std::cerr << "failed: " << e.what() << "\n";
    return unusable;
  }
}
