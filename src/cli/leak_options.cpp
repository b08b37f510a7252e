// SPDX-License-Identifier: MIT
#include "cli/leak_options.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <variant>

#include "cli/reading_options.hpp"

namespace backfit {
namespace {

std::optional<Length> gap_of(const char* option, const std::string& text) {
  if (text.empty()) return {};
  const Length gap = length_of(option, text).value;
  if (gap < smallest_detail || gap > 10 * mm) {
    throw CLI::ValidationError(option,
                               fmt::format("{:g} mm is no gap from 0.01 to 10 mm", gap / mm));
  }
  return gap;
}

// "1mm=9.5", a piece of felt and the stops that it took.
SlabReading reading_of(const char* option, const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos) {
    throw CLI::ValidationError(option,
                               fmt::format("'{}' is no reading as 1mm=9.5, length=stops", text));
  }
  const std::string stops = text.substr(equals + 1);
  char* end = nullptr;
  const double less = std::strtod(stops.c_str(), &end);
  if (stops.empty() || *end != '\0' || !(less >= 0 && less <= 60)) {
    throw CLI::ValidationError(option, fmt::format("'{}' are no stops from 0 to 60", stops));
  }
  return {length_of(option, text.substr(0, equals)).value, {less}};
}

// The slab by "1mm=9.5" and "2mm=17".
Slab slab_of(const char* option, const std::string& one, const std::string& other) {
  const auto slab = slab_by({reading_of(option, one), reading_of(option, other)});
  if (const auto* why = std::get_if<std::string>(&slab)) {
    throw CLI::ValidationError(option, *why);
  }
  return std::get<Slab>(slab);
}

double reflectance_of(const char* option, const std::string& text) {
  const double reflectance = read_option(option, text, kind_of<double>(), Sign::not_negative).value;
  if (reflectance > 1) {
    throw CLI::ValidationError(
        option,
        fmt::format("faces reflect from 0 to 100 % of the light, found {:g} %", 100 * reflectance));
  }
  return reflectance;
}

// "4%" or "4%,1.5": what the faces scatter, and the index by which they mirror.
Wall finish_of(const char* option, const std::string& text) {
  const std::size_t comma = text.find(',');
  Wall wall{reflectance_of(option, text.substr(0, comma))};
  if (comma == std::string::npos) return wall;
  const std::string index = text.substr(comma + 1);
  char* end = nullptr;
  wall.gloss_index = std::strtod(index.c_str(), &end);
  if (index.empty() || *end != '\0' || !(wall.gloss_index >= 1 && wall.gloss_index <= 4)) {
    throw CLI::ValidationError(option,
                               fmt::format("'{}' is no refractive index from 1 to 4", index));
  }
  return wall;
}

// A mesh's number by "gasket.stl=...", and what comes behind.
std::pair<std::size_t, std::string> of_mesh(const char* option, const LeakWords& w,
                                            const std::string& text) {
  std::string names;
  for (std::size_t i = 0; i < w.meshes.size(); ++i) {
    if (text.starts_with(w.meshes[i] + "=")) return {i, text.substr(w.meshes[i].size() + 1)};
    names += (names.empty() ? "" : ", ") + w.meshes[i];
  }
  throw CLI::ValidationError(
      option, fmt::format("'{}' begins with none of the --mesh files and '=': {}", text, names));
}

// What each mesh is of.
void read_materials(const LeakWords& w, LeakRequest& r) {
  for (const std::string& text : w.finishes) {
    const auto [mesh, finish] = of_mesh("--finish", w, text);
    if (!r.finishes.emplace(mesh, finish_of("--finish", finish)).second) {
      throw CLI::ValidationError("--finish", fmt::format("'{}' has two finishes", w.meshes[mesh]));
    }
  }
  for (const std::string& text : w.foams) {
    const auto [mesh, readings] = of_mesh("--foam", w, text);
    const std::size_t comma = readings.find(',');
    if (comma == std::string::npos) {
      throw CLI::ValidationError(
          "--foam",
          fmt::format("'{}' is one reading; two are needed, as 1mm=9.5,2mm=17", readings));
    }
    const Slab slab = slab_of("--foam", readings.substr(0, comma), readings.substr(comma + 1));
    if (!r.foams.emplace(mesh, slab).second || r.finishes.contains(mesh)) {
      throw CLI::ValidationError(
          "--foam", fmt::format("'{}' is of one material, and another was given", w.meshes[mesh]));
    }
  }
}

// Emulsion towards `facing`, level, as high as it goes.
FilmPlane film_of(const std::vector<double>& film, const std::vector<double>& facing,
                  std::size_t columns, std::size_t rows) {
  using Triple = std::array<double, 3>;
  const auto cross = [](const Triple& a, const Triple& b) {
    return Triple{a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
  };
  const auto unit = [](Triple a) {
    const double length = std::hypot(a[0], a[1], a[2]);
    for (double& x : a) x /= length;
    return a;
  };
  const double length = std::hypot(facing[0], facing[1], facing[2]);
  if (!(length > 1e-9)) throw CLI::ValidationError("--facing", "0,0,0 is no direction");
  const Triple n = unit({facing[0], facing[1], facing[2]});
  const Triple up = std::abs(n[1]) > 0.9 ? Triple{0, 0, 1} : Triple{0, 1, 0};
  const Triple right = unit(cross(n, up)), down = cross(n, right);
  const auto along = [&](const Triple& d, double by) {
    return SpacePoint{by * d[0] * mm, by * d[1] * mm, by * d[2] * mm};
  };
  FilmPlane f;
  f.width = along(right, film[3]);
  f.height = along(down, film[4]);
  f.corner = {film[0] * mm - 0.5 * (f.width.x + f.height.x),
              film[1] * mm - 0.5 * (f.width.y + f.height.y),
              film[2] * mm - 0.5 * (f.width.z + f.height.z)};
  f.columns = columns;
  f.rows = rows;
  return f;
}

}  // namespace

void add_leak_options(CLI::App& leak, LeakWords& w) {
  auto* conversion = leak.add_option("CONVERSION", w.conversion,
                                     "Conversion file: what carries the film is printed, or a lens "
                                     "spacer or window cover");
  auto* mesh = leak.add_option("--mesh", w.meshes,
                               "Instead: a part drawn elsewhere, STL (in mm) or 3MF; once for each "
                               "file. Parts must be whole bodies in one set of coordinates")
                   ->type_name("FILE")
                   ->expected(1)
                   ->take_all()
                   ->allow_extra_args(false)
                   ->excludes(conversion);
  auto* film = leak.add_option("--film", w.film_mm,
                               "The film: its middle, width and height in mm, its emulsion facing "
                               "down the z axis, so that from behind x is right and y up")
                   ->type_name("X,Y,Z,W,H")
                   ->delimiter(',')
                   ->expected(5)
                   ->check(within(-1e4, 1e4))
                   ->needs(mesh);
  mesh->needs(film);
  leak.add_option("--facing", w.facing, "Where the emulsion faces")
      ->type_name("X,Y,Z")
      ->delimiter(',')
      ->expected(3)
      ->check(within(-1e4, 1e4))
      ->needs(film)
      ->capture_default_str();
  leak.add_option("--reflectance", w.reflectance, "Light that the parts' faces scatter")
      ->type_name("PERCENT")
      ->needs(mesh)
      ->capture_default_str();
  leak.add_option("--specular", w.gloss_index,
                  "Faces that also mirror, as a smooth face of this refractive index: 1.5 a glossy "
                  "print; 1: dead matt")
      ->type_name("INDEX")
      ->check(within(1, 4))
      ->needs(mesh)
      ->capture_default_str();
  leak.add_option("--finish", w.finishes,
                  "Another finish of one part: what its faces scatter and, if they mirror as well, "
                  "their refractive index: lid.stl=4%,1.5; once for each part")
      ->type_name("FILE=PERCENT,INDEX")
      ->expected(1)
      ->take_all()
      ->allow_extra_args(false)
      ->needs(mesh);
  leak.add_option(
          "--foam", w.foams,
          "A part of felt or foam, drawn as thick as it will lie pressed, by the light that "
          "two pieces of it took before a meter: gasket.stl=1mm=9.5,2mm=17; once for each "
          "part")
      ->type_name("FILE=LENGTH=STOPS,...")
      ->expected(1)
      ->take_all()
      ->allow_extra_args(false)
      ->needs(mesh);
  leak.add_option(
          "--seat-gap", w.seat_gap,
          "Gap between seat and plate or adapter, under an insert's cheeks and end walls, before "
          "the "
          "face of a holder in the pack's place, or, with nothing of these, beside a lens spacer; "
          "left out: what the printer may be off, or its clearance")
      ->type_name("LENGTH")
      ->excludes(mesh);
  leak.add_option("--holder-gap", w.holder_gap,
                  "Gap between plate and holder, between adapter and instant back, or between an "
                  "insert or a holder in the pack's place and its lid; left out: what the printer "
                  "may be off")
      ->type_name("LENGTH")
      ->excludes(mesh);
  leak.add_option("--slide-gap", w.slide_gap,
                  "Gap left by the felt in the dark slide's slot; left out: shut")
      ->type_name("LENGTH")
      ->excludes(mesh);
  leak.add_option(
          "--felt", w.felt,
          "Where felt lies: holder (along its edges, or round the opening of an instant back "
          "without tongue and groove), groove (of the seat); of an insert feet (under cheeks "
          "and end walls), floor (round it, in the old gate), bores (round pins and shaft); "
          "pack (beside a holder in the pack's place); none")
      ->type_name("PLACE,...")
      ->delimiter(',')
      ->check(CLI::IsMember({"holder", "groove", "feet", "floor", "bores", "pack", "none"}))
      ->excludes(mesh)
      ->capture_default_str();
  leak.add_option("--window", w.window,
                  "The red window of an insert or under a window cover: covered or open")
      ->type_name("STATE")
      ->check(CLI::IsMember({"covered", "open"}))
      ->excludes(mesh)
      ->capture_default_str();
  leak.add_option("--felt-stops", w.felt_stops,
                  "Light that two pieces of the felt, lying as they will be, took before a meter: "
                  "thickness=stops of each; left out: what felt passes is not counted")
      ->type_name("LENGTH=STOPS,...")
      ->delimiter(',')
      ->expected(2)
      ->excludes(mesh);
  leak.add_option("--iso", w.iso,
                  "Speed of the film; left out: by the conversion's [exposure], or 400")
      ->type_name("N")
      ->check(within(0.1, 1e5));
  leak.add_option("--sky", w.sky_lx, "Light from all round on a face in the open")
      ->type_name("LX")
      ->check(within(0, 1e6))
      ->capture_default_str();
  leak.add_option("--sun", w.sun_lx, "Sun on a face turned to it")
      ->type_name("LX")
      ->check(within(0, 1e6))
      ->capture_default_str();
  leak.add_option("--sun-from", w.sun_from,
                  "Where the sun stands, seen from the film; left out: the worst of 96 directions")
      ->type_name("X,Y,Z")
      ->delimiter(',')
      ->expected(3)
      ->check(within(-1e4, 1e4));
  leak.add_option("--grid", w.grid, "Patches of the map along the film's width and height")
      ->type_name("COLUMNS,ROWS")
      ->delimiter(',')
      ->expected(2)
      ->check(within(1, 40))
      ->capture_default_str();
  leak.add_option("--walks", w.walks, "Walks from each patch, at most")
      ->type_name("COUNT")
      ->check(CLI::Range(std::size_t{256}, std::size_t{1} << 32U))
      ->capture_default_str();
  leak.add_option("--seconds", w.seconds,
                  "About how long to walk, at most; the answer then depends on the machine")
      ->type_name("S")
      ->check(within(0.1, 1e6));
  leak.add_option("--seed", w.seed, "Start of the random numbers")
      ->type_name("COUNT")
      ->check(CLI::Range(std::uint64_t{0}, std::uint64_t{1} << 32U))
      ->capture_default_str();
}

LeakRequest leak_request(const LeakWords& w) {
  if (w.conversion.empty() && w.meshes.empty()) {
    throw CLI::ValidationError("leak", "a conversion file, or --mesh and --film, is needed");
  }
  LeakRequest r;
  r.conversion = w.conversion;
  r.meshes.assign(w.meshes.begin(), w.meshes.end());
  const auto columns = static_cast<std::size_t>(w.grid[0]),
             rows = static_cast<std::size_t>(w.grid[1]);
  if (!w.meshes.empty()) {
    if (!(w.film_mm[3] > 0 && w.film_mm[4] > 0)) {
      throw CLI::ValidationError("--film", "width and height must be more than nothing");
    }
    r.film = film_of(w.film_mm, w.facing, columns, rows);
    r.wall = {reflectance_of("--reflectance", w.reflectance), w.gloss_index};
    read_materials(w, r);
  }
  r.film.columns = columns;
  r.film.rows = rows;
  LeakBack& back = r.choices.back;
  LeakInsert& insert = r.choices.insert;
  LeakPack& pack = r.choices.pack;
  LeakOwn& own = r.choices.own;
  back.seat_gap = insert.foot_gap = pack.face_gap = own.spacer.face_gap =
      gap_of("--seat-gap", w.seat_gap);
  back.holder_gap = insert.lid_gap = pack.lid_gap = gap_of("--holder-gap", w.holder_gap);
  back.slide_gap = pack.slide_gap = gap_of("--slide-gap", w.slide_gap);
  const auto has = [&](const char* place) {
    return std::ranges::find(w.felt, place) != w.felt.end();
  };
  if (has("none") && w.felt.size() > 1) {
    throw CLI::ValidationError("--felt", "none goes with no other place");
  }
  if (!w.felt_stops.empty()) {
    back.felt = insert.felt = pack.felt = own.felt =
        slab_of("--felt-stops", w.felt_stops[0], w.felt_stops[1]);
  }
  back.felt_round_holder = has("holder");
  back.felt_in_groove = has("groove");
  insert.felt_under_feet = has("feet");
  insert.felt_round_floor = has("floor");
  insert.felt_in_bores = has("bores");
  pack.felt_beside = has("pack");
  insert.window_open = own.window_open = w.window == "open";
  LeakQuestions& q = r.questions;
  if (w.iso > 0) r.iso = IsoSpeed{w.iso};
  q.sky = w.sky_lx * lux;
  q.sun = w.sun_lx * lux;
  if (!(q.sky + q.sun > Illuminance{})) {
    throw CLI::ValidationError("--sky", "without a sun there must be some sky");
  }
  if (!w.sun_from.empty()) {
    if (!(std::hypot(w.sun_from[0], w.sun_from[1], w.sun_from[2]) > 1e-9)) {
      throw CLI::ValidationError("--sun-from", "0,0,0 is no direction");
    }
    q.towards = SpacePoint{w.sun_from[0] * mm, w.sun_from[1] * mm, w.sun_from[2] * mm};
  }
  q.walks = w.walks;
  if (w.seconds > 0) q.time = w.seconds * second;
  q.seed = w.seed;
  return r;
}

}  // namespace backfit
