// SPDX-License-Identifier: MIT
// A conversion whose film lies in what the camera brings, or in an insert that isn't printed, as a
// study of leaking light sees it: the small printed parts that stand between daylight and film.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/assembly.hpp"
#include "conversion/spacer_stack.hpp"

namespace backfit {

struct LeakOwn {
  std::optional<Slab> felt = {};  // as it was measured; left out: what it passes isn't counted
  bool window_open = false;       // the cover's slider
  Length thicker = {};            // the printed walls, than they are designed
  bool foil = false;              // over all of the window cover that daylight meets
  LeakSpacer spacer = {};         // where there is one
};

// Whether there is such a part: a lens spacer; of roll film a window cover, unless backing paper
// lies between it and the film. Blank covers, gauges and glass frames are off while a picture is
// taken, a gate mask and what is before the lens meet no daylight but the lens's.
bool has_small_parts(const Assembly& assembly);

// What was there before the conversion is taken as tight as it was. The film's back counts as if it
// were the emulsion. Requires has_small_parts(); gaps above 0.
SeamScene seam_scene(const Assembly& assembly, const LeakOwn& own, std::size_t columns,
                     std::size_t rows);

// What could be done about it, each by a scene of its own.
std::vector<SeamRemedy> seam_remedies(const Assembly& assembly, const LeakOwn& own,
                                      std::size_t columns, std::size_t rows);

}  // namespace backfit
