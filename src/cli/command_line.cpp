// SPDX-License-Identifier: MIT
#include "cli/command_line.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <exception>
#include <iostream>
#include <string>
#include <variant>
#include <vector>

#include "cli/reading_options.hpp"
#include "cli/studied.hpp"
#include "cli/trace_options.hpp"
#include "cli/trap_options.hpp"
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

// What stands after the options of `lens`, in the units that their help names.
struct LensNumbers {
  double wavelength_nm = 0, object_mm = 0, stop_radius_mm = 0, plane_mm = 0;
  std::vector<double> ray, heights_mm, fields_deg;
  std::vector<double> line_pairs_per_mm = {5, 10, 20}, film_shifts_mm = {0};
};

void add_lens_options(CLI::App& lens, LensNumbers& n) {
  lens.add_option("--wavelength", n.wavelength_nm, "Wavelength; left out: the d line, 587.5618")
      ->type_name("NM")
      ->check(within(300, 1100));
  lens.add_option("--object", n.object_mm, "Subject this far before the first surface")
      ->type_name("MM")
      ->check(within(-1e9, 1e9));
  lens.add_option("--stop-radius", n.stop_radius_mm, "Half the diaphragm's opening")
      ->type_name("MM")
      ->check(within(1e-6, 1e6));
  lens.add_option("--plane", n.plane_mm, "Film this far behind the last surface")
      ->type_name("MM")
      ->check(within(-1e6, 1e6));
  lens.add_option("--ray", n.ray, "One ray: field angle, place in the entrance pupil (1 its edge)")
      ->type_name("DEG,PX,PY")
      ->delimiter(',')
      ->expected(3)
      ->check(within(-89, 89));
  lens.add_option("--illumination", n.heights_mm, "Light at these heights on the film")
      ->type_name("MM,...")
      ->delimiter(',')
      ->check(within(-1e4, 1e4));
  auto* sharpness =
      lens.add_option("--sharpness", n.fields_deg, "Spots and contrast at these field angles")
          ->type_name("DEG,...")
          ->delimiter(',')
          ->check(within(-89, 89));
  lens.add_option("--line-pairs", n.line_pairs_per_mm, "Patterns for the contrast, per mm of film")
      ->type_name("COUNT,...")
      ->delimiter(',')
      ->check(within(0.01, 1000))
      ->needs(sharpness)
      ->capture_default_str();
  lens.add_option("--film-shift", n.film_shifts_mm, "Film this much farther from the lens")
      ->type_name("MM,...")
      ->delimiter(',')
      ->check(within(-1e3, 1e3))
      ->needs(sharpness)
      ->capture_default_str();
}

LensQuestions questions_of(const CLI::App& lens, const LensNumbers& n) {
  LensQuestions q;
  if (lens.count("--wavelength") > 0) q.wavelength = n.wavelength_nm * nm;
  // In front of the lens either way: a distance, or a place on the axis that light runs along.
  if (lens.count("--object") > 0) q.object = abs(n.object_mm * mm);
  if (lens.count("--stop-radius") > 0) q.stop_radius = n.stop_radius_mm * mm;
  if (lens.count("--plane") > 0) q.plane = n.plane_mm * mm;
  if (n.ray.size() == 3) q.ray = {n.ray[0] * deg, n.ray[1], n.ray[2]};
  for (const double h : n.heights_mm) q.heights.push_back(h * mm);
  for (const double w : n.fields_deg) q.sharpness_fields.push_back(w * deg);
  for (const double nu : n.line_pairs_per_mm) q.frequencies.push_back(nu * lp_per_mm);
  for (const double z : n.film_shifts_mm) q.film_shifts.push_back(z * mm);
  return q;
}

// What stands after the options of `expose`, in the units that their help names.
struct ExposeNumbers {
  double ev = 0, lux = 0, f_number = 0, subject_mm = 0;
};

void add_expose_options(CLI::App& expose, ExposeNumbers& n) {
  auto* ev = expose.add_option("--ev", n.ev, "Light, as a meter set to ISO 100 reads it")
                 ->type_name("EV")
                 ->check(within(-10, 24));
  expose.add_option("--lux", n.lux, "Light on the subject, on a flat receptor")
      ->type_name("LX")
      ->check(within(1e-3, 1e6))
      ->excludes(ev);
  expose.add_option("--aperture", n.f_number, "One stop; left out: all of the lens")
      ->type_name("N")
      ->check(within(0.5, 512));
  expose.add_option("--subject", n.subject_mm, "Lens to subject; left out: the plan's, else far")
      ->type_name("MM")
      ->check(within(1, 1e9));
}

