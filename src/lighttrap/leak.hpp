// SPDX-License-Identifier: MIT
// Light that finds its way among surfaces to a film, by walks from the film outwards.
// Derivation: docs/derivations/light-trap.md.
#pragma once
#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

#include "lighttrap/scene.hpp"
#include "lighttrap/tally.hpp"

namespace backfit {

// Walks from a film's patches back to a sky that is equally bright all round. A balance of zones,
// their exchange found by rays, tells where light comes from: there walks are aimed and split,
// elsewhere they end early. A wrong word of that balance costs time and not truth.
class LeakWalks {
 public:
  // Requires no fault_of(surfaces, film); threads >= 1, whose number changes nothing but the time.
  LeakWalks(const Surfaces& surfaces, const FilmPlane& film, std::size_t threads = 1);
  ~LeakWalks();
  LeakWalks(LeakWalks&&) noexcept;

  // For each patch of the film the part that its mean illuminance is of that on a face in the open,
  // by `histories` walks each. The random numbers of a walk depend on `seed`, its patch and its own
  // number: the answer is the same from any number of threads. Requires histories >= 2,
  // threads >= 1. A mean of 0 without an interval: no way was found, which is no proof that there
  // is none.
  std::vector<TallyResult> light(std::size_t histories, std::size_t threads = 1,
                                 std::uint64_t seed = 1) const;

  std::size_t zones() const;

 private:
  class Walker;
  std::unique_ptr<const Walker> walker_;
};

}  // namespace backfit
