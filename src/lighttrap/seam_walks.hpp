// SPDX-License-Identifier: MIT
// Light that has come through long seams, walked on in the hollow behind them to the film. What is
// narrow is solved in section, what is wide is walked in space.
// Derivation: docs/derivations/light-trap.md.
#pragma once
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <vector>

#include "lighttrap/leak.hpp"
#include "lighttrap/seam_light.hpp"

namespace backfit {

// A wall that lets some of the light on its outside through, evenly to all sides: a rectangle on a
// face of the hollow, from a corner along two sides, light leaving it towards across x along.
struct LitWall {
  SpacePoint corner, across, along;
  SpacePoint outwards;  // the way that its outside faces, of any length
  double passes = 1;    // part of the light that falls there
};

// Film that lies in the hollow beside the picture: triangles of the hollow whose `part` is its
// number, counted from 1, and whose corners run counterclockwise seen from the emulsion. It takes
// all light that meets it.
struct FilmPiece {
  Area area;
};

// Where a seam's inner mouth opens into the hollow: a rectangle, `across` from the mouth's right
// end to its left one, light leaving it towards across x along. `length`: of the seam, whose light
// all comes out there.
struct SeamMouth {
  std::size_t light = 0;  // the number of its SeamLight
  SpacePoint corner, across, along;
  Length length;
  double passes = 1;  // part that felt pressed into it lets by, of any light alike
};

class SeamWalks {
 public:
  // `hollow` is closed; its walls reach behind the mouths, and what light goes back into a mouth
  // meets them instead. Requires no fault_of(hollow, film); some mouths or walls, of some size, the
  // mouths' light among `lights`; pieces for all parts of the hollow but 0.
  SeamWalks(const Surfaces& hollow, const FilmPlane& film, std::vector<SeamLight> lights,
            std::vector<SeamMouth> mouths, std::vector<LitWall> walls = {},
            std::vector<FilmPiece> pieces = {});
  ~SeamWalks();
  SeamWalks(SeamWalks&&) noexcept;

  struct Order {
    std::size_t first = 0, histories = 0, threads = 1;  // whose number changes nothing but the time
    std::uint64_t seed = 1;
    std::function<bool()> may_go_on = [] { return true; };  // asked by all threads, often
    // How many of the histories each way gets, mouths first, in any one unit; a tenth of all is
    // shared alike. Left out: as much as light comes in by it. Changes the doubt and not the mean.
    std::vector<double> shares = {};
  };
  struct Light {
    // In parts of daylight.sky + daylight.sun; behind those of the picture one for each piece.
    std::vector<PatchLight> patches;
    // By mouths, then by walls: on all film, as if it were spread over one patch of the picture,
    // summed over the histories, likewise.
    std::vector<double> of_ways;
    std::vector<double> most;            // of each way's histories, that of the brightest,
    std::vector<std::size_t> brightest;  // and its number
    void add(const Light& other);
  };
  // Worthless once may_go_on said no. Light of orders that follow each other may be added. Requires
  // some light and, of a sun, a direction.
  Light walked(const Daylight& daylight, const Order& order) const;

  // Shares that serve picture and pieces alike: of each way the largest part that it brings of the
  // light on one of them, found by `order`'s walks.
  std::vector<double> shares(const Daylight& daylight, const Order& order) const;

  // Of 96 directions all round, each seam's own worst one and straight onto each wall, that by
  // which a sun gives the film most; how well each way is seen from the film is found by `order`'s
  // walks.
  SpacePoint worst_sun(const Order& order) const;

  // The way that a history's light took, from the outer mouth along the middle of the seam, or from
  // the wall, to the film; empty if it was lost.
  std::vector<SpacePoint> way(const Daylight& daylight, const Order& order,
                              std::size_t history) const;

  const std::vector<SeamLight>& lights() const;
  const std::vector<SeamMouth>& mouths() const;
  const std::vector<LitWall>& walls() const;

 private:
  struct Hollow;
  std::unique_ptr<const Hollow> hollow_;
};

}  // namespace backfit