ExposeQuestions questions_of(const CLI::App& expose, const ExposeNumbers& n) {
  ExposeQuestions q;
  if (expose.count("--ev") > 0) q.ev_100 = Ev{n.ev};
  if (expose.count("--lux") > 0) q.incident = n.lux * backfit::lux;
  if (expose.count("--aperture") > 0) q.aperture = FNumber{n.f_number};
  if (expose.count("--subject") > 0) q.subject = n.subject_mm * mm;
  return q;
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
  const auto add = [&](Command which, const char* name, const char* meaning) {
    CLI::App* command = app.add_subcommand(name, meaning);
    command->callback([&request, which] { request.command = which; });
    command->add_flag("--json", request.json, "Print JSON");
    return command;
  };
  CLI::App* check = add(Command::check, "check", "Study a conversion and print what was found");
  check->add_option("CONVERSION", request.conversion, "Conversion file")->required();
  check->add_flag("--leak", request.with_light,
                  "Study the light that finds its way to the film as well");

  CLI::App* match =
      add(Command::match, "match", "Try every film of the catalogue against a camera");
  match->add_option("CAMERA", request.camera, "Camera file")->required();
  match->add_option("--prices", request.prices, "What films cost: adds the cost of a picture")
      ->type_name("FILE");

  CLI::App* make = add(Command::make, "make", "Make parts and papers of a conversion");
  make->add_option("CONVERSION", request.conversion, "Conversion file")->required();
  make->add_option("-o", request.folder, "Folder to make")->required();
  make->add_flag("--despite-blockers", request.despite_blockers,
                 "Make it although a blocker was found");

  CLI::App* films = add(Command::films, "films", "List films, papers and instant films");
  auto* lenses_flag = films->add_flag("--lenses", lenses, "List lens kinds instead");
  auto* materials_flag = films->add_flag("--materials", materials, "List printed materials instead")
                             ->excludes(lenses_flag);
  bool emulsions = false;
  bool bulbs = false;
  auto* emulsions_flag = films->add_flag("--emulsions", emulsions, "List emulsions instead")
                             ->excludes(lenses_flag)
                             ->excludes(materials_flag);
  films->add_flag("--bulbs", bulbs, "List flash bulbs instead")
      ->excludes(lenses_flag)
      ->excludes(materials_flag)
      ->excludes(emulsions_flag);

  CLI::App* make_new = add(Command::make_new, "new", "Make a file to fill in");
  make_new->add_option("KIND", kind, "camera, conversion or prices")
      ->required()
      ->check(CLI::IsMember({"camera", "conversion", "prices"}));
  make_new->add_option("-o", request.folder, "Folder to make")->required();

  CLI::App* lens = add(Command::lens, "lens", "Study a lens prescription");
  lens->add_option("LENS", request.lens, "Lens file")->required();
  LensNumbers numbers;
  add_lens_options(*lens, numbers);

  CLI::App* cover = add(Command::cover, "cover", "Study the light on the sheet");
  cover->add_option("CONVERSION", request.conversion, "Conversion file")->required();
  double f_number = 0;
  cover->add_option("--aperture", f_number, "Stop of the map; left out: the plan's")
      ->type_name("N")
      ->check(within(0.5, 512));
  cover->add_option("--grid", request.cover.grid, "Points of the map along each side")
      ->type_name("COUNT")
      ->check(within(2, 256))
      ->capture_default_str();
  cover->add_option("--loss", request.cover.allowed.value, "Light that a corner may lose")
      ->type_name("STOPS")
      ->check(within(0.01, 10))
      ->capture_default_str();

  CLI::App* trap = add(Command::trap, "trap", "Study the light through a gap or a hole");
  TrapWords trap_words;
  add_trap_options(*trap, trap_words);

  CLI::App* trace =
      add(Command::trace, "trace", "Time a shutter by a recording of its light or sound");
  TraceWords trace_words;
  add_trace_options(*trace, trace_words, request.trace);
  CLI::App* leak =
      add(Command::leak, "leak", "Study the light that finds its way between parts to the film");
  LeakWords leak_words;
  add_leak_options(*leak, leak_words);
  leak->add_option("--svg", request.svg, "Draw the film's light and its ways into this file")
      ->type_name("FILE");

  CLI::App* timer = add(Command::timer, "timer", "Study a photocell-timed shutter timed by hand");
  timer->add_option("CONVERSION", request.conversion, "Conversion file")->required();

  CLI::App* path = add(Command::path, "path", "Study the film's way through an insert");
  path->add_option("CONVERSION", request.conversion, "Conversion file")->required();
  path->add_option("--svg", request.svg, "Draw it into this file")->type_name("FILE");

  CLI::App* expose = add(Command::expose, "expose", "Work out exposures on the loaded material");
  expose->add_option("CONVERSION", request.conversion, "Conversion file")->required();
  ExposeNumbers light;
  add_expose_options(*expose, light);

  CLI::App* flash = add(Command::flash, "flash", "Work out flash on the loaded material");
  flash->add_option("CONVERSION", request.conversion, "Conversion file")->required();

  CLI::App* open = app.add_subcommand("open", "Open a conversion in the browser, to look and try");
  open->callback([&request] { request.command = Command::open; });
  open->add_option("CONVERSION", request.conversion, "Conversion file")->required();
  open->add_option("--port", request.port, "Port on this machine; left out: any that is free")
      ->type_name("N")
      ->check(within(1024, 65535));
  open->add_option("-o", request.folder,
                   "Folder that results are made into; left out: beside the conversion file, named "
                   "for it")
      ->type_name("FOLDER");
  // How the workbench starts itself for what takes long; not for people.
  open->add_option("--errand", request.errand)->group("");

  try {
    app.parse(argc, argv);
    if (trap->parsed()) request.trap = trap_questions(trap_words);
    if (trace->parsed()) read_trace_words(trace_words, request.trace);
    if (leak->parsed()) request.leak = leak_request(leak_words);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app.exit(error);
    return complain(app, error, argc, argv);
  }
  if (f_number > 0) request.cover.aperture = FNumber{f_number};
  request.questions = questions_of(*lens, numbers);
  request.listing = lenses      ? Listing::lens_kinds
                    : materials ? Listing::materials
                    : emulsions ? Listing::emulsions
                    : bulbs     ? Listing::bulbs
                                : Listing::films;
  request.expose = questions_of(*expose, light);
  request.kind = kind == "conversion" ? NewKind::conversion
                 : kind == "prices"   ? NewKind::prices
                                      : NewKind::camera;
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
