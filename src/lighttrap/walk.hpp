// SPDX-License-Identifier: MIT
// Light through a gap by random walks: the second, independent way to what transmission() works
// out. Nothing is cut into pieces; the answer has only a random error.
#pragma once
#include <cstddef>
#include <cstdint>
#include <memory>

#include "lighttrap/profile.hpp"
#include "lighttrap/tally.hpp"

namespace backfit {

// Walks of light from the outer mouth, evenly from all sides, until it leaves or is lost. A coarse
// balance tells from where it is likelier to get through: there a walk is aimed, and split into
// several of less weight; elsewhere it ends early or goes on with more. A wrong word of that
// balance costs time and not truth.
class GapWalks {
 public:
  // Requires no fault_of(profile); 0 < reflectance <= 1, gloss_index >= 1. `distortion` >= 1
  // multiplies the balance's word from place to place by up to itself either way, to show that the
  // answer does not hang on it.
  GapWalks(const GapProfile& profile, const Wall& wall, double distortion = 1);
  ~GapWalks();
  GapWalks(GapWalks&&) noexcept;

  // The part of the light that leaves by the inner mouth, by `histories` walks. The random numbers
  // of a walk depend on `seed` and its own number alone. Requires histories >= 2.
  TallyResult through(std::size_t histories, std::uint64_t seed = 1) const;

 private:
  class Walker;
  std::unique_ptr<const Walker> walker_;
};

}  // namespace backfit
