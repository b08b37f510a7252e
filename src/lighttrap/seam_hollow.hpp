// SPDX-License-Identifier: MIT
// The hollow behind seams and printed walls, and one history of light in it. For seam_walks.cpp.
#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

#include "lighttrap/rays.hpp"
#include "lighttrap/seam_walks.hpp"

namespace backfit {

// A mouth as three directions of length 1.
struct MouthFrame {
  ray::Vec in, left, along;

  SeamDirection seen(ray::Vec way) const { return {dot(way, in), dot(way, left), dot(way, along)}; }
};
MouthFrame inner_frame(const SeamMouth& mouth);
// The inner one's, turned back through the seam.
MouthFrame outer_frame(const SeamMouth& mouth, const GapProfile& profile);

struct SeamWalks::Hollow {
  Surfaces surfaces;
  FilmPlane film;
  std::vector<SeamLight> lights;
  std::vector<SeamMouth> mouths;
  std::vector<LitWall> walls;
  std::vector<FilmPiece> pieces;
  double offset_mm = 0;
  ray::Kernel kernel;
  std::vector<ray::Vec> out;  // of each triangle

  Hollow(const Surfaces& s, const FilmPlane& f, std::vector<SeamLight> l, std::vector<SeamMouth> m,
         std::vector<LitWall> w, std::vector<FilmPiece> p);

  std::size_t of_picture() const { return film.columns * film.rows; }
  std::size_t patches() const { return of_picture() + pieces.size(); }
  std::size_t ways() const { return mouths.size() + walls.size(); }
  // The area of a patch or piece, in patches of the picture.
  double in_patches(std::size_t patch) const;

  // Mouths and walls lit, and how many of the histories each gets.
  struct Sources {
    std::vector<SeamLight::Source> of_mouths;
    struct Flux {
      double sky_lx_mm2 = 0, sun_lx_mm2 = 0;
    };
    std::vector<Flux> of_walls;
    std::vector<double> light;    // of each way, in all
    std::vector<double> chances;  // running sums
    double patch_mm2 = 1, whole = 1;
  };
  // `shares` as in Order; all alike where `all_alike`.
  Sources sources(const Daylight& daylight, const std::vector<double>& shares,
                  bool all_alike = false) const;

  // What a history brings: light by one way, to the patches that it comes to.
  struct History {
    std::size_t way = 0;
    struct End {
      std::size_t patch = 0;
      double sky = 0, sun = 0;
    };
    std::vector<End> ends;
  };
  // Into `found`, kept from one to the next. `seen`, if given, gets each place that the light comes
  // to on its first way to film.
  void history(const Sources& s, std::uint64_t seed, std::size_t number, History& found,
               std::vector<ray::Vec>* seen = nullptr) const;

 private:
  // Light that sets out into the hollow, as much as all of its way's histories together.
  struct Begun {
    ray::Vec at, normal, way;
    Sources::Flux flux;
  };
  Begun begun(const Sources& s, std::size_t way, Random& random) const;
  struct Flight {
    ray::Vec at, normal, way;
    const Stuff* stuff = nullptr;  // of the wall that it has come to
  };
  enum class Meets { nothing, film, wall };
  // On to where it ends or is scattered next; on film also to which patch.
  Meets fly(Flight& flight, Random& random, std::size_t& patch, std::vector<ray::Vec>* seen) const;
  Sources::Flux through(const LitWall& wall, const Daylight& daylight) const;
  std::size_t patch_at(ray::Vec from, ray::Vec w, ray::Vec h) const;
};

}  // namespace backfit
