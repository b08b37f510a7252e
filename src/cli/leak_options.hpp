// SPDX-License-Identifier: MIT
// The options of `leak`, and the questions they ask.
#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "conversion/leak_scene.hpp"
#include "conversion/leak_study.hpp"

namespace CLI {
class App;
}

namespace backfit {

// As written on the command line.
struct LeakWords {
  std::string conversion, reflectance = "5 %", seat_gap, holder_gap, slide_gap, window = "covered";
  std::vector<std::string> meshes, finishes, foams, felt = {"holder", "feet"}, felt_stops;
  std::vector<double> film_mm, facing = {0, 0, -1}, sun_from, grid = {4, 5};
  double gloss_index = 1, iso = 0, sky_lx = 2e4, sun_lx = 1e5, seconds = 0;
  std::size_t walks = 65536;
  std::uint64_t seed = 1;
};

// What `leak` asks of a conversion or of meshes.
struct LeakRequest {
  std::filesystem::path conversion;
  std::vector<std::filesystem::path> meshes;
  FilmPlane film;  // of the meshes; of a conversion its patches alone
  Wall wall;       // of the meshes that no other finish is given for
  // Of the files in `meshes` by their number, at most one of both.
  std::map<std::size_t, Wall> finishes;
  std::map<std::size_t, Slab> foams;
  LeakChoices choices;          // of a conversion
  std::optional<IsoSpeed> iso;  // left out: what the conversion says
  LeakQuestions questions;
};

void add_leak_options(CLI::App& leak, LeakWords& words);

// What the words ask. Throws CLI::ValidationError, naming the option, when one can't be read.
LeakRequest leak_request(const LeakWords& words);

}  // namespace backfit
