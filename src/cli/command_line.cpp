// SPDX-License-Identifier: MIT
#include "cli/command_line.hpp"

#include <CLI/CLI.hpp>
#include <exception>
#include <iostream>
#include <string>
#include <variant>
#include <vector>

#include "cli/studied.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

namespace fs = std::filesystem;

int complain(const CLI::App& app, const CLI::ParseError& error, int argc, char** argv) {
  const std::string_view first = argc > 1 ? argv[1] : "";
  if (app.get_subcommands().empty() && !first.empty() && first.front() != '-') {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands({})) names.push_back(command->get_name());
    std::cerr << "error: there is no command '" << first << "'\n";
    const std::vector<std::string_view> views(names.begin(), names.end());
    if (const std::string_view near = nearest_name(first, views); !near.empty()) {
      std::cerr << "    = help: backfit " << near << "\n";
    }
  } else {
    std::cerr << "error: " << error.what() << "\n";
  }
  std::cerr << "    = help: backfit --help\n";
  return unusable;
}

// The folder of shipped data: beside an installed program, else where it was built.
fs::path data_folder() {
  const fs::path installed = program_folder().parent_path() / "share" / "backfit";
  return fs::exists(installed / "films.toml") ? installed : fs::path(BACKFIT_DATA_DIR);
}

// The request, or the exit status after help, version or an error has been printed.
std::variant<Request, int> read_command_line(int argc, char** argv) {
  CLI::App app{"Converts orphaned film cameras to film that is still made.", "backfit"};
  app.set_version_flag("--version", BACKFIT_VERSION);
  app.require_subcommand(1);

  Request request;
  bool lenses = false;
  bool materials = false;
  std::string kind;
  const auto add = [&](const char* name, const char* meaning) {
    CLI::App* command = app.add_subcommand(name, meaning);
    command->add_flag("--json", request.json, "Print JSON");
    return command;
  };
  CLI::App* check = add("check", "Study a conversion and print what was found");
  check->add_option("CONVERSION", request.conversion, "Conversion file")->required();

  CLI::App* make = add("make", "Make parts and papers of a conversion");
  make->add_option("CONVERSION", request.conversion, "Conversion file")->required();
  make->add_option("-o", request.folder, "Folder to make")->required();
  make->add_flag("--despite-blockers", request.despite_blockers,
                 "Make it although a blocker was found");

  CLI::App* films = add("films", "List films, papers and instant films");
  auto* lenses_flag = films->add_flag("--lenses", lenses, "List lens kinds instead");
  films->add_flag("--materials", materials, "List printed materials instead")
      ->excludes(lenses_flag);

  CLI::App* make_new = add("new", "Make a file to fill in");
  make_new->add_option("KIND", kind, "camera or conversion")
      ->required()
      ->check(CLI::IsMember({"camera", "conversion"}));
  make_new->add_option("-o", request.folder, "Folder to make")->required();

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app.exit(error);
    return complain(app, error, argc, argv);
  }
  request.command = check->parsed()   ? Command::check
                    : make->parsed()  ? Command::make
                    : films->parsed() ? Command::films
                                      : Command::make_new;
  request.listing = lenses ? Listing::lens_kinds : materials ? Listing::materials : Listing::films;
  request.kind = kind == "conversion" ? NewKind::conversion : NewKind::camera;
  return request;
}

}  // namespace

fs::path program_folder() {
  std::error_code failure;
  return fs::read_symlink("/proc/self/exe", failure).parent_path();
}

int run(int argc, char** argv, const std::function<int(const Request&, const Surroundings&)>& act) {
  try {
    const auto read = read_command_line(argc, argv);
    if (const int* status = std::get_if<int>(&read)) return *status;
    return act(std::get<Request>(read), {data_folder(), std::cout, std::cerr});
  } catch (const std::exception& e) {
    std::cerr << "failed: " << e.what() << "\n";
    return unusable;
  }
}

}  // namespace backfit
