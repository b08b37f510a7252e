// SPDX-License-Identifier: MIT
// The program's commands: each reads its files, asks the rooms below, prints, and returns the
// exit status: 0 fine, 1 blockers found, 2 the input or the command can't be used.
#pragma once
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>

#include "cli/leak_options.hpp"
#include "conversion/cover_study.hpp"
#include "conversion/lens_study.hpp"
#include "conversion/trace_study.hpp"
#include "conversion/trap_study.hpp"
#include "quantity/light.hpp"

namespace backfit {

// Where a command reads shipped data and writes: results to `out`, findings and messages to `err`.
struct Surroundings {
  std::filesystem::path data;
  std::ostream& out;
  std::ostream& err;
  // Told what is begun, by what takes long.
  std::function<void(std::string_view stage)> begins = [](std::string_view) {};
};

// What was found; `with_light` how dark the film lies as well.
int check(const std::filesystem::path& conversion, bool with_light, bool json,
          const Surroundings& around);

// Every film of the catalogue against the camera file `camera`, best first; with a file of prices
// what a picture costs.
int match(const std::filesystem::path& camera, const std::filesystem::path& prices, bool json,
          const Surroundings& around);

// Builds the result folder `folder`, with how dark the film lies where that can be worked out. With
// blockers nothing is made, unless `despite_blockers`.
int make(const std::filesystem::path& conversion, const std::filesystem::path& folder, bool json,
         bool despite_blockers, const Surroundings& around);

enum class Listing { films, lens_kinds, materials, emulsions, bulbs };
int films(Listing listing, bool json, const Surroundings& around);

// Light on the sheet: each stop far and near, and a map.
int cover(const std::filesystem::path& conversion, const CoverQuestions& questions, bool json,
          const Surroundings& around);

// The shutter timed by hand: its law, and a switch with resistors.
int timer(const std::filesystem::path& conversion, bool json, const Surroundings& around);

// The film's way through an insert in the chamber.
int path(const std::filesystem::path& conversion, bool json, const Surroundings& around);
// The same, and its picture into the file `svg`.
int draw_path(const std::filesystem::path& conversion, const std::filesystem::path& svg, bool json,
              const Surroundings& around);

// Light by aperture to time on the loaded material; with a metered light, that exposure alone.
struct ExposeQuestions {
  std::optional<Ev> ev_100;             // as metered at ISO 100
  std::optional<Illuminance> incident;  // as metered by a flat receptor
  std::optional<FNumber> aperture;
  std::optional<Length> subject;
};
int expose(const std::filesystem::path& conversion, const ExposeQuestions& questions, bool json,
           const Surroundings& around);

// Guide number and distances of the plan's flash.
int flash(const std::filesystem::path& conversion, bool json, const Surroundings& around);

// First order, aberrations, rays and light of the lens file `lens`.
int lens(const std::filesystem::path& lens, const LensQuestions& questions, bool json,
         const Surroundings& around);

// Light through a gap or a hole.
int trap(const TrapQuestions& questions, bool json, const Surroundings& around);

// A recording of a shutter: how long it was open. Pictures and the camera file are written only
// where they are named.
struct TraceRequest {
  std::filesystem::path recording, svg, png, camera;
  std::optional<Time> step;
  TraceQuestions questions;
};
int trace(const TraceRequest& request, bool json, const Surroundings& around);

// Light that finds its way to a film: through a conversion's seams, or between parts from meshes.
int leak(const LeakRequest& request, bool json, const Surroundings& around);
// The same, and its picture into the file `svg`.
int draw_leak(const LeakRequest& request, const std::filesystem::path& svg, bool json,
              const Surroundings& around);

// A folder with a file to fill in, its schema and, for a camera, a survey sheet to print.
enum class NewKind { camera, conversion, prices };
int make_new(NewKind kind, const std::filesystem::path& folder, bool json,
             const Surroundings& around);

}  // namespace backfit
