// SPDX-License-Identifier: MIT
// Daylight in a long seam, solved in its section, and how it comes out inside: a source for walks
// among what lies behind. Derivation: docs/derivations/light-trap.md.
#pragma once
#include <cstddef>
#include <functional>
#include <memory>
#include <vector>

#include "lighttrap/profile.hpp"
#include "lighttrap/transmission.hpp"
#include "quantity/random.hpp"

namespace backfit {

// A direction of length 1 at a mouth of a seam: through the mouth inwards, from its right end to
// its left one, and along the seam.
struct SeamDirection {
  double in = 1, left = 0, along = 0;
};

// Light of a sky that is equally bright all round, and of a sun whose rays run along `towards` as
// the outer mouth sees them; both on a face in the open that is turned to them, in any one unit.
struct SeamDaylight {
  double sky = 0, sun = 0;
  SeamDirection towards;
};

// Copies share the solution.
class SeamLight {
 public:
  // What walls mirror along the seam is lost past its ends, whose nearness to scattered light does
  // not count. Requires no fault_of(profile); walls of each arm, 0 < reflectance <= 1,
  // gloss_index >= 1; length > 0. may_go_on is asked often; once it said no, it is worthless.
  SeamLight(
      const GapProfile& profile, const SeamWalls& walls, Length length = endless,
      const std::function<bool()>& may_go_on = [] { return true; });
  // Part of even light on the outer mouth that leaves by the inner one. Matt walls: three meshes,
  // as transmission(); walls of which some mirror: two, and two sets of rays.
  Transmission sky() const;
  // The same of a sun's light.
  double sun(const SeamDirection& towards) const;
  // The angle in the section from `in` to `left`, in rad, by which a sun gives the outer mouth's
  // inside most, cosine counted.
  double worst_angle() const;
  const GapProfile& profile() const;

  // What comes out inside, ready to be drawn from.
  class Source {
   public:
    // Light out of the inner mouth, per length of seam, in the daylight's unit times mm.
    double sky_mm = 0, sun_mm = 0;
    struct Ray {
      double place = 0;  // from the right end of the inner mouth, 0, to its left one, 1
      SeamDirection direction;
      double sky_mm = 0, sun_mm = 0;  // whose means over all rays are the above
    };
    Ray ray(Random& random) const;

    ~Source();
    Source(Source&&) noexcept;

   private:
    friend class SeamLight;
    struct State;
    explicit Source(std::unique_ptr<const State> state);
    std::unique_ptr<const State> state_;
  };
  Source source(const SeamDaylight& daylight) const;

 private:
  struct Solved;
  std::shared_ptr<const Solved> solved_;
};

}  // namespace backfit
