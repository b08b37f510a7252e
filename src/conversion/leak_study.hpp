// SPDX-License-Identifier: MIT
// How much daylight finds its way between given bodies to a film, by which ways, how sure that is,
// and how soon the film shows it.
#pragma once
#include <array>
#include <cmath>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "conversion/leak_film.hpp"
#include "conversion/seam_scene.hpp"
#include "lighttrap/fog.hpp"
#include "lighttrap/leak.hpp"
#include "solid/mesh_file.hpp"

namespace backfit {

// What a body is of.
struct LeakStuff {
  Wall finish;
  std::optional<Slab> soft = {};  // of felt or foam, which finishes don't count of
};

// A body among others: a whole mesh.
struct LeakPart {
  std::string name;
  Mesh mesh;
  LeakStuff stuff;
};

// Bodies in space, the film among them, and what the seams between two of them are called.
struct LeakScene {
  std::vector<LeakPart> parts;
  FilmPlane film;
  std::map<std::pair<std::string, std::string>, std::string> seam_names = {};
  Length near = 3 * mm;  // faces nearer than this make a seam
};

// The same bodies changed, and what was done.
struct LeakRemedy {
  std::string what;
  std::function<LeakScene()> scene;
};

struct LeakQuestions {
  LeakFilm film;
  Illuminance sky = 2e4 * lux;        // in the shade of a clear sky (daylight-illuminance-lists)
  Illuminance sun = full_sun.value;   // on a face turned to it
  std::optional<SpacePoint> towards;  // the sun; left out: the worst direction found
  std::size_t walks = 65536;          // of each patch, at most
  std::optional<Time> time;           // at most, about; the answer then depends on the machine
  std::uint64_t seed = 1;
};

// Who watches over a long study.
struct LeakWatch {
  std::size_t threads = 1;  // change nothing but the time
  std::function<bool()> may_go_on = [] { return true; };
  std::function<void(std::string_view stage, double done)> progress = [](std::string_view, double) {
  };
};

// A seam, by its section and what passes it; or a printed wall, by its readings.
struct LeakSeamLight {
  std::string name, side;
  Length gap, length;               // of a wall its edge along the hollow
  std::optional<Length> thickness;  // of a wall, which has no gap
  // Part of the sky's light on its outside; the doubt of its mesh, or of the readings.
  double through = 0, through_u = 0;
  double share = 0;  // of all light on the film
};

// One patch of film; parts of sky and sun together, see Daylight. Doubt is that of the walks, of
// seams' sections and of walls' readings.
struct LeakPatch {
  Length x, y;  // its middle from the film's, along its width and against its height
  TallyResult all, sky, sun;
  std::string name = {};  // of film beside the picture, which is one patch
};

// What the printed walls must take where their print isn't known, for all of their light together
// to stay under what shows in an hour.
struct WallNeed {
  Stops least;       // on each wall alike
  std::string wall;  // the thinnest
  Length thickness;
  std::array<Length, 2> steps;  // whose readings would tell
};

struct LeakWay {
  double share = 0;                // of the sky's light
  std::string seams;               // "seat seam, left; then within the holder"
  std::vector<SpacePoint> points;  // of one light path, from outside to the film
};

enum class LeakVerdict { tight, leaks, cannot_tell, not_converged, no_light_found };

struct LeakStudy {
  LeakQuestions asked;
  FilmPlane film;
  std::vector<std::string> parts;
  std::vector<LeakStuff> stuffs;  // of each part, where they are bodies in space; else empty
  std::size_t triangles = 0, zones = 0;
  Illuminance whole;               // sky and sun on a face turned to it
  SpacePoint towards;              // the sun, of length 1 mm; without a sun nothing
  std::size_t suns_alike = 0;      // other suns that do as much, see WorstSun
  std::vector<LeakPatch> patches;  // rows from the film's corner on
  std::vector<LeakPatch> pieces;   // film beside the picture
  // The patch that got most, the pieces counted behind the patches, and its light by walks of its
  // own, made after it was chosen.
  std::size_t worst = 0;
  TallyResult worst_light;
  const LeakPatch& worst_patch() const {
    return worst < patches.size() ? patches[worst] : pieces[worst - patches.size()];
  }
  std::optional<LuminousExposure> an_hour;  // there; empty: not converged
  std::vector<FogTime> fog;                 // to 0.02 and to 0.10, likewise
  std::vector<LeakWay> ways;
  std::vector<LeakSeamLight> seams;      // the largest share first; empty: all was walked in space
  std::optional<WallNeed> wall_need;     // then the light is that of the seams alone
  std::vector<std::string> not_counted;  // ways that are taken as shut, and why
  std::string shelter;                   // what stands round it all and is taken as open
  struct Remedied {
    std::string what;
    TallyResult light;  // of the worst patch
  };
  std::vector<Remedied> remedies;
  LeakVerdict verdict = LeakVerdict::cannot_tell;
};

// By how many stops a remedy dims the worst patch, within so much for 95 %.
struct RemedyChange {
  double stops = 0, within = 0;
  bool shows() const { return std::abs(stops) >= within; }
};
// Requires that both lights are known to be some.
RemedyChange change_by(const LeakStudy& study, const LeakStudy::Remedied& remedied);

// An hour in the sun must not raise the density by more than 0.02 (common practice).
inline constexpr Time leak_time = 3600 * second;

// Why such a scene can't be studied; empty when it can: whole bodies, a film in the open.
std::optional<MeshFault> fault_of(const LeakScene& scene);

// Requires no fault_of(scene). Empty when it was told to stop. The same question has the same
// answer unless `time` runs out.
std::optional<LeakStudy> leak_study(const LeakScene& scene, const LeakQuestions& questions,
                                    const std::vector<LeakRemedy>& remedies,
                                    const LeakWatch& watch);

// The same by seams: each solved in its section, and walked on in the hollow behind it.
// Requires no fault_of(scene), and none of the remedies'. Empty when it was told to stop.
std::optional<LeakStudy> leak_study(const SeamScene& scene, const LeakQuestions& questions,
                                    const std::vector<SeamRemedy>& remedies,
                                    const LeakWatch& watch);

// Sets verdict, an hour's light and times to fog by the worst patch's light.
void judge(LeakStudy& study);

// The middle of the film's patches, from its own, along its width and against its height.
std::vector<LeakPatch> dark_patches(const FilmPlane& film);

// The study's verdict in words.
std::string_view name_of(LeakVerdict verdict);

}  // namespace backfit
