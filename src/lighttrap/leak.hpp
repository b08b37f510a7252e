// SPDX-License-Identifier: MIT
// Light that finds its way among surfaces to a film, by walks from the film outwards.
// Derivation: docs/derivations/light-trap.md.
#pragma once
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "lighttrap/scene.hpp"
#include "lighttrap/tally.hpp"

namespace backfit {

namespace ray {
class Walker;
}

// Of one patch of film: parts of the light outside, sky and sun on a face turned to it.
struct PatchLight {
  Tally all, sky, sun;
};

// One sort of way that light takes from outside to the film.
struct LeakPath {
  double share = 0;                // of the sky's light on the film
  std::vector<SpacePoint> points;  // of one that carried much, from where it came in to the film
  // For each seam on the way, from outside: the two parts that face each other there, the lower
  // number first; alike for a slit within one part.
  struct Seam {
    std::uint32_t one = 0, other = 0;
    SpacePoint place;  // where light came into it
  };
  std::vector<Seam> seams;
};

// Light outside from a direction, over what a sun in it would give.
struct SunResponse {
  SpacePoint towards;  // of length 1 mm
  double part = 0;     // that the film's mean illuminance is of the sun's on a face turned to it
};

// The number of the part that the film's middle lies within; empty if it lies in the open. Requires
// surfaces that are bodies, and no fault_of(surfaces, film).
std::optional<std::uint32_t> part_around(const Surfaces& surfaces, const FilmPlane& film);

// Who watches over the making of a map, which takes longer than many walks.
struct MapWatch {
  std::function<bool()> may_go_on = [] { return true; };      // asked by all threads, often
  std::function<void(double done)> progress = [](double) {};  // told by the caller's thread
};

// Walks from a film's patches back to a sky that is equally bright all round, and to the sun. A
// balance of zones, their exchange found by rays, tells where light comes from: there walks are
// aimed and split, elsewhere they end early. A wrong word of that balance costs time and not truth.
// The random numbers of a walk depend on the seed, its patch and its own number: the answer is the
// same from any number of threads.
class LeakWalks {
 public:
  // Requires no fault_of(surfaces, film); threads >= 1, whose number changes nothing but the time.
  // Worthless once watch.may_go_on said no: then no walk may be asked for.
  LeakWalks(const Surfaces& surfaces, const FilmPlane& film, std::size_t threads = 1,
            const MapWatch& watch = {});
  ~LeakWalks();
  LeakWalks(LeakWalks&&) noexcept;

  // For each patch of the film the part that its mean illuminance is of that on a face in the open,
  // by `histories` walks each. Requires histories >= 2, threads >= 1. A mean of 0 without an
  // interval: no way was found, which is no proof that there is none.
  std::vector<TallyResult> light(std::size_t histories, std::size_t threads = 1,
                                 std::uint64_t seed = 1) const;

  // Some walks of all: numbers `first` to `first + histories` - 1 of each of `patches`.
  struct Order {
    std::vector<std::size_t> patches;
    std::size_t first = 0, histories = 0, threads = 1;
    std::uint64_t seed = 1;
    std::function<bool()> may_go_on = [] { return true; };  // asked by all threads, often
  };
  // The tallies of `order.patches`, in their order, in parts of daylight.sky + daylight.sun.
  // Tallies of other walks may be added. Worthless once may_go_on said no. Requires some light and,
  // of a sun, a direction. A sun that is mirrored on its way in counts as a disc 10 degrees wide.
  std::vector<PatchLight> walked(const Daylight& daylight, const Order& order) const;

  // Where a sun would do how much, by directions about 22 degrees apart, the worst first. The mean
  // over each of them: a straight slit passes more when the sun stands just in it.
  std::vector<SunResponse> by_sun(const Order& order) const;

  // The ways that carry the sky's light, the largest share first, `most` of them. Surfaces of two
  // parts make a seam where they face each other within `near`, whether light met them there or, on
  // its way in from the sky, flew between them.
  std::vector<LeakPath> paths(const Order& order, Length near, std::size_t most) const;

  std::size_t zones() const;

 private:
  std::unique_ptr<const ray::Walker> walker_;
};

}  // namespace backfit
